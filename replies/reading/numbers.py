"""Finds numbers: figures with fractions, and number words in the languages that customers write or think in."""

from collections.abc import Sequence
from math import gcd
from typing import NamedTuple

from replies.reading.number_words import NumberWords
from replies.reading.tokens import BLANK, FIGURES, GLUED, LINE, WORD, Token, figures


class Number(NamedTuple):
    """A number at some token.

    value      a comma or point before exactly three figures is taken as decimal
    after      index of the token behind it
    end        where it ends in the text
    thousands  the value if that sign parts thousands instead; None: there is no such sign
    alone      the value where no unit tells which of the two is meant; None: the value
    spelled    written in words
    weak       a word that counts as a number only directly before a unit
    whole      written without fraction or decimals
    """

    value: float
    after: int
    end: int
    thousands: float | None = None
    alone: float | None = None
    spelled: bool = False
    weak: bool = False
    whole: bool = False


Part = tuple[float, int, int]
"""A fraction: its value below 1, the index of the token behind it, and where it ends in the text."""

_TAPE_PARTS = frozenset((2, 3, 4, 8, 16, 32, 64))
_TEENS = 19
_PLAIN_PARTS = frozenset((2, 4))
"""What may stand without an article: "13 and half"; "third" alone is a place in a row."""


def number_at(tokens: Sequence[Token], at: int, words: NumberWords) -> Number | None:
    """Read the number that begins at a token, with the fraction that belongs to it; None: no number begins there."""
    kind = tokens[at].kind
    if text_at(tokens, at + 1) in words.parts:
        parts = _parts_at(tokens, at, words)
        if parts:
            return parts
    if kind == FIGURES:
        return _figures_at(tokens, at, words)
    if kind == WORD:
        return _spelled_at(tokens, at, words)
    return None


def _parts_at(tokens: Sequence[Token], at: int, words: NumberWords) -> Number | None:
    """Read "three quarters", "five eighths" that belong to no whole number; "two half" is none."""
    part = part_at(tokens, at, words)
    if part is None or words.parts[tokens[at + 1].text] == 2 or tokens[at].text in words.article:
        return None
    return Number(part[0], part[1], part[2], spelled=True)


def text_at(tokens: Sequence[Token], at: int) -> str:
    """Give the text of a token on the same line as the one before it; "" where there is none."""
    if not 0 <= at < len(tokens) or tokens[at].gap == LINE:
        return ""
    return tokens[at].text


def _figures_at(tokens: Sequence[Token], at: int, words: NumberWords) -> Number | None:
    token = tokens[at]
    part = fraction_at(tokens, at)
    if part and gcd(int(token.text), int(tokens[at + 2].text)) == 1:  # "12/16" alone is no three quarters
        return Number(part[0], part[1], part[2])
    read = figures(token.text)
    if read is None:
        return None
    value = read.value
    after = at + 1
    pointed = _pointed_part(tokens, at)
    if pointed:
        return pointed
    if not token.text.isdigit():
        return Number(value, after, token.end, read.thousands, read.alone)
    following = tokens[after] if after < len(tokens) else None
    if following and following.kind == FIGURES and following.text[0] == "." and following.gap == BLANK:
        return Number(value + float("0" + following.text), after + 1, following.end)
    return _with_part(tokens, Number(value, after, token.end, whole=True), words)


def _pointed_part(tokens: Sequence[Token], at: int) -> Number | None:
    """Read "13.1/2", in which a point parts the whole from its fraction."""
    whole, point, over = tokens[at].text.partition(".")
    if not (point and whole.isdigit() and over.isdigit()) or text_at(tokens, at + 1) != "/" or at + 2 >= len(tokens):
        return None
    split = tokens[at]._replace(text=over)
    part = fraction_at([split, *tokens[at + 1 : at + 5]], 0)
    return Number(int(whole) + part[0], at + 3, part[2]) if part else None


def _with_part(tokens: Sequence[Token], number: Number, words: NumberWords) -> Number:
    """Add "1/2", "-1/2", "and a half", "three quarters" behind a whole number."""
    at = number.after
    following = text_at(tokens, at)
    if not following:
        return number
    token = tokens[at]
    part = None
    if token.kind == FIGURES and token.gap == BLANK:
        part = fraction_at(tokens, at) or fraction_at(tokens, at, apart=True)
    elif following == "-":
        if at + 1 < len(tokens) and tokens[at + 1].gap <= token.gap:
            part = fraction_at(tokens, at + 1) or _hyphened_part(tokens, at, words)
    elif following in words.glued_parts:
        part = (1 / words.glued_parts[following], at + 1, token.end)
    elif following in words.and_ and text_at(tokens, at + 1):
        part = fraction_at(tokens, at + 1) or part_at(tokens, at + 1, words)
    elif token.kind == WORD and text_at(tokens, at + 1) in words.parts and (following in words.whole):
        part = part_at(tokens, at, words)
    if part is None or part[0] >= 1:
        return number
    return Number(number.value + part[0], part[1], part[2], spelled=number.spelled)


def _hyphened_part(tokens: Sequence[Token], at: int, words: NumberWords) -> Part | None:
    """Read "-and-a-half", "-and-three-quarters" at the hyphen."""
    if text_at(tokens, at + 1) not in words.and_ or text_at(tokens, at + 2) != "-":
        return None
    tail = [token for token in tokens[at + 3 : at + 6] if token.text != "-"]
    part = part_at(tail, 0, words)
    if part is None:
        return None
    last = at + 3
    while tokens[last].end < part[2]:
        last += 1
    return part[0], last + 1, part[2]


