"""Finds units as people write them: glued, plural, misspelt, in several languages, or "in" that is no inch."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

from replies.reading.numbers import BLANK, GLUED, LINE, MARK, WORD, Number, Token
from replies.reading.tidy import fold
from replies.words import WordList, read_word_list


class Dimension(StrEnum):
    """What an amount measures."""

    LENGTH = "length"
    WEIGHT = "weight"


class _Unit(WordList):
    dimension: Dimension
    words: list[str]
    short: list[str]


class _Multiple(WordList):
    unit: str
    times: float
    words: list[str]


class _Preposition(WordList):
    measures: list[str]
    others: list[str]
    takes_back: list[str]


class _UnitWords(WordList):
    """unit_words.toml."""

    units: dict[str, _Unit]
    multiples: list[_Multiple]
    preposition: _Preposition


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit at some token.

    name       "in", "cm", "mm", "m", "ft", "lb", "kg", "g", "oz" or "st"
    times      how many of it one word means: 500 g in a German pound
    alone      may follow "a" as an amount of one: "a foot"
    """

    name: str
    dimension: Dimension
    alone: bool = False
    times: float = 1


_LIST = read_word_list(Path(__file__).with_name("unit_words.toml"), _UnitWords)
DIMENSIONS = {name: unit.dimension for name, unit in _LIST.units.items()}
UNITS: dict[str, Unit] = {
    **{fold(word): Unit(name, unit.dimension) for name, unit in _LIST.units.items() for word in unit.short},
    **{fold(word): Unit(name, unit.dimension, alone=True) for name, unit in _LIST.units.items() for word in unit.words},
    **{
        fold(word): Unit(multiple.unit, DIMENSIONS[multiple.unit], alone=True, times=multiple.times)
        for multiple in _LIST.multiples
        for word in multiple.words
    },
}
_MEASURES = frozenset(map(fold, _LIST.preposition.measures))
_NO_INCH_BEFORE = frozenset(map(fold, _LIST.preposition.others))
_TAKES_BACK = _MEASURES | frozenset(map(fold, _LIST.preposition.takes_back))
_METRES_AT_MOST = 3
_GRAMS_AT_LEAST = 50


def unit_at(tokens: Sequence[Token], at: int, number: Number, before: int) -> tuple[Unit, int, int] | None:
    """Read the unit at a token, behind a number whose first token has the index `before` + 1.

    Returns     the unit, the index of the token after it, and where it ends in the text; None: no unit stands there
    """
    if at >= len(tokens) or tokens[at].gap == LINE:
        return None
    token = tokens[at]
    if token.kind == MARK:
        return _mark_at(tokens, at)
    if token.kind != WORD:
        return None
    unit = UNITS.get(token.text)
    if unit is None:
        return None
    if not unit.alone and not _is_meant(tokens, at, number, before):
        return None
    return unit, at + 1, token.end


def _mark_at(tokens: Sequence[Token], at: int) -> tuple[Unit, int, int] | None:
    """Read an inch mark, two foot marks for one, or a foot mark; an apostrophe before a letter is none."""
    token = tokens[at]
    following = tokens[at + 1] if at + 1 < len(tokens) else None
    if token.text == "'" and following and following.text == "'" and following.gap == GLUED:
        return UNITS["''"], at + 2, following.end
    if token.text not in UNITS:
        return None
    if token.text == "'" and following and following.gap == GLUED and following.kind == WORD and following.text != "x":
        return None
    if token.text == "'" and token.gap == BLANK and following and following.gap == GLUED:
        return None
    return UNITS[token.text], at + 1, token.end


def _is_meant(tokens: Sequence[Token], at: int, number: Number, before: int) -> bool:
    """Is a short word behind a number its unit: "in" may be a preposition, "m" a size, "g" a letter, "st" a first."""
    token = tokens[at]
    if token.text == "in":
        return not _is_preposition(tokens, at, before)
    if token.text in ("m", "м"):
        return number.value <= _METRES_AT_MOST and (not number.whole or token.gap == GLUED)
    if token.text in ("g", "г"):
        return number.value >= _GRAMS_AT_LEAST
    if token.text == "st":
        return True
    return True


def _is_preposition(tokens: Sequence[Token], at: int, before: int) -> bool:
    if at + 1 >= len(tokens) or tokens[at].gap == GLUED:
        return False
    following = tokens[at + 1]
    if following.kind != WORD or following.gap == LINE:
        return False
    if following.text in _MEASURES:
        while before >= 0 and tokens[before].kind == MARK:
            before -= 1
        return before < 0 or tokens[before].text not in _TAKES_BACK
    return following.text in _NO_INCH_BEFORE
