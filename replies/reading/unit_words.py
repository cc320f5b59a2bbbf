"""Finds units as people write them: glued, plural, misspelt, in several languages, or "in" that is no inch."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import Any, Self

from replies.reading.number_words import folded_set
from replies.reading.numbers import Number, text_at
from replies.reading.tidy import fold
from replies.reading.tokens import BLANK, FIGURES, GLUED, LINE, MARK, WORD, Token, has_syllables
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


class _Bare(WordList):
    words: list[str]
    before: list[str]
    behind: list[str]


class _Alone(WordList):
    before: list[str]
    sure: list[str]
    never: list[str]


class _Preposition(WordList):
    leads: list[str]
    measures: list[str]
    others: list[str]
    takes_back: list[str]


class _Rules(WordList):
    metres_at_most: float
    grams_at_least: float
    slip_from_letters: int
    before_smaller: list[str]
    never_a_slip: list[str]


class UnitList(WordList):
    """unit_words.toml."""

    units: dict[str, _Unit]
    multiples: list[_Multiple]
    bare: _Bare
    alone: _Alone
    preposition: _Preposition
    rules: _Rules


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit.

    name    "in", "ft", "cm", "mm", "m", "lb", "oz", "st", "kg" or "g"
    alone   may follow "a" as an amount of one: "a foot"
    times   how many of it one word means: 500 g in a German pound
    """

    name: str
    dimension: Dimension
    alone: bool = False
    times: float = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitWords:
    """The words of unit_words.toml, ready to be looked up.

    by_word     word or mark -> unit
    syllables   those written in signs of Japanese, Chinese and Korean
    slips       word with a letter left out -> the words that it may have been
    bare        units that stand for one before a word of `bare_before`, behind one of `bare_behind`: "is foot long"
    sure_alone  units that count beside no number as plurals do; others behind a word of `before_alone`
    leads       words that are no inch before a unit: "35 in cm"
    before_smaller  words between an amount and a smaller unit: "3 kg with 250 g"
    no_inch     words before which "in" is a preposition; `measures` too, unless one of `takes_back` leads the number
    """

    by_word: Mapping[str, Unit]
    syllables: frozenset[str]
    slips: Mapping[str, frozenset[str]]
    never_a_slip: frozenset[str]
    slip_from: int
    bare: frozenset[str]
    bare_before: frozenset[str]
    bare_behind: frozenset[str]
    before_alone: frozenset[str]
    sure_alone: frozenset[str]
    never_alone: frozenset[str]
    leads: frozenset[str]
    no_inch: frozenset[str]
    measures: frozenset[str]
    takes_back: frozenset[str]
    before_smaller: frozenset[str]
    metres_at_most: float
    grams_at_least: float

    @classmethod
    def load(cls, own: Mapping[str, Any] | None = None) -> Self:
        """Read unit_words.toml, with the maker's own words added.

        Raises      WordListError
        """
        words = read_word_list(Path(__file__).with_name("unit_words.toml"), UnitList, own)
        by_word = dict(_by_word(words))
        least = words.rules.slip_from_letters
        slips: dict[str, set[str]] = {}
        for word, unit in by_word.items():
            if unit.alone and len(word) >= least:
                for short in _shortened(word):
                    slips.setdefault(short, set()).add(word)
        return cls(
            by_word=by_word,
            syllables=frozenset(filter(has_syllables, by_word)),
            slips={short: frozenset(meant) for short, meant in slips.items()},
            never_a_slip=folded_set(words.rules.never_a_slip),
            slip_from=least,
            bare=folded_set(words.bare.words),
            bare_before=folded_set(words.bare.before),
            bare_behind=folded_set(words.bare.behind),
            before_alone=folded_set(words.alone.before),
            sure_alone=folded_set(words.alone.sure),
            never_alone=folded_set(words.alone.never),
            leads=folded_set(words.preposition.leads),
            no_inch=folded_set(words.preposition.others),
            measures=folded_set(words.preposition.measures),
            takes_back=folded_set([*words.preposition.measures, *words.preposition.takes_back]),
            before_smaller=folded_set(words.rules.before_smaller),
            metres_at_most=words.rules.metres_at_most,
            grams_at_least=words.rules.grams_at_least,
        )

    def meant(self, word: str) -> Unit | None:
        """Give the unit that a word means, with one slip of a letter forgiven; None: it means none."""
        unit = self.by_word.get(word)
        if unit is not None or len(word) < self.slip_from - 1 or len(word) > 20 or word in self.never_a_slip:
            return unit
        near = {meant for short in _shortened(word) for meant in self.slips.get(short, ()) if _one_slip(word, meant)}
        units = {self.by_word[meant] for meant in near}
        return units.pop() if len(units) == 1 else None


def _by_word(words: UnitList) -> Iterator[tuple[str, Unit]]:
    for name, unit in words.units.items():
        for word in unit.short:
            yield fold(word), Unit(name, unit.dimension)
        for word in unit.words:
            yield fold(word), Unit(name, unit.dimension, alone=True)
    for multiple in words.multiples:
        for word in multiple.words:
            yield (
                fold(word),
                Unit(multiple.unit, words.units[multiple.unit].dimension, alone=True, times=multiple.times),
            )


