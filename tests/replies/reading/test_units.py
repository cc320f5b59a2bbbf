"""Units told once, for some of the numbers, late, or never."""

import pytest

from replies.reading.context import KnownDog
from tests.replies.reading.readings import known, measures, reading


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("length 33, height 28, width 13 cm", {"length": "33 cm", "height": "28 cm", "width": "13 cm"}),
        ("in cm: length 33, height 28", {"length": "33 cm", "height": "28 cm"}),
        ("length 33, height 28. All in cm.", {"length": "33 cm", "height": "28 cm"}),
        ("length (cm): 33, height (cm): 28", {"length": "33 cm", "height": "28 cm"}),
        ("length 33 cm, weight 5", {"length": "33 cm", "weight": "5"}),
        ("length 33 cm, height 28, weight 5 kg", {"length": "33 cm", "height": "28 cm", "weight": "5 kg"}),
        ("length 13 in, height 28 cm", {"length": "13 in", "height": "28 cm"}),
        ("length 13, height 11", {"length": "13", "height": "11"}),
        ('length 13", height 11"', {"length": "13 in", "height": "11 in"}),
        ("he is 1 ft 1 in long", {"length": "13 in"}),
        ("12 lb 8 oz", {"weight": "200 oz"}),
        ("330 mm long", {"length": "330 mm"}),
        ("0.33 m long", {"length": "0.33 m"}),
    ],
)
def test_units(text: str, expected: dict[str, str]) -> None:
    assert measures(text) == expected


def test_a_number_without_a_unit_is_in_the_shops_own() -> None:
    fact = reading("length 33", shop="cm kg").dogs[0].facts[0]

    assert (fact.unit, fact.unit_stated) == ("cm", False)


def test_a_bare_answer_is_in_the_unit_of_earlier_messages() -> None:
    before = [known("Rex", units="cm kg", length=13)]

    assert measures("13", dogs=before, asked=["width"], first=False) == {"width": "13 cm"}


@pytest.mark.parametrize("text", ["all in cm btw", "Oh, those were centimetres", "cm", "the numbers are in cm"])
def test_a_unit_told_late_is_for_the_earlier_numbers(text: str) -> None:
    before = [KnownDog(measures=known(length=33, width=13).measures, unit_open=frozenset(known(length=33).measures))]

    assert reading(text, dogs=before, asked=["length/unit"], first=False).length_unit == "cm"
