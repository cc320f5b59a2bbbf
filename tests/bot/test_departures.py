"""What was approved goes once, in order, and nobody guesses what became of it."""

import asyncio
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot import maker_side
from bot.departures import CRASHED, Sender, arrived, claim, recover
from bot.desk import Desk
from bot.errors import NotGoneError, RefusedError, UnsureError
from bot.keeping import UNREAD, WROTE_AGAIN
from bot.message import ChannelName, Outgoing
from bot.retry import MOST_ATTEMPTS, wait_s
from bot.store.parts import Part
from tests.fakes import ANN, FIVE, FOUR, Clock, FakeChannel, drafted, number, say, shop_desk

LONG = "\n\n".join(f"Paragraph {n}. " + "word " * 300 for n in range(6))


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def desk(tmp_path: Path, clock: Clock) -> Iterator[Desk]:
    with shop_desk(tmp_path, clock=clock) as desk:
        yield desk


def approved(desk: Desk, text: str = FIVE, *, own: str = "", address: str = "5001") -> int:
    row = drafted(desk, text, address=address)
    if own:
        changed = maker_side.change(desk, number(row), own, ANN).draft
        assert changed is not None
        row = changed
    assert maker_side.approve(desk, number(row), ANN, sure=True).done
    return row.enquiry_id


def send(desk: Desk, channel: FakeChannel, told: list[Part] | None = None) -> int:
    sender = Sender(
        desk.database, {channel.name: channel}, clock=desk.clock, told=(told if told is not None else []).append
    )
    return asyncio.run(sender.send_due())


def parts(desk: Desk, enquiry: int = 1) -> list[Part]:
    return list(desk.worked_out(enquiry).history.parts)


def states(desk: Desk, enquiry: int = 1) -> list[str]:
    return [part.state for part in parts(desk, enquiry)]


def test_an_approved_text_goes_once(desk: Desk) -> None:
    approved(desk)
    channel = FakeChannel()

    assert [send(desk, channel), send(desk, channel)] == [1, 0]
    assert len(channel.arrived) == 1
    assert [(part.state, part.external_id) for part in parts(desk)] == [("gone", "5001:sent1")]


def test_what_went_stands_in_the_enquiry_in_its_place(desk: Desk) -> None:
    approved(desk, FOUR)
    send(desk, FakeChannel())
    say(desk, "5.25 in wide")

    messages = desk.worked_out(1).history.messages
    assert [(row.author, row.external_id == "5001:sent1") for row in messages] == [
        ("customer", False),
        ("tapeline", True),
        ("customer", False),
    ]


def test_what_the_customer_writes_while_a_text_is_going_answers_it(desk: Desk) -> None:
    approved(desk, FOUR)
    with desk.database.write() as connection:
        going = claim(connection, parts(desk)[0], at=desk.clock())
    say(desk, "5.25")
    assert going is not None
    with desk.database.write() as connection:
        arrived(connection, going, "5001:sent1")

    row = desk.draft(1)

    assert row is not None
    assert row.kind == "answer"


def test_what_surely_did_not_go_is_tried_again_later(desk: Desk, clock: Clock) -> None:
    approved(desk)
    channel = FakeChannel(then=[NotGoneError("no connection")])
    send(desk, channel)
    assert [(part.state, part.error) for part in parts(desk)] == [("queued", "no connection")]
    assert send(desk, channel) == 0
    clock.pass_(seconds=2)

    assert send(desk, channel) == 1
    assert [(part.state, part.error, part.attempts) for part in parts(desk)] == [("gone", None, 2)]


def test_a_channel_that_asks_to_wait_is_obeyed(desk: Desk, clock: Clock) -> None:
    approved(desk)
    channel = FakeChannel(then=[NotGoneError("slow down", retry_after_s=300)])
    send(desk, channel)
    clock.pass_(seconds=299)
    assert send(desk, channel) == 0
    clock.pass_(seconds=4)

    assert send(desk, channel) == 1


def test_after_about_a_day_of_trying_the_maker_is_told(desk: Desk, clock: Clock) -> None:
    approved(desk)
    channel = FakeChannel(then=[NotGoneError("no connection") for _ in range(MOST_ATTEMPTS)])
    while send(desk, channel):
        clock.pass_(hours=1)

    (part,) = parts(desk)
    assert part.state == "failed"
    assert part.error == f"given up after {MOST_ATTEMPTS} attempts: no connection"


