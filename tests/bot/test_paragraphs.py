"""Long texts are cut where a reader pauses, and nothing of them is lost."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.paragraphs import in_parts, utf16_units


@given(st.text(max_size=400), st.integers(2, 60))
def test_nothing_is_lost_and_every_part_fits(text: str, most: int) -> None:
    parts = in_parts(text, most, size=utf16_units)

    assert all(part.strip() == part and part for part in parts)
    assert all(utf16_units(part) <= most for part in parts)
    assert "".join("".join(parts).split()) == "".join(text.split())


@given(st.text(max_size=100))
def test_without_a_limit_it_stays_whole(text: str) -> None:
    assert in_parts(text, None) == ([text.strip()] if text.strip() else [])


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("One two.\n\nThree four.", ["One two.", "Three four."]),
        ("One two three\nfour five six", ["One two three", "four five six"]),
        ("One two three. Four five", ["One two three.", "Four five"]),
        ("Onetwothree fourfivesix", ["Onetwothree", "fourfivesix"]),
        ("x" * 40, ["x" * 16, "x" * 16, "x" * 8]),
    ],
    ids=["paragraph", "line", "sentence", "word", "no pause"],
)
def test_it_is_cut_at_the_best_pause(text: str, parts: list[str]) -> None:
    assert in_parts(text, 16) == parts


def test_a_character_of_two_units_is_not_cut_in_half() -> None:
    assert in_parts("🐶🐶🐶", 3, size=utf16_units) == ["🐶", "🐶", "🐶"]
