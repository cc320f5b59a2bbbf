"""A correction as the maker types it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.approval.correction import Correction, read_correction
from bot.errors import CorrectionError
from sizing.measures import Amount, Measure


def one(text: str, *dogs: str | None) -> tuple[int, str, float, float]:
    (found,) = read_correction(text, dogs)
    return found.dog, found.measure, round(found.amount.low, 3), round(found.amount.high, 3)


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("width 5.5", (0, "width", 5.5, 5.5)),
        ("Width: 5 1/2 in", (0, "width", 5.5, 5.5)),
        ("throat 20 cm", (0, "throat_height", 7.874, 7.874)),
        ("throat height = 8", (0, "throat_height", 8, 8)),
        ("shoulder height is 11", (0, "height", 11, 11)),
        ("back length 14½", (0, "length", 14.5, 14.5)),
        ("weight 13lb 4oz", (0, "weight", 13.25, 13.25)),
        ("weight 5 kg", (0, "weight", 11.023, 11.023)),
        ("width 5-6", (0, "width", 5, 6)),
        ("girth 18", (0, "girth", 18, 18)),
        ("w 5.5", (0, "width", 5.5, 5.5)),
    ],
)
def test_a_measure_and_an_amount_are_read(text: str, read: tuple[int, str, float, float]) -> None:
    assert one(text) == read


@pytest.mark.parametrize(
    "text", ["Rex: width 5", "rex: width 5", "Rex width 5", "Rex's width 5", "2: width 5", "dog 2: width 5"]
)
def test_with_several_dogs_the_dog_comes_first(text: str) -> None:
    assert one(text, "Pickle", "Rex") == (1, "width", 5, 5)


def test_several_corrections_stand_on_lines_of_their_own() -> None:
    assert read_correction("width 5.5; throat 8\nlength: 14", []) == (
        Correction(dog=0, measure=Measure.WIDTH, amount=Amount.exactly(5.5)),
        Correction(dog=0, measure=Measure.THROAT_HEIGHT, amount=Amount.exactly(8)),
        Correction(dog=0, measure=Measure.LENGTH, amount=Amount.exactly(14)),
    )


def test_a_number_without_a_unit_is_in_the_shops() -> None:
    (found,) = read_correction("width 14", [], length_unit="cm")

    assert found.amount.low == pytest.approx(14 / 2.54)


@pytest.mark.parametrize(
    ("text", "dogs", "told"),
    [
        ("banana 5", [], "does not begin with a measure"),
        ("width", [], "must begin with a number"),
        ("width 5 kg", [], "kg is no unit of length"),
        ("weight 5 in", [], "in is no unit of weight"),
        ("width -3", [], "no number above 0"),
        ("width 0", [], "no number above 0"),
        ("width 5", ["Pickle", "Rex"], 'which dog\\? Put it first: "Pickle:" or "Rex:"'),
        ("width 5", [None, None], 'which dog\\? Put it first: "1:" or "2:"'),
        ("Toto: width 5", ["Pickle"], "there is no dog 'Toto'"),
        ("3: width 5", ["Pickle", "Rex"], "there is no dog '3'"),
        ("", [], "nothing in it"),
        (" ; \n", [], "nothing in it"),
        ("width " + "9" * 300, [], "too long"),
    ],
)
def test_what_cannot_be_read_is_told_with_the_way_to_write_it(text: str, dogs: list[str | None], told: str) -> None:
    with pytest.raises(CorrectionError, match=told):
        read_correction(text, dogs)


@given(st.text(max_size=80), st.lists(st.none() | st.text(max_size=8), max_size=3))
def test_any_text_is_read_or_refused_in_words(text: str, dogs: list[str | None]) -> None:
    try:
        read = read_correction(text, dogs)
    except CorrectionError as error:
        assert str(error)
    else:
        assert all(0 <= found.dog < max(1, len(dogs)) for found in read)