def _shortened(word: str) -> Iterator[str]:
    """Give a word and what is left of it without each of its letters."""
    yield word
    for place in range(len(word)):
        yield word[:place] + word[place + 1 :]


def _one_slip(word: str, meant: str) -> bool:
    """Is one letter missing, too many, wrong, or exchanged with its neighbour; the first letter is always right."""
    if word[0] != meant[0]:
        return False
    same = 0
    while same < min(len(word), len(meant)) and word[same] == meant[same]:
        same += 1
    rest, meant_rest = word[same:], meant[same:]
    return (
        rest[1:] == meant_rest
        or rest == meant_rest[1:]
        or rest[1:] == meant_rest[1:]
        or (rest[:2] == meant_rest[1::-1] and rest[2:] == meant_rest[2:])
    )


Found = tuple[Unit, int, int]
"""A unit, the index of the token behind it, and where it ends in the text."""


def unit_at(tokens: Sequence[Token], at: int, number: Number, before: int, words: UnitWords) -> Found | None:
    """Read the unit at a token, behind a number that has the token `before` in front of it; None: none stands there."""
    if at >= len(tokens) or tokens[at].gap == LINE:
        return None
    token = tokens[at]
    if token.kind == MARK:
        quoted = before >= 0 and tokens[before].text == token.text and tokens[before + 1].gap == GLUED
        if token.text not in "'\"#([" or (quoted and not _is_behind_figures(tokens, before)):
            return None
        return _mark_at(tokens, at, words)
    if token.kind != WORD:
        return None
    if token.text in words.leads and text_at(tokens, at + 1) in words.by_word and len(text_at(tokens, at + 1)) > 1:
        return words.by_word[tokens[at + 1].text], at + 2, tokens[at + 1].end
    unit = words.meant(token.text)
    if unit is None or not (unit.alone or _is_meant(tokens, at, number, before, words)):
        return None
    return unit, at + 1, token.end


def _is_behind_figures(tokens: Sequence[Token], at: int) -> bool:
    """Does a mark close a number, so that it is that number's unit and opens no quotation."""
    return at > 0 and tokens[at].gap == GLUED and tokens[at - 1].kind == FIGURES


def _mark_at(tokens: Sequence[Token], at: int, words: UnitWords) -> Found | None:
    """Read an inch mark, two foot marks for one, a foot mark, "#" for pounds, or a unit in brackets."""
    token = tokens[at]
    following = tokens[at + 1] if at + 1 < len(tokens) else None
    if token.text in "([":
        return _bracketed_at(tokens, at, words)
    if following is None or following.gap != GLUED:
        glued = token.gap == GLUED or token.text == '"'
        return (words.by_word[token.text], at + 1, token.end) if glued else None
    if token.text == "'" == following.text:
        return words.by_word["''"], at + 2, following.end
    if token.text == "'":
        apostrophe = token.gap == BLANK or (following.kind == WORD and following.text[0] != "x")
        return None if apostrophe else (words.by_word["'"], at + 1, token.end)
    if token.text == "#" and (token.gap != GLUED or following.kind == FIGURES):
        return None
    return words.by_word[token.text], at + 1, token.end


def _bracketed_at(tokens: Sequence[Token], at: int, words: UnitWords) -> Found | None:
    """Read "(cm)"."""
    if at + 2 >= len(tokens) or tokens[at + 2].text not in ")]" or tokens[at + 1].kind != WORD:
        return None
    unit = words.by_word.get(tokens[at + 1].text)
    if unit is None or len(tokens[at + 1].text) < 2:
        return None
    return unit, at + 3, tokens[at + 2].end


def _is_meant(tokens: Sequence[Token], at: int, number: Number, before: int, words: UnitWords) -> bool:
    """Is a short word behind a number its unit: "in" may be a preposition, "m" a size, "g" a letter."""
    token = tokens[at]
    if token.text == "in":
        return not _is_preposition(tokens, at, before, words)
    if token.text in ("m", "м"):
        return number.value <= words.metres_at_most and (not number.whole or token.gap == GLUED)
    if token.text in ("g", "г"):
        return (number.thousands or number.value) >= words.grams_at_least
    return True


def _is_preposition(tokens: Sequence[Token], at: int, before: int, words: UnitWords) -> bool:
    """Is "in" a preposition: "10 in the morning", "12 in height"; not glued, and not in "length 12 in height 10 in"."""
    following = text_at(tokens, at + 1)
    if tokens[at].gap == GLUED or not following:
        return False
    if following in words.measures:
        while before >= 0 and tokens[before].kind == MARK:
            before -= 1
        closed = before >= 0 and tokens[before + 1].text in ")]"
        return before < 0 or closed or tokens[before].text not in words.takes_back
    return following in words.no_inch
