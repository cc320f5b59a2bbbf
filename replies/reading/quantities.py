"""Finds every quantity of a text, in order: amounts with their units, and the numbers that are none by their shape.

One idea: from each number on, the longest stretch that a person would read as one amount.
"""

import re
from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from functools import cache
from typing import Any, Self

from replies.errors import WordListError
from replies.reading.amount import Amount
from replies.reading.amounts import amount_at
from replies.reading.hedges import HedgeWords, hedges_after, hedges_before
from replies.reading.joints import Joints
from replies.reading.line import Line
from replies.reading.number_words import NumberWords
from replies.reading.numbers import text_at
from replies.reading.quantity import LoneUnit, Quantities
from replies.reading.quantity import Quantity as Quantity
from replies.reading.quantity_lists import find_lists, mark_enumerators, share_units
from replies.reading.ranges import range_end, tolerance_behind
from replies.reading.regions import Region, find_regions
from replies.reading.shape_words import Shape, ShapeWords
from replies.reading.shapes import ordinal_behind, shape_at, shape_behind
from replies.reading.tidy import Tidied
from replies.reading.tokens import (
    FIGURES,
    GLUED,
    LINE,
    MARK,
    Token,
    has_syllables,
    join_syllables,
    mend_points,
    tokenize,
)
from replies.reading.unit_words import Unit, UnitWords
from replies.words import OWN_WORDS


@dataclass(frozen=True, slots=True, kw_only=True)
class AmountWords:
    """The vocabulary of amounts: numbers.toml, unit_words.toml, hedges.toml, shapes.toml.

    opening   every word with which an amount may begin, but for those that end in a part: "dreizehneinhalb"
    """

    numbers: NumberWords
    units: UnitWords
    hedges: HedgeWords
    shapes: ShapeWords
    joints: Joints
    opening: frozenset[str]

    @classmethod
    def load(cls, own: Mapping[str, Any] | None = None) -> Self:
        """Read the word lists, with the maker's own words added.

        own       in the shape of the lists, under their names: {"unit_words": {"units": {"in": {"words": ["zollen"]}}}}
        Raises    WordListError, which names the file, the key and what to do
        """
        own = own or {}
        lists = ("numbers", "unit_words", "hedges", "shapes")
        for name in own:
            if name not in lists:
                raise WordListError(OWN_WORDS, name, f"there is no such list; use one of {', '.join(lists)}")
        numbers, units = NumberWords.load(own.get("numbers")), UnitWords.load(own.get("unit_words"))
        return cls(
            numbers=numbers,
            units=units,
            hedges=HedgeWords.load(own.get("hedges")),
            shapes=ShapeWords.load(own.get("shapes")),
            joints=Joints.of(numbers, units),
            opening=numbers.opening() | {word for word, unit in units.by_word.items() if unit.alone},
        )


@cache
def standard_words() -> AmountWords:
    """Give the vocabulary without additions, read once."""
    return AmountWords.load()


def find_quantities(tidied: Tidied, words: AmountWords | None = None) -> tuple[Quantity, ...]:
    """Find every quantity of a text, in order. Never raises; in linear time.

    >>> from replies.reading.tidy import tidy
    >>> [(found.low, found.high, found.unit) for found in find_quantities(tidy("13½″ tall, 5lb 6oz, 12–13 long"))]
    [(13.5, 13.5, 'in'), (86.0, 86.0, 'oz'), (12.0, 13.0, None)]
    """
    return read_quantities(tidied, words).found


def read_quantities(tidied: Tidied, words: AmountWords | None = None) -> Quantities:
    """Find every quantity of a text, in order, with the lists that they form and the units that stand alone.

    Of a text with thousands of numbers the first 2,000.
    """
    words = words or standard_words()
    folded = tidied.folded
    tokens = mend_points(tokenize(folded))
    if has_syllables(folded):
        tokens = join_syllables(tokens, words.units.syllables)
    line = Line(tidied.text, folded, tokens, words.shapes, words.numbers, words.units, words.hedges)
    found, lone = _scan(line, find_regions(folded), words.opening)
    found = mark_enumerators(folded, found, words.joints)
    lists = find_lists(folded, found, words.joints)
    return Quantities(
        found=tuple(share_units(folded, found, lists, lone, joints=words.joints)),
        lists=lists,
        lone=tuple(lone),
        tokens=tuple(tokens),
    )


def _scan(line: Line, closed: Sequence[Region], opening: AbstractSet[str]) -> tuple[list[Quantity], list[LoneUnit]]:
    tokens = line.tokens
    found: list[Quantity] = []
    lone: list[LoneUnit] = []
    at = region = 0
    while at < len(tokens) and len(found) < _MOST and len(lone) < _MOST:
        token = tokens[at]
        while region < len(closed) and closed[region][1] <= token.start:
            region += 1
        if region < len(closed) and closed[region][0] < token.end:
            at = _leave(tokens, at, closed[region], found)
            continue
        if token.kind == MARK:
            at += 1
            continue
        text = token.text
        begins = token.kind == FIGURES or text in opening or (len(text) > _LONG_WORD and _ends_in_part(line, text))
        read = _quantity_at(line, at) if begins else None
        if read is None:
            unit = line.units.by_word.get(token.text)
            if unit is not None and _stands_alone(line, at, unit):
                lone.append(LoneUnit(start=token.start, end=token.end, unit=unit.name, dimension=unit.dimension))
            at += 1
            continue
        found.append(read[0])
        at = max(read[1], at + 1)
    return found, lone