def fraction_at(tokens: Sequence[Token], at: int, *, apart: bool = False) -> Part | None:
    """Read "3/4" at a token: a proper fraction of a tape, not the beginning of a date or a list; `apart`: "3 / 4"."""
    if at + 2 >= len(tokens):
        return None
    over, slash, under = tokens[at], tokens[at + 1], tokens[at + 2]
    gap = BLANK if apart else GLUED
    if slash.text != "/" or over.kind != FIGURES or under.kind != FIGURES or slash.gap != gap or under.gap != gap:
        return None
    if len(over.text) > 2 or len(under.text) > 2 or not (over.text.isdigit() and under.text.isdigit()):
        return None
    if at + 4 < len(tokens) and tokens[at + 3].text == "/" and tokens[at + 4].kind == FIGURES:
        return None
    if at >= 2 and not apart and tokens[at - 1].text == "/" and tokens[at].gap == GLUED and tokens[at - 1].gap == GLUED:
        return None
    value, parts = int(over.text), int(under.text)
    if parts not in _TAPE_PARTS or not 0 < value < parts or under.text[0] == "0":
        return None
    return value / parts, at + 3, under.end


def part_at(tokens: Sequence[Token], at: int, words: NumberWords) -> Part | None:
    """Read "half", "a half", "three quarters", "five eighths", "medio" at a token."""
    if at >= len(tokens):
        return None
    text = tokens[at].text
    if words.parts.get(text, 0) in _PLAIN_PARTS:
        half_of = text_at(tokens, at + 2 if text_at(tokens, at + 1) == "-" else at + 1) in words.half_of
        return None if half_of else (1 / words.parts[text], at + 1, tokens[at].end)
    following = text_at(tokens, at + 1)
    if following not in words.parts:
        return None
    parts, end = words.parts[following], tokens[at + 1].end
    if text in words.article:
        return 1 / parts, at + 2, end
    count = words.whole.get(text) or (int(text) if text.isdigit() and len(text) <= 2 else 0)
    return (count / parts, at + 2, end) if 0 < count < parts else None


def _spelled_at(tokens: Sequence[Token], at: int, words: NumberWords) -> Number | None:
    """Read "twelve", "thirty-two", "one hundred and five", "thirteen and a half", "dreizehneinhalb"."""
    token = tokens[at]
    text = token.text
    if text in words.one_and_a_half:
        return Number(1.5, at + 1, token.end, spelled=True)
    if text in words.whole or text in words.phrases:
        value, after = _tens(tokens, at, words)
        if value < 10 and text_at(tokens, after) in words.hundred:
            value, after = value * 100, after + 1
    elif text in words.hundred:
        value, after = 100, at + 1
    else:
        glued = _glued_part(text, words)
        return Number(glued, at + 1, token.end, spelled=True) if glued else None
    weak = text in words.only_with_unit and after == at + 1
    if value >= 100:
        value, after = _after_hundred(tokens, value, after, words)
    number = Number(value, after, tokens[after - 1].end, spelled=True, weak=weak, whole=True)
    return _after_point(tokens, number, words) or _with_part(tokens, number, words)


def _tens(tokens: Sequence[Token], at: int, words: NumberWords) -> tuple[int, int]:
    """Join "thirty" and "two", with a hyphen, a blank or "et" between."""
    phrase = _phrase_at(tokens, at, words)
    value, after = phrase or (words.whole[tokens[at].text], at + 1)
    if value < 20 or value % 10:
        return value, after
    next_at = after
    following = text_at(tokens, next_at)
    if following == "-" or following in words.ten_and:
        next_at += 1
    more = _phrase_at(tokens, next_at, words) if text_at(tokens, next_at) else None
    ones, end = more or (words.whole.get(text_at(tokens, next_at), 0), next_at + 1)
    if 1 <= ones <= (_TEENS if phrase else 9) and text_at(tokens, end) not in words.parts:
        return value + ones, end
    return value, after


def _phrase_at(tokens: Sequence[Token], at: int, words: NumberWords) -> tuple[int, int] | None:
    """Read a number of several words, "quatre-vingts", "dix-sept": its value, and the index behind it."""
    for phrase, value in words.phrases.get(tokens[at].text, ()):
        if all(text_at(tokens, at + place) == word for place, word in enumerate(phrase) if place):
            return value, at + len(phrase)
    return None


def _after_hundred(tokens: Sequence[Token], value: int, after: int, words: NumberWords) -> tuple[int, int]:
    next_at = after + 1 if text_at(tokens, after) in words.and_ else after
    if text_at(tokens, next_at) not in words.whole or text_at(tokens, next_at + 1) in words.parts:
        return value, after
    rest, end = _tens(tokens, next_at, words)
    return value + rest, end


def _after_point(tokens: Sequence[Token], number: Number, words: NumberWords) -> Number | None:
    """Read "twelve point five"."""
    at = number.after
    if text_at(tokens, at) not in words.point:
        return None
    last = at + 1
    decimals = words.whole.get(text_at(tokens, last))
    if decimals is None:
        return None
    digits = str(decimals)
    while len(digits) < _DECIMALS and 0 <= words.whole.get(text_at(tokens, last + 1), -1) <= 9:  # "point two five"
        last += 1
        digits += str(words.whole[text_at(tokens, last)])
    return Number(number.value + float(f"0.{digits}"), last + 1, tokens[last].end, spelled=True)


_DECIMALS = 3


def _glued_part(text: str, words: NumberWords) -> float | None:
    """Read "dreizehneinhalb"."""
    for ending, parts in words.glued_parts.items():
        if text.endswith(ending) and text[: -len(ending)] in words.whole:
            return words.whole[text[: -len(ending)]] + 1 / parts
    return None
