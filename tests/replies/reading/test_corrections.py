"""Values that are taken back, set right or told anew in the same message."""

import pytest

from tests.replies.reading.readings import aside, dogs, known, measures


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("length 13, sorry, 14", {"length": "14 correction"}),
        ("he is 13 in long, no wait, 14 in", {"length": "14 in correction"}),
        ("length 13 in. Correction: length 14 in", {"length": "14 in correction"}),
        ("length 13 in, I mean 14 in", {"length": "14 in correction"}),
        ("length 13 in - oops, 14 in", {"length": "14 in correction"}),
        ("not 13 but 14 in long", {"length": "14 in correction"}),
        ("length 13 in, scratch that, it's 14 in", {"length": "14 in correction"}),
    ],
)
def test_the_last_word_counts(text: str, expected: dict[str, str]) -> None:
    assert measures(text) == expected
    assert "withdrawn" in aside(text).values()


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("I measured again and he is 14 in long", {"length": "14 in again"}),
        ("remeasured: length 14 in", {"length": "14 in again"}),
        ("sorry, the length is 14 in", {"length": "14 in correction"}),
    ],
)
def test_it_is_told_that_a_value_replaces_an_earlier_one(text: str, expected: dict[str, str]) -> None:
    assert measures(text, dogs=[known(length=13)], first=False) == expected


@pytest.mark.parametrize(
    "text", ["length 13 in or 14 in, my wife says 14", "I get 13 in for the length, my husband gets 14 in"]
)
def test_two_values_without_a_correction_are_a_conflict_or_a_range(text: str) -> None:
    assert measures(text)["length"] in ("13 in conflict", "14 in conflict", "13-14 in", "13-14 in about")


def test_sorry_for_something_else_corrects_nothing() -> None:
    assert measures("Sorry for the late answer! length 13 in, height 11 in") == {"length": "13 in", "height": "11 in"}


def test_a_correction_of_one_dog_takes_nothing_from_the_next() -> None:
    before = [known("Nutmeg", length=9, width=3.25), known("Clove", length=9.75)]

    found = dogs("Nutmeg is 3.5 wide actually. Clove is 3.75 wide", dogs=before, asked=["2 width"], first=False)

    assert found == [{"name": "Nutmeg", "width": "3.5 correction"}, {"name": "Clove", "width": "3.75 correction"}]