def test_what_a_channel_refuses_failed_for_good(desk: Desk) -> None:
    approved(desk)
    told: list[Part] = []
    channel = FakeChannel(then=[RefusedError("the customer has blocked the bot")])

    assert [send(desk, channel, told), send(desk, channel)] == [1, 0]
    assert [(part.state, part.error) for part in told] == [("failed", "the customer has blocked the bot")]


@pytest.mark.parametrize(
    "error", [UnsureError("no answer in time"), TimeoutError(), RuntimeError("x"), asyncio.CancelledError()], ids=repr
)
def test_what_nobody_knows_is_unsure_and_never_sent_again_by_itself(
    desk: Desk, clock: Clock, error: BaseException
) -> None:
    approved(desk)
    channel = FakeChannel(then=[error])
    if isinstance(error, asyncio.CancelledError):
        with pytest.raises(asyncio.CancelledError):
            send(desk, channel)
    else:
        send(desk, channel)
    clock.pass_(days=30)

    assert states(desk) == ["unsure"]
    assert send(desk, channel) == 0


def test_a_fault_of_our_own_is_named_without_anybodys_words(desk: Desk) -> None:
    approved(desk)
    send(desk, FakeChannel(then=[ValueError("Pickle lives in Elm Street")]))

    assert parts(desk)[0].error == "a fault of tapeline's own (ValueError)"


def test_what_was_going_in_a_crash_is_unsure_after_it(desk: Desk) -> None:
    approved(desk)
    with desk.database.write() as connection:
        assert claim(connection, parts(desk)[0], at=desk.clock())

    assert recover(desk.database) == 1
    assert [(part.state, part.error) for part in parts(desk)] == [("unsure", CRASHED)]


def test_a_part_that_was_claimed_cannot_be_claimed_again(desk: Desk) -> None:
    approved(desk)
    queued = parts(desk)[0]
    with desk.database.write() as connection:
        assert claim(connection, queued, at=desk.clock())
    with desk.database.write() as connection:
        assert claim(connection, queued, at=desk.clock()) is None


def test_the_maker_settles_what_was_unsure(desk: Desk) -> None:
    approved(desk)
    channel = FakeChannel(then=[UnsureError("no answer"), UnsureError("no answer")])
    send(desk, channel)
    row = desk.worked_out(1).history.drafts[0]

    assert maker_side.send_again(desk, number(row), ANN) == 1
    send(desk, channel)
    assert states(desk) == ["unsure"]
    assert maker_side.went(desk, number(row), ANN) == 1
    assert states(desk) == ["gone"]
    assert send(desk, channel) == 0


def test_the_key_stays_the_same_over_all_attempts(desk: Desk, clock: Clock) -> None:
    approved(desk)
    channel = FakeChannel(then=[NotGoneError("x"), NotGoneError("x")])
    for _ in range(3):
        send(desk, channel)
        clock.pass_(minutes=1)

    assert len({text.key for text in channel.tried}) == 1
    assert len(channel.tried[0].key) <= 25


def test_a_long_text_goes_in_parts_and_in_order(desk: Desk) -> None:
    approved(desk, own=LONG)
    channel = FakeChannel()
    tried = []
    while send(desk, channel):
        tried.append(len(channel.arrived))

    assert tried == [1, 2, 3]
    assert "".join("".join(channel.texts()).split()) == "".join(LONG.split())
    assert all(len(text) <= 4096 for text in channel.texts())


def test_a_part_that_waits_keeps_the_later_ones_back(desk: Desk, clock: Clock) -> None:
    approved(desk, own=LONG)
    channel = FakeChannel(then=[None, NotGoneError("x")])
    send(desk, channel)
    send(desk, channel)

    assert states(desk) == ["gone", "queued", "queued"]
    assert send(desk, channel) == 0
    clock.pass_(minutes=1)
    assert send(desk, channel) == 1


def test_after_a_part_that_failed_the_rest_is_held(desk: Desk) -> None:
    approved(desk, own=LONG)
    channel = FakeChannel(then=[None, RefusedError("x")])
    send(desk, channel)
    send(desk, channel)

    assert states(desk) == ["gone", "failed", "held"]
    assert send(desk, channel) == 0


def test_half_a_text_is_not_left_standing_when_the_customer_writes(desk: Desk) -> None:
    approved(desk, own=LONG)
    channel = FakeChannel()
    send(desk, channel)
    say(desk, "5.5 in wide, sorry")

    assert states(desk) == ["gone", "queued", "queued"]


