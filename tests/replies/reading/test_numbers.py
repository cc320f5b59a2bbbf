"""Numbers in figures and words."""

import pytest

from replies.errors import WordListError
from replies.reading.number_words import NumberWords
from replies.reading.numbers import number_at
from replies.reading.tidy import tidy
from replies.reading.tokens import figures, tokenize
from tests.replies.reading.found import amounts, found

WORDS = NumberWords.load()

VALUES = [
    ("whole", "13", 13),
    ("decimal point", "13.25", 13.25),
    ("decimal comma", "4,5", 4.5),
    ("leading point", ".5", 0.5),
    ("a stray blank before the point", "12 .5", 12.5),
    ("a fraction", "3/4", 0.75),
    ("whole and fraction", "13 1/2", 13.5),
    ("whole and fraction with a hyphen", "13-1/2", 13.5),
    ("whole and fraction with a hyphen and blanks", "13 - 1/2", 13.5),
    ("whole and fraction with 'and'", "12 and 3/4", 12.75),
    ("whole and fraction with a point", "13.1/2", 13.5),
    ("whole and fraction with blanks", "13 1 / 2", 13.5),
    ("one half", "13 one half", 13.5),
    ("sixteenths", "9 5/16", 9.3125),
    ("figures and a half", "11 and a half", 11.5),
    ("figures & a half", "11 & a half", 11.5),
    ("figures and a quarter", "13 and a quarter", 13.25),
    ("figures and an eighth", "8 and an eighth", 8.125),
    ("thousands", "1,234.5", 1234.5),
    ("thousands the other way", "1.234,5", 1234.5),
    ("twice parted thousands", "1,234,567", 1234567),
    ("a word", "twelve", 12),
    ("tens and ones", "twenty eight", 28),
    ("tens and ones with a hyphen", "thirty-two", 32),
    ("a hundred", "one hundred and five", 105),
    ("and a half", "thirteen and a half", 13.5),
    ("and a half, all in hyphens", "twelve-and-a-half", 12.5),
    ("and three quarters, all in hyphens", "ten-and-three-quarters", 10.75),
    ("figures and a quarter, all in hyphens", "9-and-a-quarter", 9.25),
    ("three quarters", "thirteen and three quarters", 13.75),
    ("five eighths", "seven and five eighths", 7.625),
    ("an eighth", "eight and an eighth", 8.125),
    ("a word and figures", "twelve 3/4", 12.75),
    ("spoken point", "twelve point five", 12.5),
    ("parts alone", "three quarters", 0.75),
    ("German", "achtundzwanzig", 28),
    ("German and a half", "dreizehneinhalb", 13.5),
    ("German one and a half", "anderthalb", 1.5),
    ("Dutch", "achtentwintig", 28),
    ("Dutch with trema", "tweeëntwintig", 22),
    ("French", "vingt-deux", 22),
    ("French with et", "vingt et un", 21),
    ("Spanish", "treinta y dos", 32),
    ("Spanish in one word", "veintiocho", 28),
    ("Italian", "ventotto", 28),
    ("Portuguese", "trinta e dois", 32),
]


@pytest.mark.parametrize(("text", "value"), [row[1:] for row in VALUES], ids=[row[0] for row in VALUES])
def test_a_number_is_read(text: str, value: float) -> None:
    tokens = tokenize(tidy(text).folded)
    number = number_at(tokens, 0, WORDS)

    assert number is not None
    assert (number.value, number.after) == (pytest.approx(value), len(tokens))


LISTS = [
    ("commas and blanks", "14, 11, 5.5", ["14", "11", "5.5"]),
    ("commas without blanks", "14,11,5.5", ["14", "11", "5.5"]),
    ("whole numbers, commas without blanks", "14,11,5", ["14", "11", "5"]),
    ("a comma and a blank is never decimal", "4, 5 kg", ["4", "5 kg"]),
    ("words run together", "ten inches tall thirteen long", ["10 in", "13"]),
    ("two words that make no number", "twelve five", ["12", "5"]),
    ("tens that end a list", "twenty, five", ["20", "5"]),
    ("a full stop between two numbers", "back 12. 5 across", ["12", "5"]),
    ("a whole and a fraction on two lines", "13\n1/2", ["13", "0.5"]),
    ("two fractions", "12 1/2 5 1/4", ["12.5", "5.25"]),
    ("a fraction behind 'and' of the next measure", "14 and 11 1/2", ["14", "11.5"]),
    ("half of something else", "14 and half blind", ["14"]),
    ("half without an article", "13 and half inches", ["13.5 in"]),
    ("'n' for and", "12 n a half", ["12.5"]),
    ("'the third' adds nothing", "2 and third dog", ["2"]),
]


@pytest.mark.parametrize(("text", "values"), [row[1:] for row in LISTS], ids=[row[0] for row in LISTS])
def test_numbers_are_kept_apart(text: str, values: list[str]) -> None:
    assert amounts(text) == values


APART = [
    ("a point that came off in front, too", "hight 10 .75 widht 5. 25 wieght 12. 5 lb", ["10.75", "5.25", "12.5 lb"]),
    ("the dead point key", "back 12 5 shoulder 10 5 across 5 25 throat 7 5", ["12.5", "10.5", "5.25", "7.5"]),
    ("commas with blanks before", "33 ,5 cm, 28, 5 cm, 12 ,0 cm", ["33.5 cm", "28.5 cm", "12 cm"]),
    ("a comma and a blank alone", "28, 5 cm", ["28", "5 cm"]),
    ("twice is no habit", "back 12 5 across", ["12", "5"]),
    ("another second number shows a list", "12 5 10 5 8 7 5 25", ["12", "5", "10", "5", "8", "7", "5", "25"]),
    ("a decimal elsewhere shows that points work", "12 5, 10 5, 7 5, 11.5", ["12", "5", "10", "5", "7", "5", "11.5"]),
]  # fmt: skip


@pytest.mark.parametrize(("text", "values"), [row[1:] for row in APART], ids=[row[0] for row in APART])
def test_points_that_came_apart_all_over_are_mended(text: str, values: list[str]) -> None:
    assert amounts(text) == values


NO_NUMBERS = [
    ("grandmother and eternity", "my nan measured Infinity"),
    ("one as a pronoun", "the throat one, no one, the other one"),
    ("once", "she was ill once"),
    ("half alone", "half of it"),
    ("quarter alone", "quarter to nothing"),
    ("an article without a unit", "a dog and an ear"),
    ("Italian sei and French neuf", "sei bello, tout neuf"),
    ("German elf and Otto", "Otto the elf"),
    ("a letter case of m", "size M or L"),
]


@pytest.mark.parametrize("text", [row[1] for row in NO_NUMBERS], ids=[row[0] for row in NO_NUMBERS])
def test_words_that_only_look_like_numbers_are_left(text: str) -> None:
    assert found(text) == []


@pytest.mark.parametrize("text", ["1.2.3", "1.22,333,4", "1" * 16, "12,3.4,5"])
def test_figures_that_are_no_number_are_refused(text: str) -> None:
    assert figures(text) is None


def test_a_maker_adds_number_words() -> None:
    own = NumberWords.load({"whole": {"6": ["halfdozen"]}})

    assert (own.whole["halfdozen"], own.whole["six"]) == (6, 6)


def test_a_slip_in_the_makers_own_words_is_named() -> None:
    with pytest.raises(WordListError) as raised:
        NumberWords.load({"whole": {"six": ["half a dozen"]}})

    assert (raised.value.file, raised.value.key) == ("words.toml", "numbers.whole.six")
