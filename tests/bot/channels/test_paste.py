"""Pasted messages: the same customer's next one continues the enquiry, the same text twice is one message."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from bot import maker_side
from bot.approval.decision import Number
from bot.channels.paste import keep_pasted
from bot.desk import Desk
from bot.errors import DeclinedError, NotThereError
from bot.waiting import what_waits
from tests.fakes import ANN, FIVE, FOUR, drafted, number, shop_desk


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with shop_desk(tmp_path) as desk:
        yield desk


def answered(desk: Desk, enquiry: int) -> None:
    row = desk.draft(enquiry)
    assert row is not None
    assert maker_side.approve(desk, number(row), ANN, sure=True).done
    maker_side.copied(desk, number(row), ANN)


@pytest.mark.parametrize("name", ["Mira", "mira", " MIRA  "])
def test_the_same_customers_next_message_continues(desk: Desk, name: str) -> None:
    first = keep_pasted(desk, FOUR, name="Mira").enquiry

    assert keep_pasted(desk, "5.25 in wide", name=name).enquiry == first


def test_the_same_text_twice_is_one_message(desk: Desk) -> None:
    keep_pasted(desk, FOUR, name="Mira")

    assert not keep_pasted(desk, FOUR, name="mira").new


def test_the_same_yes_to_the_next_question_is_another_message(desk: Desk) -> None:
    enquiry = keep_pasted(desk, FOUR, name="Mira").enquiry
    keep_pasted(desk, "yes", name="Mira")
    answered(desk, enquiry)

    assert keep_pasted(desk, "yes", name="Mira").new


def test_texts_without_a_name_are_of_different_people(desk: Desk) -> None:
    assert keep_pasted(desk, FOUR).enquiry != keep_pasted(desk, FIVE).enquiry


def test_a_text_without_a_name_pasted_twice_is_one(desk: Desk) -> None:
    first = keep_pasted(desk, FOUR)
    again = keep_pasted(desk, FOUR)

    assert (again.enquiry, again.new) == (first.enquiry, False)


def test_the_same_words_once_answered_are_another_strangers(desk: Desk) -> None:
    first = keep_pasted(desk, FOUR).enquiry
    answered(desk, first)
    second = keep_pasted(desk, FOUR)

    assert second.new
    assert second.enquiry != first


def test_a_text_has_gone_when_it_was_copied(desk: Desk) -> None:
    enquiry = keep_pasted(desk, FIVE, name="Mira").enquiry
    answered(desk, enquiry)

    assert [part.state for part in desk.worked_out(enquiry).history.parts] == ["gone"]
    assert what_waits(desk.database) == []


def test_copying_twice_is_copying_once(desk: Desk) -> None:
    enquiry = keep_pasted(desk, FIVE, name="Mira").enquiry
    answered(desk, enquiry)

    parts = maker_side.copied(desk, number(desk.worked_out(enquiry).history.drafts[0]), ANN)

    assert [part.state for part in parts] == ["gone"]
    assert len(desk.worked_out(enquiry).history.messages) == 2


def test_what_is_held_is_not_to_be_copied(desk: Desk) -> None:
    enquiry = keep_pasted(desk, FOUR, name="Mira").enquiry
    row = desk.draft(enquiry)
    assert row is not None
    maker_side.approve(desk, number(row), ANN)
    keep_pasted(desk, "5.25 in wide", name="Mira")

    with pytest.raises(DeclinedError, match="held: the customer wrote again"):
        maker_side.copied(desk, number(row), ANN)


def test_what_was_not_approved_is_not_to_be_copied(desk: Desk) -> None:
    keep_pasted(desk, FIVE, name="Mira")
    row = desk.draft(1)
    assert row is not None

    with pytest.raises(DeclinedError, match="waiting, not approved"):
        maker_side.copied(desk, number(row), ANN)


def test_what_goes_by_itself_is_not_to_be_copied(desk: Desk) -> None:
    row = drafted(desk, FIVE)
    maker_side.approve(desk, number(row), ANN)

    with pytest.raises(DeclinedError, match="goes out on telegram by itself"):
        maker_side.copied(desk, number(row), ANN)


def test_what_does_not_exist_is_not_to_be_copied(desk: Desk) -> None:
    with pytest.raises(NotThereError):
        maker_side.copied(desk, Number(enquiry=1, version=1), ANN)
