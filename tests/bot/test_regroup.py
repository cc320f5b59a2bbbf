"""The maker splits and joins enquiries; no message is lost and no measure ends up with another dog."""

import asyncio
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot import maker_side
from bot.departures import Sender
from bot.desk import Desk
from bot.errors import DeclinedError, NotThereError
from bot.regroup import join, split
from tests.fakes import ANN, FIVE, FOUR, FakeChannel, drafted, message, number, say, shop_desk

REX = "Rex is 20 lb, length 16 in, height 13.5 in, throat height 9.75 in, width 6 in"


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with shop_desk(tmp_path) as desk:
        yield desk


def texts(desk: Desk, enquiry: int) -> list[str]:
    return [row.text for row in desk.worked_out(enquiry).history.messages if row.author == "customer"]


def names(desk: Desk, enquiry: int) -> list[str | None]:
    return [dog.name for dog in desk.worked_out(enquiry).drafted.enquiry.dogs]


def ids(desk: Desk, enquiry: int) -> list[int]:
    return [row.id for row in desk.worked_out(enquiry).history.messages]


def send(desk: Desk) -> None:
    channel = FakeChannel()
    asyncio.run(Sender(desk.database, {channel.name: channel}, clock=desk.clock).send_due())


def test_a_split_gives_each_its_messages_and_its_draft(desk: Desk) -> None:
    say(desk, FOUR)
    drafted(desk, REX)

    new = split(desk, 1, [ids(desk, 1)[1]], ANN).enquiry

    assert (texts(desk, 1), texts(desk, new)) == ([FOUR], [REX])
    assert (names(desk, 1), names(desk, new)) == (["Pickle"], ["Rex"])
    kinds = [desk.standing(one).history.waiting for one in (1, new)]
    assert [row.kind if row else None for row in kinds] == ["question", "answer"]


def test_what_the_maker_set_has_to_be_set_again(desk: Desk) -> None:
    say(desk, FOUR)
    drafted(desk, REX)
    maker_side.correct(desk, 1, "Rex: width 6.25", ANN)

    done = split(desk, 1, [ids(desk, 1)[0]], ANN)

    assert [(row.dog, row.measure, row.amount.low) for row in done.set_again] == [(1, "width", 6.25)]
    width = desk.worked_out(1).drafted.enquiry.dogs[0].measures["width"]  # type: ignore[index]
    assert not width.source.by_maker


@pytest.mark.parametrize("which", [[], [0, 1]], ids=["none", "all"])
def test_neither_half_may_be_empty(desk: Desk, which: list[int]) -> None:
    say(desk, FOUR)
    drafted(desk, REX)

    with pytest.raises(DeclinedError, match="at least one"):
        split(desk, 1, [ids(desk, 1)[place] for place in which], ANN)

    assert texts(desk, 1) == [FOUR, REX]


def test_only_the_customers_own_messages_can_be_split_off(desk: Desk) -> None:
    drafted(desk, FOUR)

    with pytest.raises(DeclinedError, match="the customer's own messages"):
        split(desk, 1, [99], ANN)


def test_joined_enquiries_are_computed_anew(desk: Desk) -> None:
    for text in (FOUR, REX, "Pickle is 5.25 in wide"):
        drafted(desk, text)
    new = split(desk, 1, [ids(desk, 1)[1]], ANN).enquiry

    join(desk, 1, new, ANN)

    assert texts(desk, 1) == [FOUR, REX, "Pickle is 5.25 in wide"]
    assert texts(desk, new) == []
    assert names(desk, 1) == ["Pickle", "Rex"]
    waiting = desk.standing(1).history.waiting
    assert waiting is not None and waiting.kind == "answer"
    assert desk.standing(new).history.enquiry.state == "closed"
    assert desk.standing(new).history.waiting is None


def test_a_joined_enquiry_remembers_what_was_asked_in_both(desk: Desk) -> None:
    say(desk, FOUR)
    desk.keep(message(REX, external_id="r"))
    desk.draft(1)
    new = split(desk, 1, [ids(desk, 1)[0]], ANN).enquiry
    waiting = desk.standing(new).history.waiting
    assert waiting is not None
    maker_side.approve(desk, number(waiting), ANN)
    send(desk)

    join(desk, 1, new, ANN)

    assert [asked.measure for asked in desk.worked_out(1).drafted.enquiry.asked] == ["width"]


def test_enquiries_of_two_customers_are_not_joined(desk: Desk) -> None:
    drafted(desk, FOUR, address="1")
    drafted(desk, FIVE, address="2")

    with pytest.raises(DeclinedError, match="two customers"):
        join(desk, 1, 2, ANN)


def test_nothing_is_joined_while_a_text_is_still_to_go(desk: Desk) -> None:
    say(desk, FOUR)
    drafted(desk, REX)
    new = split(desk, 1, [ids(desk, 1)[1]], ANN).enquiry
    waiting = desk.standing(new).history.waiting
    assert waiting is not None
    maker_side.approve(desk, number(waiting), ANN)

    with pytest.raises(DeclinedError, match="still on its way"):
        join(desk, 1, new, ANN)


def test_an_enquiry_is_not_joined_with_itself(desk: Desk) -> None:
    drafted(desk, FOUR)

    with pytest.raises(DeclinedError, match="itself"):
        join(desk, 1, 1, ANN)


def test_an_enquiry_that_does_not_exist_is_told_in_words(desk: Desk) -> None:
    drafted(desk, FOUR)

    with pytest.raises(NotThereError, match="no enquiry 9"):
        join(desk, 1, 9, ANN)