def _ends_in_part(line: Line, text: str) -> bool:
    """May a word be a number with its part: "dreizehneinhalb"."""
    return text.endswith(tuple(line.numbers.glued_parts))


_LONG_WORD = 8
_MOST = 2000
"""No person writes more numbers than this in one message; what comes behind is no measure of a dog."""


def _leave(tokens: Sequence[Token], at: int, region: Region, found: list[Quantity]) -> int:
    """Note the numbers of a stretch that holds no amounts, and give the index behind it."""
    _, end, shape = region
    while at < len(tokens) and tokens[at].start < end:
        if tokens[at].kind == FIGURES:
            found.append(_shaped(tokens[at], tokens[at].end, shape))
        at += 1
    return at


def _shaped(token: Token, end: int, shape: Shape) -> Quantity:
    digits = re.match(r"\d{1,9}", token.text)
    value = float(digits.group()) if digits else 0.0
    return Quantity(start=token.start, end=end, low=value, high=value, shape=shape)


def _quantity_at(line: Line, at: int) -> tuple[Quantity, int] | None:
    """Read the quantity that begins at a token, and the index behind it."""
    tokens = line.tokens
    token = tokens[at]
    if token.kind == FIGURES:
        shape = shape_at(line, at)
        if shape:
            return _shaped(token, shape[1], shape[0]), _index_at(tokens, at, shape[1])
        ordinal = ordinal_behind(line, at + 1, token.text)
        if ordinal:
            return _shaped(token, tokens[ordinal - 1].end, Shape.ORDINAL), ordinal
    amount = amount_at(line, at)
    if amount is None:
        return None
    high = range_end(line, at, amount)
    last = high or amount
    behind = shape_behind(line, last.after) if last.unit is None else None
    if behind:
        end = tokens[behind[1] - 1].end
        quantity = Quantity(start=token.start, end=end, low=amount.value, high=last.value, shape=behind[0])
        return quantity, behind[1]
    if high is None:
        spread = tolerance_behind(line, amount)
        if spread:
            return _finish(line, at, *spread), spread[1].after
    return _finish(line, at, amount, last), last.after


def _index_at(tokens: Sequence[Token], at: int, end: int) -> int:
    while at < len(tokens) and tokens[at].start < end:
        at += 1
    return at


def _finish(line: Line, at: int, low: Amount, high: Amount) -> Quantity:
    """Put unit, range and words of doubt together."""
    tokens = line.tokens
    unit = high.unit or low.unit
    of_unit = high if high.unit else low
    first = at
    while text_before_is(tokens, first, line.numbers.between):
        first -= 1
    count, guess = hedges_before(tokens, first, line.hedges)
    count_after, guess_after = hedges_after(tokens, high.after, line.hedges)
    if high.value_in(unit) <= 0:
        return _shaped(tokens[at], high.end, Shape.OTHER)
    inside = 0 if high is low else hedges_after(tokens, low.after, line.hedges)[0]
    hashed = at > 0 and tokens[at - 1].text == "#" and tokens[at].gap == GLUED
    return Quantity(
        start=tokens[at].start,
        end=high.end,
        low=low.value_in(unit),
        high=high.value_in(unit),
        unit=unit.name if unit else None,
        dimension=unit.dimension if unit else None,
        shape=Shape.HASH if hashed and unit is None else Shape.AMOUNT,
        hedged=bool(count or count_after or inside) or low.hedged or high.hedged,
        guessed=guess or guess_after,
        spelled=low.spelled,
        compound=low.compound or high.compound,
        unit_start=of_unit.unit_start,
        unit_end=of_unit.unit_end,
        hedge_start=tokens[first - count].start if count else None,
    )


def text_before_is(tokens: Sequence[Token], at: int, words: frozenset[str]) -> bool:
    """Does one of these words stand before a token, on its line."""
    return at > 0 and tokens[at].gap != LINE and tokens[at - 1].text in words


def _stands_alone(line: Line, at: int, unit: Unit) -> bool:
    """Is a unit that no number precedes meant as one: "cm", "kilos", "in inch", but not "Inch" or "pound the floor"."""
    tokens = line.tokens
    text = tokens[at].text
    if len(text) == 1:
        return text == "m" and text_at(tokens, at + 1) == ")" and tokens[at - 1].text == "(" and tokens[at].gap == GLUED
    if unit.times != 1 or text in line.units.never_alone:
        return False
    if not unit.alone or text.endswith("s") or text in line.units.sure_alone:
        return True
    before = tokens[at - 1].text if at else ""
    return text_at(tokens, at) != "" and (before == "(" or before in line.units.before_alone)
