"""What waits for the maker, and nothing that does not."""

import asyncio
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot import maker_side
from bot.departures import Sender
from bot.desk import Desk
from bot.errors import RefusedError, UnsureError
from bot.message import ChannelName
from bot.waiting import Waiting, what_waits
from tests.fakes import ANN, FIVE, FOUR, Clock, FakeChannel, drafted, number, say, shop_desk


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def desk(tmp_path: Path, clock: Clock) -> Iterator[Desk]:
    with shop_desk(tmp_path, clock=clock) as desk:
        yield desk


def lines(desk: Desk) -> list[tuple[str, str]]:
    return [(one.needs, one.number) for one in what_waits(desk.database)]


def sent(desk: Desk, error: Exception | None = None) -> None:
    channel = FakeChannel(then=[error])
    asyncio.run(Sender(desk.database, {channel.name: channel}, clock=desk.clock).send_due())


def test_nothing_waits_in_a_new_shop(desk: Desk) -> None:
    assert what_waits(desk.database) == []


def test_a_message_that_is_not_read_yet_is_listed(desk: Desk) -> None:
    say(desk, FOUR)

    assert lines(desk) == [("unread", "")]


def test_a_draft_waits_until_it_is_decided(desk: Desk) -> None:
    row = drafted(desk, FOUR)
    assert lines(desk) == [("decide", "1.1")]
    maker_side.set_aside(desk, number(row), ANN)

    assert lines(desk) == []


def test_the_oldest_comes_first(desk: Desk, clock: Clock) -> None:
    for address in ("1", "2", "3"):
        drafted(desk, FOUR, address=address)
        clock.pass_(minutes=1)
    say(desk, "hello?", address="1")

    assert [one.enquiry for one in what_waits(desk.database)][:2] == [2, 3]


def test_an_approved_text_to_copy_is_listed(desk: Desk) -> None:
    maker_side.approve(desk, number(drafted(desk, FIVE, channel=ChannelName.PASTE)), ANN)

    assert lines(desk) == [("copy", "1.1")]


def test_an_approved_text_that_goes_by_itself_is_not(desk: Desk) -> None:
    maker_side.approve(desk, number(drafted(desk, FIVE)), ANN)

    assert lines(desk) == []


def test_a_held_text_is_listed_beside_the_new_draft(desk: Desk) -> None:
    maker_side.approve(desk, number(drafted(desk, FOUR)), ANN)
    drafted(desk, "5.25 in wide")

    assert sorted(lines(desk)) == [("decide", "1.2"), ("held", "1.1")]


@pytest.mark.parametrize(("error", "needs"), [(UnsureError("x"), "unsure"), (RefusedError("x"), "failed")])
def test_a_text_in_trouble_is_listed_with_the_reason(desk: Desk, error: Exception, needs: str) -> None:
    maker_side.approve(desk, number(drafted(desk, FIVE)), ANN)
    sent(desk, error)

    (line,) = what_waits(desk.database)
    assert isinstance(line, Waiting)
    assert (line.needs, line.number, line.why, line.kind) == (needs, "1.1", "x", "answer")


def test_a_failure_is_over_once_the_enquiry_is_closed(desk: Desk) -> None:
    maker_side.approve(desk, number(drafted(desk, FIVE)), ANN)
    sent(desk, RefusedError("x"))
    maker_side.close(desk, 1, ANN)

    assert lines(desk) == []


def test_no_customers_name_stands_in_the_repr(desk: Desk) -> None:
    drafted(desk, FOUR)

    (line,) = what_waits(desk.database)
    assert line.customer == "Mira"
    assert "Mira" not in repr(line)
