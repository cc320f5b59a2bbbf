"""What the maker decides by stands in the order in which she needs it."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from bot import maker_side
from bot.approval.summary import Summary, summarize
from bot.approval.summary_text import to_lines, to_text
from bot.desk import Desk
from tests.fakes import ANN, FIVE, FOUR, drafted, number, say, shop_desk

TWO = "Pickle: weight 14 lb, length 13 in, height 11.5 in, throat height 8.25 in, width 5.25 in.\n\nRex: length 12 in."


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with shop_desk(tmp_path) as desk:
        yield desk


def summary(desk: Desk, text: str | None = None) -> Summary:
    enquiry = say(desk, text) if text is not None else 1
    standing = desk.standing(enquiry)
    return summarize(standing.history, standing.drafted, desk.settings.shop)


def test_an_answer_begins_with_size_and_opening(desk: Desk) -> None:
    found = summary(desk, FIVE)
    first = next(line.text for line in to_lines(found) if line.strong)

    assert (found.number, found.kind) == ("1.1", "answer")
    assert first == found.dogs[0].headline
    assert first


def test_what_she_decides_by_stands_in_order(desk: Desk) -> None:
    found = summary(desk, f"{FIVE}. How much is the postage to Canada?")
    text = to_text(found)
    dog = found.dogs[0]
    order = [
        dog.headline,
        dog.directions[0].room,
        dog.load,
        found.dogs[0].numbers[0].words,
        f'Also asked: "{found.other[0]}"',
        "Draft:",
        found.draft.splitlines()[0],
        dog.neighbours[0],
    ]

    places = [text.index(one) for one in order]
    assert places == sorted(places)


def test_the_tightest_of_the_four_directions_is_named(desk: Desk) -> None:
    found = summary(desk, FIVE).dogs[0]

    assert [one.direction for one in found.directions] == ["length", "width", "height", "drop"]
    assert sum(one.tightest for one in found.directions) == 1


def test_the_customers_words_stand_beside_the_numbers(desk: Desk) -> None:
    numbers = {one.measure: one for one in summary(desk, FIVE).dogs[0].numbers}

    assert numbers["width"].words == "width 5.25 in"
    assert numbers["weight"].words == "14 lb"
    assert numbers["width"].value == "5 1/4 in"


def test_what_the_maker_set_is_shown_as_hers(desk: Desk) -> None:
    drafted(desk, FIVE)
    maker_side.correct(desk, 1, "width 5.5", ANN)

    width = next(one for one in summary(desk).dogs[0].numbers if one.measure == "width")

    assert (width.value, width.words, width.by_maker) == ("5 1/2 in", "", True)
    assert "width: 5 1/2 in (you set it)" in to_text(summary(desk))


def test_a_doubt_names_reason_and_likelier_value(desk: Desk) -> None:
    found = summary(desk, FIVE.replace("width 5.25", "width 17.5"))

    assert any("width" in words and "likelier" in words for words in found.dogs[0].doubts)
    assert "Doubt: " in to_text(found)


def test_what_is_missing_and_what_it_would_be_is_told(desk: Desk) -> None:
    found = summary(desk, FIVE.replace("throat height 8.25 in, ", ""))

    assert found.dogs[0].missing == ("throat height",)
    assert "once the throat height is known" in to_text(found)


def test_with_two_dogs_each_has_its_name(desk: Desk) -> None:
    text = to_text(summary(desk, TWO))

    assert "Pickle: " in text
    assert "Rex: still to ask" in text


def test_what_the_draft_lacks_is_told(desk: Desk) -> None:
    found = summary(desk, f"{FIVE}. How much is the postage to Canada?")

    assert found.lacks
    assert "It lacks something: a place is not filled in" in to_text(found)


def test_what_was_held_is_told(desk: Desk) -> None:
    maker_side.approve(desk, number(drafted(desk, FOUR)), ANN)
    say(desk, "5.25 in wide")

    assert "1.1 is held: the customer wrote again" in summary(desk).on_the_way


def test_a_fault_is_told(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    def break_off(*_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("replies.fold.read", break_off)

    assert "Broke off: a fault of tapeline's own (ZeroDivisionError" in to_text(summary(desk, FIVE))


def test_it_shows_in_the_shops_own_units(tmp_path: Path) -> None:
    with shop_desk(tmp_path, 'length_unit = "cm"\nweight_unit = "kg"\n') as desk:
        text = to_text(summary(desk, FIVE))

    assert "width: 13.5 cm" in text
    assert "6.4 kg" in text


def test_nothing_a_customer_wrote_stands_in_its_repr(desk: Desk) -> None:
    found = summary(desk, f"{FIVE}. My secret is xyzzy, how much is the postage?")

    assert "xyzzy" in " ".join(found.said)
    assert found.said[0] not in repr(found)
