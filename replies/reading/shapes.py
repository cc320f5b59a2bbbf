"""Tells numbers that are no amounts by their shape: dates, times, prices, telephone numbers, references, addresses."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import Any, Self

from replies.reading.hedges import HedgeWords
from replies.reading.numbers import NumberWords, folded_set, text_at
from replies.reading.tidy import fold
from replies.reading.tokens import BLANK, FIGURES, GLUED, LINE, WORD, Token, figures
from replies.reading.unit_words import UnitWords
from replies.words import WordList, read_word_list


class Shape(StrEnum):
    """What a number is by its look."""

    AMOUNT = "amount"
    """A plain number, with or without a unit of length or weight."""
    HASH = "hash"
    """"#11": eleven pounds, or a reference."""
    DATE = "date"
    TIME = "time"
    DURATION = "duration"
    """So many years, weeks, minutes."""
    MONEY = "money"
    PHONE = "phone"
    PERCENT = "percent"
    ORDINAL = "ordinal"
    CODE = "code"
    """A reference, a size number, letters and figures mixed."""
    ADDRESS = "address"
    """A house number or a postcode."""
    TEMPERATURE = "temperature"
    LINK = "link"
    """In a web or e-mail address."""
    MARKUP = "markup"
    """In markup, a template or a mention."""
    STRUCK = "struck"
    """Struck through by the customer: "~~14~~"."""
    ENUMERATOR = "enumerator"
    """The number of an item in a list: "2. 19 cm"."""
    COUNT = "count"
    """So many pieces: "2 x"."""
    OTHER = "other"
    """So many miles, litres, stars."""


class _Date(WordList):
    months: list[str]
    doubtful: list[str]
    before: list[str]
    before_points: list[str]


class _Time(WordList):
    before: list[str]
    before_points: list[str]
    after: list[str]


class _Money(WordList):
    before: list[str]
    after: list[str]


class _Behind(WordList):
    percent: list[str]
    degrees: list[str]
    ordinals: list[str]
    durations: list[str]
    others: list[str]
    not_before: dict[str, list[str]]


class _Codes(WordList):
    references: list[str]
    numbered: list[str]
    sizes: list[str]
    phones: list[str]


class _Addresses(WordList):
    postcodes: list[str]
    streets: list[str]
    before: list[str]
    endings: list[str]


class ShapeList(WordList):
    """shapes.toml."""

    date: _Date
    time: _Time
    money: _Money
    behind: _Behind
    codes: _Codes
    addresses: _Addresses


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeWords:
    """The words of shapes.toml, ready to be looked up; `behind` gives the shape that a word behind a number shows."""

    months: frozenset[str]
    doubtful_months: frozenset[str]
    date_before: frozenset[str]
    date_before_points: frozenset[str]
    time_before: frozenset[str]
    time_before_points: frozenset[str]
    money_before: frozenset[str]
    ordinals: frozenset[str]
    behind: Mapping[str, Shape]
    not_before: Mapping[str, frozenset[str]]
    references: frozenset[str]
    numbered: frozenset[str]
    sizes: frozenset[str]
    phones: frozenset[str]
    postcodes: frozenset[str]
    streets: frozenset[str]
    house_before: frozenset[str]
    street_endings: tuple[str, ...]

    @classmethod
    def load(cls, own: Mapping[str, Any] | None = None) -> Self:
        """Read shapes.toml, with the maker's own words added.

        Raises      WordListError
        """
        words = read_word_list(Path(__file__).with_name("shapes.toml"), ShapeList, own)
        behind = words.behind
        return cls(
            months=folded_set(words.date.months),
            doubtful_months=folded_set(words.date.doubtful),
            date_before=folded_set(words.date.before),
            date_before_points=folded_set(words.date.before_points),
            time_before=folded_set(words.time.before),
            time_before_points=folded_set(words.time.before_points),
            money_before=folded_set(words.money.before),
            ordinals=folded_set(behind.ordinals),
            behind={
                **dict.fromkeys(folded_set(behind.others), Shape.OTHER),
                **dict.fromkeys(folded_set(behind.durations), Shape.DURATION),
                **dict.fromkeys(folded_set(behind.degrees), Shape.TEMPERATURE),
                **dict.fromkeys(folded_set(behind.percent), Shape.PERCENT),
                **dict.fromkeys(folded_set(words.money.after), Shape.MONEY),
                **dict.fromkeys(folded_set(words.time.after), Shape.TIME),
            },
            not_before={fold(word): folded_set(taken) for word, taken in behind.not_before.items()},
            references=folded_set(words.codes.references),
            numbered=folded_set(words.codes.numbered),
            sizes=folded_set(words.codes.sizes),
            phones=folded_set(words.codes.phones),
            postcodes=folded_set(words.addresses.postcodes),
            streets=folded_set(words.addresses.streets),
            house_before=folded_set(words.addresses.before),
            street_endings=tuple(folded_set(words.addresses.endings)),
        )


@dataclass(frozen=True, slots=True)
class Line:
    """What a shape is told from: the text, its tokens, and the words."""

    text: str
    folded: str
    tokens: Sequence[Token]
    words: ShapeWords
    numbers: NumberWords
    units: UnitWords
    hedges: HedgeWords


ShapeFound = tuple[Shape, int]
"""A shape, and where the number that has it ends in the text."""

_DATE = re.compile(
    r"\d{4}-\d\d?-\d\d?(?:t[\d:.]+z?)?(?![\d-])"
    r"|(?P<day>\d\d?)(?P<sign>[./-])(?P<month>\d\d?)(?P=sign)(?P<year>\d{4}|\d\d)(?![\d/])"
    r"|\d\d?\. \d\d?\. (?:19|20)\d\d\b"
)
_DATED_WORD = re.compile(r"\d\d?\.? (?:de )?[^\W\d_]{3,12}\.?,?(?: de)? (?:19|20)\d\d\b")
_TIME = re.compile(
    r"(?:[01]?\d|2[0-4])[:.h][0-5]\d(?::[0-5]\d)?\s?(?:[ap]\.?m\b\.?|uhr\b|uur\b)"
    r"|(?:[01]?\d|2[0-4])(?::[0-5]\d){1,2}(?!\d|:\d)"
    r"|(?:[01]?\d|2[0-4])\s?(?:[ap]\.?m\b\.?|o'?clock\b)"
)
_HOUR = re.compile(r"(?:[01]?\d|2[0-4])h(?:[0-5]\d)?\b")
_HOUR_POINT = re.compile(r"(?:[01]?\d|2[0-4])\.[0-5]\d\b")
_DAY_POINT = re.compile(r"(?:[0-2]?\d|3[01])\.(?:0?\d|1[0-2])\.(?!\d)")
_PHONE = re.compile(r"\d[\d ()/.-]{4,20}\d")
_GROUPED_PHONE = re.compile(r"\d{3}[-. ]\d{3}[-. ]\d{4}")
_POSTCODE = re.compile(r"[A-Z]{1,2}\d[A-Z\d]? ?\d[A-Z]{2}\b|[A-Z]\d[\dW] [A-Z][A-Z\d]{3}\b")
_STREET = re.compile(r"[ \t]+(?:[A-Z][\w']{0,20}[ \t]+){1,3}(\w+)\b")
_YEAR = re.compile(r"(?:19|20)\d\d")
_TAPE_PARTS, _WIDEST_SLASHED = (16, 32, 64), 1.35
_HYPHENED = re.compile(r"[\d-]*")
_LONG_CODE, _LONG_REFERENCE, _LARGEST_SIZE, _LARGEST_MONTH = 5, 3, 60, 12


def shape_at(line: Line, at: int) -> ShapeFound | None:
    """Tell the number at a token by its shape and by what stands before it; None: it may be an amount."""
    token = line.tokens[at]
    match = _DATE.match(line.folded, token.start)
    if match and _is_date(line, at, match):
        return Shape.DATE, match.end()
    match = _TIME.match(line.folded, token.start)
    if match:
        return Shape.TIME, match.end()
    led = _led_at(line, at)
    if led:
        return led
    phone = _phone_at(line, at)
    if phone:
        return Shape.PHONE, phone
    return _day_at(line, at) or _address_at(line, at) or _mixed_at(line, at)


def _is_date(line: Line, at: int, match: re.Match[str]) -> bool:
    """Can day and month of a date in figures be ones, in either order; "14/5/11" may be length, width and height."""
    if match.group("day") is None:
        return True
    one, other = sorted((int(match.group("day")), int(match.group("month"))))
    if not (1 <= one <= 12 and other <= 31):
        return False
    year = match.group("year")
    if len(year) == 4 or year[0] == "0" or text_before(line.tokens, at) in line.words.date_before:
        return True
    return int(year) > _LARGEST_MONTH and line.folded[match.end() :].lstrip()[:2] not in line.units.by_word


def _led_at(line: Line, at: int) -> ShapeFound | None:
    """Tell a number by the word or mark before it: "at", "$", "order", "size", "postcode"."""
    tokens, words = line.tokens, line.words
    token = tokens[at]
    if not at or token.gap == LINE:
        return None
    before = tokens[at - 1].text
    word = text_before(tokens, at)
    if word in words.time_before:
        match = _HOUR.match(line.folded, token.start)
        if match is None and word in words.time_before_points:
            match = _HOUR_POINT.match(line.folded, token.start)
        if match:
            return Shape.TIME, match.end()
    if word in words.date_before_points:
        match = _DAY_POINT.match(line.folded, token.start)
        if match:
            return Shape.DATE, match.end()
    if before in words.money_before:
        return Shape.MONEY, _ranged_end(tokens, at)
    if not token.text.isdigit():
        return None
    if before == "x" and _counts_pieces(line, at):
        return Shape.COUNT, token.end
    if before == "-" and _is_labelled_code(line, at):
        return Shape.CODE, token.end
    if _is_reference(line, at, word, before):
        match = _HYPHENED.match(line.folded, token.start)
        return Shape.CODE, match.end() if match else token.end
    if word in words.postcodes and len(token.text) >= _LONG_REFERENCE:
        return Shape.ADDRESS, token.end
    capital = line.text[tokens[at - 1].start].isupper()
    street = tokens[at - 1].kind == WORD and capital and len(word) > 5 and word.endswith(words.street_endings)
    if street or before in words.house_before or (word == "str" and before == "."):
        return Shape.ADDRESS, token.end
    return None


def _counts_pieces(line: Line, at: int) -> bool:
    """Is it the "x2" of "carrier x2": no number stands shortly before it."""
    before = line.tokens[max(at - 6, 0) : at - 1]
    return not any(token.kind == FIGURES or token.text in line.numbers.glued_letters for token in before) and bool(
        before
    )


def _is_labelled_code(line: Line, at: int) -> bool:
    """Is it "ABC-1234": letters, a hyphen and three figures and more, without blanks or a unit."""
    tokens = line.tokens
    if at < 2 or len(tokens[at].text) < _LONG_REFERENCE or tokens[at].gap != GLUED or tokens[at - 1].gap != GLUED:
        return False
    word = tokens[at - 2]
    label = word.text in line.numbers.glued_words
    return word.kind == WORD and len(word.text) > 1 and not label and text_at(tokens, at + 1) not in line.units.by_word


def text_before(tokens: Sequence[Token], at: int) -> str:
    """Give the word before a token, over one point, colon, hash or bracket; "" at the beginning of a line."""
    if not at or tokens[at].gap == LINE:
        return ""
    if tokens[at - 1].text in ".:#(" and at >= 2 and tokens[at - 1].gap != LINE:
        return tokens[at - 2].text
    return tokens[at - 1].text


def _ranged_end(tokens: Sequence[Token], at: int) -> int:
    """Give the end of "20" or "20-30"."""
    if text_at(tokens, at + 1) == "-" and at + 2 < len(tokens) and tokens[at + 2].kind == FIGURES:
        return tokens[at + 2].end
    return tokens[at].end


def _is_reference(line: Line, at: int, word: str, before: str) -> bool:
    """Is it "order 20418", "No. 3", "#30417", "size 4"."""
    digits = line.tokens[at].text
    long = len(digits) >= _LONG_REFERENCE
    if before == "#" and long:
        return True
    following = text_at(line.tokens, at + 1)
    if following in line.units.by_word or following in line.numbers.times:
        return False
    if word == "no":
        named = before in ".#" or line.text[line.tokens[at - 1].start] == "N"
        return named and (len(digits) == 1 or (long and before != "no"))
    if word in line.words.numbered:
        return True
    if word in line.words.sizes:
        return int(digits) <= _LARGEST_SIZE and following not in (",", "/", "-")
    return word in line.words.references and long


def _phone_at(line: Line, at: int) -> int | None:
    """Give the end of a telephone number: told, dialled with 0 or +, or grouped as one."""
    token = line.tokens[at]
    if len(token.text) < 2:
        return None
    match = _PHONE.match(line.folded, token.start)
    if not match:
        return None
    number = match.group()
    digits = sum(character.isdigit() for character in number)
    if not 6 <= digits <= 15:
        return None
    before = [line.tokens[place].text for place in range(max(at - 3, 0), at)]
    told = any(word in line.words.phones for word in before) or before[-1:] == ["+"]
    dialled = number[0] == "0" and number[1] not in ".,"
    return match.end() if told or dialled or _GROUPED_PHONE.fullmatch(number) else None


def _day_at(line: Line, at: int) -> ShapeFound | None:
    """Read "20 Dec", "Dec 20", "3rd of May", "by 12/18", "4. maalisk. 2026", "2026"."""
    tokens, words = line.tokens, line.words
    token = tokens[at]
    if _YEAR.fullmatch(token.text):
        return None if text_at(tokens, at + 1) in line.units.by_word else (Shape.DATE, token.end)
    if not token.text.isdigit() or len(token.text) > 2 or not 1 <= int(token.text) <= 31:
        return None
    match = _DATED_WORD.match(line.folded, token.start)
    if match and text_at(tokens, at + 1) not in line.numbers.glued_words:
        return Shape.DATE, match.end()
    before = text_before(tokens, at)
    month = _month_behind(line, at)
    if month is not None:
        plain = month == at + 1 and tokens[month].text in words.doubtful_months
        if not plain or line.text[tokens[month].start].isupper() or before in words.date_before:
            return Shape.DATE, tokens[month].end
    if before in words.months and _is_month_day(line, at, before):
        return Shape.DATE, token.end
    return _slashed_day(line, at, told=before in words.date_before)


def _slashed_day(line: Line, at: int, *, told: bool) -> ShapeFound | None:
    """Read "12/18": a day and a month where a word says so, or where they can be neither a fraction nor a range."""
    tokens = line.tokens
    if text_at(tokens, at + 1) != "/" or at + 2 >= len(tokens) or tokens[at + 1].gap != GLUED:
        return None
    other = tokens[at + 2]
    if other.gap != GLUED or not other.text.isdigit() or not 1 <= int(other.text) <= 31:
        return None
    following = text_at(tokens, at + 3)
    if following in line.units.by_word or following in ("/", "-"):
        return None
    month, day = int(tokens[at].text), int(other.text)
    far = month <= _LARGEST_MONTH < day and day > month * _WIDEST_SLASHED and day not in _TAPE_PARTS
    return (Shape.DATE, other.end) if told or far else None


def _month_behind(line: Line, at: int) -> int | None:
    """Give the index of the month in "20 Dec", "3rd of May", "14. Mar"."""
    following = at + 1
    if (text_at(line.tokens, following) in line.words.ordinals and line.tokens[following].gap == GLUED) or (
        text_at(line.tokens, following) == "." and line.tokens[following].gap == GLUED
    ):
        following += 1
    if text_at(line.tokens, following) in line.numbers.of:
        following += 1
    return following if text_at(line.tokens, following) in line.words.months else None


def _is_month_day(line: Line, at: int, month: str) -> bool:
    """Is the number behind a month its day: nothing that could be measured stands behind it."""
    following = text_at(line.tokens, at + 1)
    if following in line.units.by_word or following in line.numbers.times or following in line.numbers.glued_words:
        return False
    if month not in line.words.doubtful_months:
        return True
    if following in line.words.ordinals and line.tokens[at + 1].gap == GLUED:
        return True
    place = at - 1 if line.tokens[at - 1].text == month else at - 2
    told = place > 0 and line.tokens[place - 1].text in line.words.date_before
    return told and not following.isalpha()


def _address_at(line: Line, at: int) -> ShapeFound | None:
    """Read "14 Long Street", "27/9 Banksia Pde", and the postcodes that mix letters and figures."""
    tokens = line.tokens
    token = tokens[at]
    if not token.text.isdigit():
        return None
    if at and token.gap == GLUED and tokens[at - 1].kind == WORD and len(tokens[at - 1].text) <= 2:
        match = _POSTCODE.match(line.text, tokens[at - 1].start)
        if match:
            return Shape.ADDRESS, match.end()
    for last in (at, at + 2) if text_at(tokens, at + 1) == "/" and at + 2 < len(tokens) else (at,):
        match = _STREET.match(line.text, tokens[last].end)
        if match and fold(match.group(1)) in line.words.streets:
            return Shape.ADDRESS, tokens[last].end
    return None


def _mixed_at(line: Line, at: int) -> ShapeFound | None:
    """Tell letters and figures that are mixed: "K9", "X2Y7", "1e3", "0187"; units and label letters do not count."""
    tokens = line.tokens
    token = tokens[at]
    if _is_slang(line, at):
        return Shape.CODE, _run_end(tokens, at)
    if token.text.isdigit() and (len(token.text) >= _LONG_CODE or (token.text[0] == "0" and len(token.text) > 1)):
        return None if text_at(tokens, at + 1) in line.units.by_word else (Shape.CODE, token.end)
    if figures(token.text) is None:
        return Shape.CODE, token.end
    if at and token.gap == GLUED and tokens[at - 1].kind == WORD and not _may_lead_glued(line, at - 1):
        return Shape.CODE, _run_end(tokens, at)
    following = tokens[at + 1] if at + 1 < len(tokens) else None
    if following is None or following.kind != WORD or following.gap != GLUED or _links(line, following.text):
        return None
    led = at > 0 and token.gap == GLUED and tokens[at - 1].kind == WORD and not line.hedges.after.get(following.text)
    goes_on = at + 2 < len(tokens) and tokens[at + 2].gap == GLUED and tokens[at + 2].kind == FIGURES
    return (Shape.CODE, _run_end(tokens, at)) if led or goes_on else None


def _is_slang(line: Line, at: int) -> bool:
    """Does a figure stand for a sound: "b4", "2day"."""
    tokens = line.tokens
    before = tokens[at - 1].text if at and tokens[at].gap == GLUED else ""
    behind = tokens[at + 1].text if at + 1 < len(tokens) and tokens[at + 1].gap == GLUED else ""
    return bool(before or behind) and f"{before}{tokens[at].text}{behind}" in line.numbers.slang


def _run_end(tokens: Sequence[Token], at: int) -> int:
    """Give the end of the run of letters and figures that the token `at` stands in."""
    while at + 1 < len(tokens) and tokens[at + 1].gap == GLUED and tokens[at + 1].kind in (FIGURES, WORD):
        at += 1
    return tokens[at].end


def _may_lead_glued(line: Line, at: int) -> bool:
    """May the word at a token stand glued before a number."""
    word = line.tokens[at]
    if word.gap == GLUED and at and line.tokens[at - 1].kind == FIGURES:
        return _links(line, word.text)
    numbers = line.numbers
    return word.text in numbers.glued_letters or word.text in numbers.glued_words or word.text in numbers.times


def _links(line: Line, word: str) -> bool:
    """May a word stand between two numbers without blanks: a unit, a times sign, a label, or one of these and "x"."""
    numbers, units = line.numbers, line.units.by_word
    if word in units or word in numbers.times or word in numbers.glued_letters or word in numbers.glued_words:
        return True
    return word[-1:] == "x" and (word[:-1] in units or word[:-1] in numbers.glued_letters)


def shape_behind(line: Line, at: int) -> tuple[Shape, int] | None:
    """Tell a number by the word behind it, whose index is `at`: the shape, and the index after that word."""
    tokens, words = line.tokens, line.words
    following = text_at(tokens, at)
    if following == "-" and tokens[at].gap == GLUED and at + 1 < len(tokens) and tokens[at + 1].gap == GLUED:
        at += 1
        following = text_at(tokens, at)
    if not following:
        return None
    if following == "y" and tokens[at].gap == GLUED and text_at(tokens, at + 1) not in (".", "/"):
        return Shape.DURATION, at + 1
    shape = words.behind.get(following)
    next_text = text_at(tokens, at + 1)
    if shape:
        return None if next_text in words.not_before.get(following, ()) else (shape, at + 1)
    if following == "y" and next_text in ("/", ".") and text_at(tokens, at + 2) == "o":
        return Shape.DURATION, at + 3
    if following in line.numbers.times and following != "*" and not next_text[:1].isdigit():
        labelled = next_text in line.numbers.glued_letters or next_text in line.numbers.glued_words
        counted = following == "x" and not labelled and next_text not in line.numbers.whole and next_text != "."
        return (Shape.COUNT if counted else Shape.OTHER, at + 1) if counted or following == "mal" else None
    if following == "/" and next_text.isdigit() and tokens[at].gap == tokens[at + 1].gap == GLUED:
        return _scored(tokens, at)
    return None


def _scored(tokens: Sequence[Token], at: int) -> tuple[Shape, int] | None:
    """Read the "/10" of "10/10" and the "/7" of "24/7"."""
    before, behind = tokens[at - 1].text, tokens[at + 1].text
    if (behind == "10" and before.isdigit() and int(before) >= 10) or (before, behind) == ("24", "7"):
        return Shape.OTHER, at + 2
    return None


def ordinal_behind(line: Line, at: int, figures_before: str) -> int | None:
    """Read "nd" glued behind a number; "st" only where English has it ("1st"), or it is a stone. None: none there."""
    tokens = line.tokens
    if at >= len(tokens) or tokens[at].gap != GLUED or tokens[at].text not in line.words.ordinals:
        return None
    if not figures_before.isdigit():
        return None
    if tokens[at].text == "st":
        english = figures_before[-1] == "1" and figures_before[-2:] != "11"
        if not english or _pounds_follow(line, at + 1):
            return None
    return at + 1


def _pounds_follow(line: Line, at: int) -> bool:
    """Does "4lb", or a number with nothing measured behind it, follow on "1st"."""
    if at >= len(line.tokens) or line.tokens[at].gap != BLANK or line.tokens[at].kind != FIGURES:
        return False
    following = text_at(line.tokens, at + 1)
    unit = line.units.by_word.get(following)
    return not following.isalpha() or (unit is not None and unit.name == "lb")
