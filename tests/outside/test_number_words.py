"""Number words as an independent library writes them, and figures as the Unicode Character Database has them.

Source: num2words' tables for seven languages; unicodedata (the character database of The Unicode Standard).
"""

import sys
import unicodedata

import pytest
from num2words import num2words

from replies.reading.quantities import find_quantities
from replies.reading.tidy import tidy

UNIT_WORDS = {
    "en": "inches",
    "de": "Zentimeter",
    "fr": "centimètres",
    "es": "centímetros",
    "it": "centimetri",
    "pt": "centímetros",
    "nl": "centimeter",
}


@pytest.mark.parametrize("language", UNIT_WORDS)
def test_numbers_to_a_hundred_are_read_in_words(language: str) -> None:
    wrong = {}
    for value in range(2, 101):
        words = num2words(value, lang=language)
        read = [one.low for one in find_quantities(tidy(f"- {words} {UNIT_WORDS[language]}"))]
        if read != [value]:
            wrong[words] = read

    assert wrong == {}


def test_numbers_to_two_hundred_are_read_in_english_words() -> None:
    for value in range(101, 200):
        words = num2words(value, lang="en")
        assert [one.low for one in find_quantities(tidy(f"- {words} pounds"))] == [value], words


@pytest.mark.parametrize(
    ("value", "words"), [(n + part, f"{num2words(n)} and {name}") for n in (4, 12, 33) for part, name in
                         ((0.5, "a half"), (0.25, "a quarter"), (0.75, "three quarters"), (0.375, "three eighths"))]
)  # fmt: skip
def test_parts_are_read_behind_words(value: float, words: str) -> None:
    assert [one.low for one in find_quantities(tidy(f"- {words} inches"))] == [value]


def test_every_decimal_digit_of_unicode_is_read() -> None:
    digits = [chr(code) for code in range(sys.maxunicode + 1) if unicodedata.category(chr(code)) == "Nd"]
    wrong = [
        digit
        for digit in digits
        if unicodedata.decimal(digit)
        and [one.low for one in find_quantities(tidy(f"it is {digit} in"))] != [unicodedata.decimal(digit)]
    ]

    assert len(digits) > 600
    assert wrong == []


def test_every_fraction_character_of_unicode_is_read() -> None:
    fractions = [
        chr(code)
        for code in (*range(0xBC, 0xBF), *range(0x2150, 0x215F))
        if unicodedata.category(chr(code)) == "No" and 0 < unicodedata.numeric(chr(code)) < 1
    ]
    on_a_tape = [one for one in fractions if (unicodedata.numeric(one) * 8) % 1 == 0]

    assert len(on_a_tape) == 7
    for character in on_a_tape:
        found = [one.low for one in find_quantities(tidy(f"13{character} in"))]
        assert found == [13 + unicodedata.numeric(character)]
