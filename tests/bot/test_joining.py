"""Which enquiry a message belongs to."""

import asyncio
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot import maker_side
from bot.departures import Sender
from bot.desk import Desk
from bot.message import ChannelName
from bot.store.enquiries import add_enquiry, find_enquiry
from tests.fakes import ANN, FIVE, FOUR, THANKS, Clock, FakeChannel, drafted, message, number, say, shop_desk


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def desk(tmp_path: Path, clock: Clock) -> Iterator[Desk]:
    with shop_desk(tmp_path, clock=clock) as desk:
        yield desk


def state(desk: Desk, enquiry: int) -> str:
    with desk.database.read() as connection:
        found = find_enquiry(connection, enquiry)
    assert found is not None
    return found.state


def test_a_strangers_first_message_opens_one(desk: Desk) -> None:
    assert say(desk, FOUR, address="1") != say(desk, FOUR, address="2")


def test_the_next_message_joins_the_newest_open_one(desk: Desk) -> None:
    assert say(desk, FOUR) == say(desk, "5.25 in wide")


def test_the_same_address_on_another_channel_is_another_customer(desk: Desk) -> None:
    assert say(desk, FOUR) != say(desk, FOUR, channel=ChannelName.DISCORD)


def test_an_answer_joins_the_enquiry_of_what_it_answers(desk: Desk) -> None:
    first = say(desk, FOUR, external_id="5001:a")
    maker_side.close(desk, first, ANN)
    with desk.database.write() as connection:
        newer = add_enquiry(connection, 1, None, at=desk.clock())

    assert say(desk, "5.25 in wide") == newer
    assert say(desk, "5.25 in wide", reply_to="5001:a") == first


def test_nobody_gets_into_anothers_enquiry_by_naming_its_message(desk: Desk) -> None:
    hers = say(desk, FOUR, external_id="5001:a")

    assert say(desk, "and me?", address="666", reply_to="5001:a") != hers


def test_nobody_gets_into_anothers_enquiry_by_naming_its_thread(desk: Desk) -> None:
    hers = say(desk, FOUR, thread_key="t1")

    assert say(desk, "and me?", address="666", thread_key="t1") != hers


def test_each_thread_is_an_enquiry(desk: Desk) -> None:
    first = say(desk, FOUR, thread_key="t1")
    desk.keep(message("another dog", thread_key="t1"))

    assert say(desk, "more", thread_key="t1") == first


def test_an_answer_to_a_text_of_ours_joins_its_enquiry(desk: Desk) -> None:
    row = drafted(desk, FOUR)
    maker_side.approve(desk, number(row), ANN)
    channel = FakeChannel()
    asyncio.run(Sender(desk.database, {channel.name: channel}, clock=desk.clock).send_due())
    maker_side.close(desk, row.enquiry_id, ANN)

    assert say(desk, "5.25 in wide", reply_to="5001:sent1") == row.enquiry_id


def test_thanks_does_not_open_a_closed_enquiry_again(desk: Desk) -> None:
    enquiry = drafted(desk, FOUR).enquiry_id
    maker_side.close(desk, enquiry, ANN)

    assert say(desk, THANKS) == enquiry
    assert desk.draft(enquiry) is None
    assert state(desk, enquiry) == "closed"


def test_what_came_in_just_before_it_was_closed_is_not_lost(desk: Desk) -> None:
    enquiry = say(desk, FOUR)
    maker_side.close(desk, enquiry, ANN)

    assert desk.draft(enquiry) is not None
    assert state(desk, enquiry) == "open"


def test_new_measures_open_a_closed_enquiry_again(desk: Desk) -> None:
    row = drafted(desk, FOUR)
    maker_side.close(desk, row.enquiry_id, ANN)

    again = drafted(desk, "she is 5.25 in wide")

    assert again.enquiry_id == row.enquiry_id
    assert state(desk, row.enquiry_id) == "open"
    assert again.kind == "answer"


def test_long_after_it_was_closed_a_message_opens_a_new_one(desk: Desk, clock: Clock) -> None:
    first = say(desk, FOUR)
    maker_side.close(desk, first, ANN)
    clock.pass_(days=61)

    assert say(desk, "my new puppy is 5 in wide") != first


def test_an_enquiry_closes_after_days_without_a_word(desk: Desk, clock: Clock) -> None:
    row = drafted(desk, FIVE)
    maker_side.set_aside(desk, number(row), ANN)
    clock.pass_(days=13)
    assert desk.close_quiet() == []
    clock.pass_(days=2)

    assert desk.close_quiet() == [row.enquiry_id]
    assert state(desk, row.enquiry_id) == "closed"


def test_an_enquiry_in_which_the_maker_still_has_to_act_stays_open(desk: Desk, clock: Clock) -> None:
    drafted(desk, FIVE)
    say(desk, FOUR, address="2")
    clock.pass_(days=100)

    assert desk.close_quiet() == []
