"""Finds numbers: figures with fractions, decimal points and commas, and number words, with their place in the text."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from pydantic import Field

from replies.reading.tidy import fold
from replies.words import WordList, read_word_list

GLUED, BLANK, LINE = 0, 1, 2
"""What stands before a token: nothing, a blank, or the end of a line."""
FIGURES, WORD, MARK = 0, 1, 2
"""What a token is."""


class Token(NamedTuple):
    """A run of figures, a word, or a single mark, with its place in the text."""

    kind: int
    start: int
    end: int
    text: str
    gap: int


class _Joined(WordList):
    link: str
    ones: list[str]
    tens: list[str]


class _Words(WordList):
    hundred: list[str]
    one_and_a_half: list[str]
    article: list[str]
    ten_and: list[str]
    of: list[str]
    point: list[str]
    comma: list[str]
    to: list[str]
    between: list[str]
    times: list[str]
    only_with_unit: list[str]
    and_: list[str] = Field(alias="and")
    or_: list[str] = Field(alias="or")


class _Glued(WordList):
    letters: list[str]
    words: list[str]


class _NumberWords(WordList):
    """numbers.toml."""

    whole: dict[int, list[str]]
    joined: list[_Joined]
    parts: dict[int, list[str]]
    glued_parts: dict[int, list[str]]
    words: _Words
    glued: _Glued


_LIST = read_word_list(Path(__file__).with_name("numbers.toml"), _NumberWords)


def _by_word(groups: dict[int, list[str]]) -> dict[str, int]:
    return {fold(word): value for value, words in groups.items() for word in words}


def _joined(groups: Sequence[_Joined]) -> dict[str, int]:
    return {
        fold(one + group.link + ten): (tens + 2) * 10 + ones + 1
        for group in groups
        for ones, one in enumerate(group.ones)
        for tens, ten in enumerate(group.tens)
    }


def _set(words: Sequence[str]) -> frozenset[str]:
    return frozenset(fold(word) for word in words)


WHOLE = _by_word(_LIST.whole) | _joined(_LIST.joined)
PARTS = _by_word(_LIST.parts)
GLUED_PARTS = _by_word(_LIST.glued_parts)
HUNDRED = _set(_LIST.words.hundred)
ONE_AND_A_HALF = _set(_LIST.words.one_and_a_half)
ARTICLE = _set(_LIST.words.article)
AND = _set(_LIST.words.and_)
TEN_AND = _set(_LIST.words.ten_and)
OF = _set(_LIST.words.of)
POINT = _set(_LIST.words.point) | _set(_LIST.words.comma)
TO = _set(_LIST.words.to)
OR = _set(_LIST.words.or_)
BETWEEN = _set(_LIST.words.between)
TIMES = _set(_LIST.words.times)
ONLY_WITH_UNIT = _set(_LIST.words.only_with_unit)
GLUED_LETTERS = _set(_LIST.glued.letters)
GLUED_WORDS = _set(_LIST.glued.words)

_TOKEN = re.compile(r"(\d+(?:[.,]\d+)*|(?<![\w.,])\.\d+)|([^\W\d_]+)|([^\w\s]|_)")
_TAPE_PARTS = frozenset((2, 3, 4, 8, 16, 32, 64))


def tokenize(folded: str) -> list[Token]:
    """Cut a folded text into figures, words and single marks."""
    tokens: list[Token] = []
    done = 0
    for match in _TOKEN.finditer(folded):
        start, end = match.span()
        gap = GLUED
        if start != done or not start:
            gap = LINE if not done or "\n" in folded[done:start] else BLANK
        text = match.group()
        if match.lastindex == 1 and "," in text and figures(text) is None:
            tokens += _listed(text, start, gap)
        else:
            tokens.append(Token((match.lastindex or 1) - 1, start, end, text, gap))
        done = end
    return tokens


def _listed(text: str, start: int, gap: int) -> list[Token]:
    """Cut "14,11,5.5" into its numbers and commas."""
    tokens: list[Token] = []
    for piece in re.split("(,)", text):
        tokens.append(Token(MARK if piece == "," else FIGURES, start, start + len(piece), piece, gap))
        start, gap = start + len(piece), GLUED
    return tokens


@dataclass(frozen=True, slots=True)
class Number:
    """A number at some token.

    value      with a comma or point before exactly three figures taken as decimal
    thousands  the value if it parts thousands instead; None: it does not
    after      index of the token after it
    end        where it ends in the text
    spelled    written in words
    weak       a word that counts as a number only directly before a unit
    whole      written without fraction or decimals
    """

    value: float
    after: int
    end: int
    thousands: float | None = None
    spelled: bool = False
    weak: bool = False
    whole: bool = False


def figures(text: str) -> tuple[float, float | None] | None:
    """Read figures with points and commas: the value, and the value if its one sign parts thousands.

    None: they are no single number (a list without blanks, a version, a date).

    >>> figures("4,5"), figures("1.200"), figures("1,234.5"), figures("14,11,5")
    ((4.5, None), (1.2, 1200.0), (1234.5, None), None)
    """
    if len(text) > 15:
        return None
    if text.isdigit():
        return float(text), None
    groups = re.split(r"[.,]", text)
    signs = [sign for sign in text if sign in ".,"]
    if len(signs) == 1:
        value = float(f"{groups[0] or '0'}.{groups[1]}")
        parts_thousands = len(groups[1]) == 3 and 1 <= len(groups[0]) <= 3 and groups[0][0] != "0"
        return value, float(groups[0] + groups[1]) if parts_thousands else None
    if any(len(group) != 3 for group in groups[1:-1]) or not 1 <= len(groups[0]) <= 3 or len(set(signs[:-1])) > 1:
        return None
    if signs[-1] != signs[0]:
        return float("".join(groups[:-1]) + "." + groups[-1]), None
    return (float("".join(groups)), None) if len(groups[-1]) == 3 else None


def number_at(tokens: Sequence[Token], at: int) -> Number | None:
    """Read the number that begins at a token, with the fraction that belongs to it; None: no number begins there."""
    token = tokens[at]
    if token.kind == FIGURES:
        return _figures_at(tokens, at)
    if token.kind == WORD:
        return _spelled_at(tokens, at)
    return None


def _figures_at(tokens: Sequence[Token], at: int) -> Number | None:
    token = tokens[at]
    part = fraction_at(tokens, at)
    if part:
        return Number(part[0], part[1], part[2])
    read = figures(token.text)
    if read is None:
        return None
    value, thousands = read
    after = at + 1
    if not token.text.isdigit():
        return Number(value, after, token.end, thousands)
    following = tokens[after] if after < len(tokens) else None
    if following and following.kind == FIGURES and following.text[0] == "." and following.gap == BLANK:
        return Number(value + float("0" + following.text), after + 1, following.end)
    return _with_part(tokens, Number(value, after, token.end, whole=True))


def _with_part(tokens: Sequence[Token], number: Number) -> Number:
    """Add "1/2", "-1/2", "and a half", "three quarters" behind a whole number."""
    at = number.after
    if at >= len(tokens):
        return number
    token = tokens[at]
    if token.kind == FIGURES and token.gap == BLANK:
        part = fraction_at(tokens, at)
    elif token.text == "-" and at + 1 < len(tokens) and tokens[at + 1].gap <= token.gap:
        part = fraction_at(tokens, at + 1)
    elif token.text in GLUED_PARTS and token.gap != LINE:
        part = (1 / GLUED_PARTS[token.text], at + 1, token.end)
    elif token.text in AND and token.gap != LINE and at + 1 < len(tokens):
        part = fraction_at(tokens, at + 1) or part_at(tokens, at + 1)
    else:
        part = None
    if part is None or part[0] >= 1:
        return number
    return Number(number.value + part[0], part[1], part[2], spelled=number.spelled)


def fraction_at(tokens: Sequence[Token], at: int) -> tuple[float, int, int] | None:
    """Read "3/4" at a token: the value below 1, the index after it, and where it ends in the text."""
    if at + 2 >= len(tokens):
        return None
    over, slash, under = tokens[at : at + 3]
    if not (over.kind == under.kind == FIGURES and slash.text == "/" and slash.gap == under.gap == GLUED):
        return None
    if not (len(over.text) <= 2 and len(under.text) <= 2 and over.text.isdigit() and under.text.isdigit()):
        return None
    if at + 4 < len(tokens) and tokens[at + 3].text == "/" and tokens[at + 4].kind == FIGURES:
        return None
    value, parts = int(over.text), int(under.text)
    if parts not in _TAPE_PARTS or not 0 < value < parts or under.text[0] == "0":
        return None
    return value / parts, at + 3, under.end


def part_at(tokens: Sequence[Token], at: int) -> tuple[float, int, int] | None:
    """Read "a half", "three quarters", "five eighths", "medio" at a token, as fraction_at does."""
    if at >= len(tokens):
        return None
    token = tokens[at]
    if token.gap == LINE:
        return None
    if token.text in PARTS:
        return 1 / PARTS[token.text], at + 1, token.end
    if at + 1 >= len(tokens) or tokens[at + 1].text not in PARTS or tokens[at + 1].gap == LINE:
        return None
    if token.text in ARTICLE:
        return 1 / PARTS[tokens[at + 1].text], at + 2, tokens[at + 1].end
    if token.text in WHOLE or (token.kind == FIGURES and token.text.isdigit() and len(token.text) <= 2):
        value = (WHOLE.get(token.text) or int(token.text)) / PARTS[tokens[at + 1].text]
        return (value, at + 2, tokens[at + 1].end) if 0 < value < 1 else None
    return None


def _spelled_at(tokens: Sequence[Token], at: int) -> Number | None:
    """Read "twelve", "thirty-two", "one hundred and five", "thirteen and a half", "dreizehneinhalb"."""
    token = tokens[at]
    if token.text in ONE_AND_A_HALF:
        return Number(1.5, at + 1, token.end, spelled=True)
    glued = _glued_part(token.text)
    if glued:
        return Number(glued, at + 1, token.end, spelled=True)
    if token.text in HUNDRED and token.text not in ONLY_WITH_UNIT:
        value, after = 100, at + 1
    elif token.text in WHOLE:
        value, after = _tens(tokens, at)
        if value < 10 and after < len(tokens) and tokens[after].text in HUNDRED and tokens[after].gap != LINE:
            value, after = value * 100, after + 1
    else:
        return None
    weak = token.text in ONLY_WITH_UNIT and after == at + 1
    if value >= 100:
        value, after = _after_hundred(tokens, value, after)
    number = Number(value, after, tokens[after - 1].end, spelled=True, weak=weak, whole=True)
    point = _after_point(tokens, number)
    return point or _with_part(tokens, number)


def _tens(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    """Join "thirty" and "two", with a hyphen, a blank or "et" between."""
    value, after = WHOLE[tokens[at].text], at + 1
    if value < 20 or value % 10:
        return value, after
    next_at = after
    if next_at < len(tokens) and tokens[next_at].gap != LINE and tokens[next_at].text in ("-", *TEN_AND):
        next_at += 1
    if next_at < len(tokens) and tokens[next_at].gap != LINE:
        ones = WHOLE.get(tokens[next_at].text, 0)
        if 1 <= ones <= 9 and not (next_at + 1 < len(tokens) and tokens[next_at + 1].text in PARTS):
            return value + ones, next_at + 1
    return value, after


def _after_hundred(tokens: Sequence[Token], value: int, after: int) -> tuple[int, int]:
    next_at = after
    if next_at < len(tokens) and tokens[next_at].text in AND and tokens[next_at].gap != LINE:
        next_at += 1
    if next_at < len(tokens) and tokens[next_at].gap != LINE and tokens[next_at].text in WHOLE:
        if next_at + 1 < len(tokens) and tokens[next_at + 1].text in PARTS:
            return value, after
        rest, end = _tens(tokens, next_at)
        return value + rest, end
    return value, after


def _after_point(tokens: Sequence[Token], number: Number) -> Number | None:
    """Read "twelve point five"."""
    at = number.after
    if at + 1 >= len(tokens) or tokens[at].text not in POINT or tokens[at].gap == LINE:
        return None
    digits = WHOLE.get(tokens[at + 1].text)
    if digits is None or not 0 <= digits <= 99:
        return None
    return Number(number.value + float(f"0.{digits}"), at + 2, tokens[at + 1].end, spelled=True)


def _glued_part(word: str) -> float | None:
    """Read "dreizehneinhalb"."""
    for ending, parts in GLUED_PARTS.items():
        if word.endswith(ending) and word[: -len(ending)] in WHOLE:
            return WHOLE[word[: -len(ending)]] + 1 / parts
    return None
