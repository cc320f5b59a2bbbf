"""Customers' words on one line, as data."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from replies.writing.plain import LONGEST_QUOTE, one_line, plain_name, quoted


@pytest.mark.parametrize(
    ("told", "used"),
    [
        ("Pickle", "Pickle"),
        ("  Mr. Tibbs ", "Mr. Tibbs"),
        ("O'Malley", "O'Malley"),
        ("D’Artagnan", "D’Artagnan"),
        ("Anne-Marie", "Anne-Marie"),
        ("Salt & Pepper", "Salt & Pepper"),
        ("Żubr", "Żubr"),
        ("زيتون", "زيتون"),
        ("小太郎", "小太郎"),
        ("K9", "K9"),
        ("Pickle 🐶", "Pickle"),
        ("Pi\u200bckle", "Pickle"),
        ("Pickle\nJones", "Pickle Jones"),
    ],
)
def test_a_name_is_used_as_told(told: str, used: str) -> None:
    assert plain_name(told) == used


@pytest.mark.parametrize("told", [None, "", "12", "🐕", "a.example", "@all", "x" * 31, "under_score", "Rex!", "- Rex"])
def test_what_is_no_name_gives_none(told: str | None) -> None:
    assert plain_name(told) is None


@given(st.text())
def test_one_line_is_one_line_of_what_prints(words: str) -> None:
    line = one_line(words)

    assert len(line.splitlines()) <= 1
    assert not any(unicodedata.category(char) in ("Cc", "Cf", "Cs", "Zl", "Zp") for char in line)
    assert line == one_line(line)


@given(st.text())
def test_a_quote_is_short_and_holds_neither_brackets_nor_mentions_nor_quotation_marks(words: str) -> None:
    quote = quoted(words)

    assert len(quote) <= LONGEST_QUOTE
    assert not set(quote) & set('[]@<>`"“”\n')