def test_a_text_waits_for_an_earlier_one_of_the_same_enquiry(desk: Desk) -> None:
    approved(desk, FOUR)
    channel = FakeChannel(then=[UnsureError("x")])
    send(desk, channel)
    approved(desk, "5.25 in wide")

    assert send(desk, channel) == 0
    maker_side.went(desk, number(desk.worked_out(1).history.drafts[0]), ANN)
    assert send(desk, channel) == 1


def test_one_customers_trouble_keeps_no_other_back(desk: Desk) -> None:
    first, second = approved(desk, address="1"), approved(desk, address="2")
    channel = FakeChannel(then=[RefusedError("x")])

    assert send(desk, channel) == 2
    assert sorted(states(desk, first) + states(desk, second)) == ["failed", "gone"]


def test_a_channel_that_is_not_running_keeps_its_texts(desk: Desk) -> None:
    approved(desk)

    assert send(desk, FakeChannel(name=ChannelName.DISCORD)) == 0
    assert states(desk) == ["queued"]


def test_two_senders_send_once(tmp_path: Path) -> None:
    """There should be one; if there are two all the same, a customer still gets one text."""
    with shop_desk(tmp_path) as desk:
        approved(desk)
        channel = FakeChannel()

        async def both() -> None:
            senders = [Sender(desk.database, {channel.name: channel}, clock=desk.clock) for _ in range(2)]
            await asyncio.gather(*(sender.send_due() for sender in senders))

        asyncio.run(both())

        assert len(channel.arrived) == 1
        assert [row.author for row in desk.worked_out(1).history.messages] == ["customer", "tapeline"]


def test_a_text_carries_what_its_channel_needs(desk: Desk) -> None:
    say(desk, FOUR, external_id="5001:a", thread_key="t")
    approved(desk, "5.25 in wide")
    channel = FakeChannel()
    send(desk, channel)

    text = channel.arrived[0]
    assert (text.channel, text.account, text.address, text.thread_key) == ("telegram", "", "5001", "t")


def test_waits_grow_and_are_spread() -> None:
    assert [wait_s(n, 1.0) for n in (1, 2, 3, 4)] == [2, 4, 8, 16]
    assert wait_s(1, 0.0) == 1
    assert wait_s(MOST_ATTEMPTS, 1.0) == 900
    assert 20 * 3600 < sum(wait_s(n, 1.0) for n in range(1, MOST_ATTEMPTS)) < 30 * 3600


class Finds(FakeChannel):
    """A channel that knows what became of a text."""

    async def find(self, text: Outgoing) -> str | None:
        return f"found {text.key}"


def test_a_text_that_the_channel_finds_has_gone_and_nobody_is_asked(desk: Desk) -> None:
    approved(desk)

    send(desk, Finds(then=[UnsureError("no answer")]))

    (part,) = parts(desk)
    assert (part.state, part.external_id) == ("gone", f"found {part.key}")


@pytest.mark.parametrize(("channel", "state"), [(Finds(), "gone"), (FakeChannel(), "unsure")])
def test_after_a_crash_the_channel_is_asked_what_became_of_a_text(desk: Desk, channel: FakeChannel, state: str) -> None:
    approved(desk)
    with desk.database.write() as connection:
        claim(connection, parts(desk)[0], at=desk.clock())
    recover(desk.database)

    asyncio.run(Sender(desk.database, {channel.name: channel}, clock=desk.clock).look_up())

    assert states(desk) == [state]
    assert channel.tried == []


@pytest.mark.parametrize(("words", "asks"), [(FOUR, True), (FIVE, False)])
def test_a_channel_is_told_whether_a_text_asks_for_measures(desk: Desk, words: str, asks: bool) -> None:
    approved(desk, words)
    channel = FakeChannel()

    send(desk, channel)

    assert [text.asks for text in channel.arrived] == [asks]


@pytest.mark.parametrize(
    ("words", "drafts", "state", "why"),
    [
        pytest.param("sorry, the width is 5.75 in", False, "held", UNREAD, id="not read yet"),
        pytest.param("sorry, the width is 5.75 in", True, "held", WROTE_AGAIN, id="read, and a new draft stands"),
        pytest.param("thanks!", True, "queued", "asked to wait", id="read, and nothing new"),
    ],
)
def test_what_came_while_a_text_was_tried_in_vain_holds_it(
    desk: Desk, words: str, drafts: bool, state: str, why: str
) -> None:
    approved(desk)

    class Busy(FakeChannel):
        async def deliver(self, text: Outgoing) -> str:
            enquiry = say(desk, words)
            if drafts:
                desk.draft(enquiry)
            raise NotGoneError("asked to wait")

    send(desk, Busy())

    assert [(part.state, part.error) for part in parts(desk)] == [(state, why)]
