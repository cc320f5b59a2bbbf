"""Finds every quantity of a text, in order: amounts with their units, and the numbers that are no amounts by their shape.

One idea: from each number, the longest stretch that a person would read as one amount.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from replies.reading.hedges import hedges_after, hedges_before
from replies.reading.numbers import (
    AND,
    ARTICLE,
    BETWEEN,
    BLANK,
    FIGURES,
    GLUED,
    LINE,
    MARK,
    OF,
    OR,
    PARTS,
    TO,
    WORD,
    Number,
    Token,
    number_at,
    part_at,
    tokenize,
)
from replies.reading.shapes import Shape, ordinal_behind, regions, shape_at, shape_behind
from replies.reading.tidy import Tidied
from replies.reading.unit_words import UNITS, Dimension, Unit, unit_at

MM_OR_G = frozenset(("mm", "g"))
_SMALLER = {"ft": ("in", 12), "lb": ("oz", 16), "st": ("lb", 14), "kg": ("g", 1000), "m": ("cm", 100)}
_WIDEST_RANGE = 2.5
_WIDEST_SLASHED = 1.35


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """One quantity, with its place in the tidied text.

    start, end   of number and unit, without label letters and words such as "about"
    low, high    as written, in `unit`; feet and inches, pounds and ounces, kilograms and grams in the smaller unit;
                 without meaning where the shape is neither amount, hash nor enumerator
    unit         "in", "ft", "cm", "mm", "m", "lb", "oz", "st", "kg", "g"; None: none stands beside it
    unit_start, unit_end   the place of the (last) unit; None: no unit. For a shared unit the place where it stands
    unit_shared  the unit was said once for a list, and stands behind or before another number of it
    hedged       "about", "ish", "just under" stand beside it; hedge_start is where they begin, if before it
    guessed      "maybe", "I guess" stand beside it
    spelled      written in words
    """

    start: int
    end: int
    low: float
    high: float
    unit: str | None = None
    dimension: Dimension | None = None
    shape: Shape = Shape.AMOUNT
    hedged: bool = False
    guessed: bool = False
    spelled: bool = False
    unit_start: int | None = None
    unit_end: int | None = None
    unit_shared: bool = False
    hedge_start: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LoneUnit:
    """A unit that stands beside no number: "all in cm"."""

    start: int
    end: int
    unit: str
    dimension: Dimension


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantities:
    """What find_quantities found, with what joins it.

    lists   indices into `found` of numbers joined by x, by or *: length x width x height
    lone    units that stand beside no number
    """

    found: tuple[Quantity, ...] = ()
    lists: tuple[tuple[int, ...], ...] = ()
    lone: tuple[LoneUnit, ...] = ()


@dataclass(frozen=True, slots=True)
class _Amount:
    """An amount at some token, before ranges: value in unit, index and place of its end."""

    value: float
    after: int
    end: int
    unit: Unit | None = None
    unit_start: int | None = None
    spelled: bool = False
    thousands: float | None = None
    whole: bool = False


def find_quantities(tidied: Tidied) -> tuple[Quantity, ...]:
    """Find every quantity of a text, in order. Never raises; in linear time."""
    return read_quantities(tidied).found


def read_quantities(tidied: Tidied) -> Quantities:
    """Find every quantity of a text, in order, with the lists that they form and the units that stand alone."""
    folded = tidied.folded
    tokens = tokenize(folded)
    closed = regions(folded)
    found: list[Quantity] = []
    lone: list[LoneUnit] = []
    at = region = 0
    while at < len(tokens):
        token = tokens[at]
        while region < len(closed) and closed[region][1] <= token.start:
            region += 1
        if region < len(closed) and closed[region][0] < token.end:
            at = _leave_region(tokens, at, closed[region], found)
            continue
        if token.kind == MARK:
            at += 1
            continue
        quantity = _quantity_at(tidied, tokens, at)
        if quantity is None:
            unit = UNITS.get(token.text)
            if unit is not None and _stands_alone(tokens, at, unit):
                lone.append(LoneUnit(start=token.start, end=token.end, unit=unit.name, dimension=unit.dimension))
            at += 1
            continue
        found.append(quantity[0])
        at = max(quantity[1], at + 1)
    found = _enumerators(folded, found)
    lists = _lists(folded, found)
    found = _share_units(folded, found, lists, lone)
    return Quantities(found=tuple(found), lists=lists, lone=tuple(lone))


def _leave_region(tokens: Sequence[Token], at: int, region: tuple[int, int, Shape], found: list[Quantity]) -> int:
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


def _quantity_at(tidied: Tidied, tokens: Sequence[Token], at: int) -> tuple[Quantity, int] | None:
    """Read the quantity that begins at a token, and the index behind it."""
    token = tokens[at]
    if token.kind == FIGURES:
        shape = shape_at(tidied.text, tidied.folded, tokens, at)
        if shape:
            return _shaped(token, shape[1], shape[0]), _index_at(tokens, at, shape[1])
    amount = _amount_at(tokens, at)
    if amount is None:
        return None
    if amount.unit is None:
        ordinal = ordinal_behind(tokens, amount.after, amount.value)
        if ordinal:
            return _shaped(token, tokens[ordinal - 1].end, Shape.ORDINAL), ordinal
    high = _range_end(tokens, at, amount)
    last = high or amount
    behind = shape_behind(tokens, last.after) if last.unit is None else None
    if behind and not (tokens[behind[1] - 1].text == "min" and _text(tokens, behind[1]) == "pin"):
        end = tokens[behind[1] - 1].end
        quantity = Quantity(start=token.start, end=end, low=amount.value, high=last.value, shape=behind[0])
        return quantity, behind[1]
    return _finish(tokens, at, amount, high), last.after


def _text(tokens: Sequence[Token], at: int) -> str:
    return tokens[at].text if 0 <= at < len(tokens) else ""


def _index_at(tokens: Sequence[Token], at: int, end: int) -> int:
    while at < len(tokens) and tokens[at].start < end:
        at += 1
    return at


def _finish(tokens: Sequence[Token], at: int, amount: _Amount, high: _Amount | None) -> Quantity:
    """Put unit, range and words of doubt together."""
    last = high or amount
    unit = last.unit or amount.unit
    low_value, high_value = _as_unit(amount, unit), _as_unit(last, unit)
    if high and amount.unit and high.unit and amount.unit.name != high.unit.name:
        low_value = high_value = _as_unit(amount, unit)
    first = at
    hash_before = at > 0 and tokens[at - 1].text == "#" and tokens[at].gap == GLUED
    while first and tokens[first].gap != LINE and tokens[first - 1].text in BETWEEN:
        first -= 1
    count, guess_before = hedges_before(tokens, first)
    count_after, guess_after = hedges_after(tokens, last.after)
    between = hedges_after(tokens, amount.after)[0] if high is None else 0
    return Quantity(
        start=tokens[at].start,
        end=last.end,
        low=min(low_value, high_value),
        high=max(low_value, high_value),
        unit=unit.name if unit else None,
        dimension=unit.dimension if unit else None,
        shape=Shape.HASH if hash_before and unit is None else Shape.AMOUNT,
        hedged=bool(count or count_after or between),
        guessed=guess_before or guess_after,
        spelled=amount.spelled,
        unit_start=(last.unit_start if last.unit else amount.unit_start),
        unit_end=(last.end if last.unit else amount.end) if unit else None,
        hedge_start=tokens[first - count].start if count else None,
    )


def _as_unit(amount: _Amount, unit: Unit | None) -> float:
    """Give the value, with a sign before three figures read as the unit has it: 1.200 g, but 1.200 kg."""
    value = amount.value
    if amount.thousands is not None and (unit is None or unit.name in MM_OR_G):
        value = amount.thousands
    return value * unit.times if unit else value


def _amount_at(tokens: Sequence[Token], at: int) -> _Amount | None:
    """Read a number with its unit, and what follows of a smaller unit: "1 ft 2", "5lb 6oz", "5kg200"."""
    number = number_at(tokens, at)
    if number is None:
        return _part_of_unit(tokens, at)
    if number.spelled and not number.whole and number.weak:
        number = replace(number, weak=False)
    unit = _unit_behind(tokens, number, at)
    if unit is None:
        if number.weak:
            return _part_of_unit(tokens, at)
        return _Amount(
            number.value,
            number.after,
            number.end,
            spelled=number.spelled,
            thousands=number.thousands,
            whole=number.whole,
        )
    kind, after, end, start = unit
    if number.weak and not (kind.alone or number.after - at > 1):
        return None
    amount = _Amount(number.value, after, end, kind, start, number.spelled, number.thousands, number.whole)
    return _with_half(tokens, _with_smaller(tokens, amount))


def _unit_behind(tokens: Sequence[Token], number: Number, at: int) -> tuple[Unit, int, int, int] | None:
    """Read the unit behind a number, over "ish", a hyphen, "of an" and brackets."""
    after = number.after
    if _text(tokens, after) == "ish" and tokens[after].gap == GLUED:
        after += 1
    if _text(tokens, after) == "-" and after + 1 < len(tokens) and tokens[after].gap == tokens[after + 1].gap == GLUED:
        if tokens[after + 1].kind == WORD:
            after += 1
        if _text(tokens, after) == "ish":
            after += 1
    if _text(tokens, after) in OF and _text(tokens, after + 1) in ARTICLE:
        after += 2
    elif not number.whole and _text(tokens, after) in ARTICLE and number.value < 1:
        after += 1
    found = unit_at(tokens, after, number, at - 1) or _unit_and_times(tokens, after)
    if found is None:
        return None
    return found[0], found[1], found[2], tokens[after].start


def _unit_and_times(tokens: Sequence[Token], at: int) -> tuple[Unit, int, int] | None:
    """Read the unit of "14inx5in": the word is unit and times sign in one."""
    if at + 1 >= len(tokens) or tokens[at].gap != GLUED or tokens[at + 1].gap != GLUED:
        return None
    word = tokens[at].text
    if word[-1:] != "x" or word[:-1] not in UNITS or tokens[at + 1].kind != FIGURES:
        return None
    return UNITS[word[:-1]], at + 1, tokens[at].end - 1


def _part_of_unit(tokens: Sequence[Token], at: int) -> _Amount | None:
    """Read "a foot", "half an inch", "three quarters of an inch", "a half pound"."""
    token = tokens[at]
    if token.text in ARTICLE and at + 1 < len(tokens) and tokens[at + 1].gap != LINE:
        unit = UNITS.get(tokens[at + 1].text)
        if unit and unit.alone:
            amount = _Amount(1, at + 2, tokens[at + 1].end, unit, tokens[at + 1].start, spelled=True, whole=True)
            return _with_half(tokens, _with_smaller(tokens, amount))
    part = part_at(tokens, at) if token.text in PARTS or _text(tokens, at + 1) in PARTS else None
    if part is None:
        return None
    number = Number(part[0], part[1], part[2], spelled=True)
    unit_found = _unit_behind(tokens, number, at)
    if unit_found is None or not unit_found[0].alone:
        return None
    kind, after, end, start = unit_found
    return _Amount(part[0], after, end, kind, start, spelled=True)


def _with_half(tokens: Sequence[Token], amount: _Amount) -> _Amount:
    """Read "and a half" behind the unit: "a foot and a half", "13 kilos y medio"."""
    at = amount.after
    if not amount.whole or _text(tokens, at) not in AND or tokens[at].gap == LINE:
        return amount
    part = part_at(tokens, at + 1)
    if part is None or part[0] >= 1:
        return amount
    following = _text(tokens, part[1])
    if following in OF or following in ARTICLE or following in UNITS:
        return amount
    return replace(amount, value=amount.value + part[0], after=part[1], end=part[2], whole=False)


def _with_smaller(tokens: Sequence[Token], amount: _Amount) -> _Amount:
    """Read the smaller unit behind a larger one, with or without its name."""
    if amount.unit is None or amount.unit.name not in _SMALLER or amount.unit.times != 1:
        return amount
    smaller, times = _SMALLER[amount.unit.name]
    at = amount.after
    if _text(tokens, at) in AND or (_text(tokens, at) == "," and amount.unit.name == "lb"):
        at += 1
    joined = at > amount.after
    if at >= len(tokens) or tokens[at].gap == LINE:
        return amount
    number = number_at(tokens, at)
    if number is None or number.weak or number.value >= times or (number.value <= 0):
        return amount
    unit = unit_at(tokens, number.after, number, at - 1)
    if unit is not None:
        if unit[0].name != smaller or (joined and amount.spelled != number.spelled):
            return amount
        last = _Amount(
            amount.value * times + number.value,
            unit[1],
            unit[2],
            UNITS[smaller],
            tokens[number.after].start,
            amount.spelled,
        )
        return _ounces(tokens, last) if smaller == "lb" else last
    if joined and amount.unit.name != "kg":
        return amount
    rest = _unnamed_rest(tokens, amount, number, at)
    if rest is None:
        return amount
    return _Amount(
        amount.value * times + rest, number.after, number.end, UNITS[smaller], amount.unit_start, amount.spelled
    )


def _ounces(tokens: Sequence[Token], amount: _Amount) -> _Amount:
    """Read the ounces behind stones and pounds."""
    return _with_smaller(tokens, amount)


def _unnamed_rest(tokens: Sequence[Token], amount: _Amount, number: Number, at: int) -> float | None:
    """Give what a bare number behind a unit means in the smaller one: 5'4, 1 ft 2, 5 lb 2, 5kg200, 1m20."""
    name = amount.unit.name if amount.unit else ""
    token = tokens[at]
    if not amount.whole:
        return None
    if name in ("kg", "m"):
        digits = 3 if name == "kg" else 2
        if token.kind == FIGURES and token.text.isdigit() and len(token.text) == digits:
            return number.value
        if name == "kg" and token.gap == GLUED and len(token.text) == 1 and token.text.isdigit():
            return number.value * 100
        return None
    if _text(tokens, amount.after - 1) == "'" and token.gap == GLUED:
        return number.value
    if (
        name in ("ft", "lb", "st")
        and token.kind == FIGURES
        and _closes(tokens, number.after)
        and (number.whole or name == "ft")
    ):
        return number.value
    return None


def _closes(tokens: Sequence[Token], at: int) -> bool:
    """Does a phrase end at a token, so that the number before it is not the beginning of something else."""
    if at >= len(tokens) or tokens[at].gap == LINE:
        return True
    return tokens[at].text in (",", ".", ";", ")", "!", "?") and (at + 1 >= len(tokens) or tokens[at + 1].gap != GLUED)


def _range_end(tokens: Sequence[Token], at: int, low: _Amount) -> _Amount | None:
    """Read the upper end of "12-13", "12 to 13", "12 or 13", "12/13", "between 12 and 13"; None: no range."""
    link = low.after
    if link + 1 >= len(tokens) or tokens[link].gap == LINE or tokens[link + 1].gap == LINE:
        return None
    sign = tokens[link].text
    between = at > 0 and tokens[at].gap != LINE and tokens[at - 1].text in BETWEEN
    if sign == "-":
        if tokens[link].gap == GLUED and tokens[link + 1].gap == BLANK:
            return None
        if _chained(tokens, at, link):
            return None
    elif sign == "/":
        if tokens[link].gap != GLUED or tokens[link + 1].gap != GLUED or _text(tokens, at - 1) == "/":
            return None
    elif not (sign in TO or sign in OR or (between and sign in AND)):
        return None
    next_at = link + 1
    if tokens[next_at].text in ("maybe", "even", "perhaps"):
        next_at += 1
    high = _amount_at(tokens, next_at) if next_at < len(tokens) else None
    if high is None or not _is_range(low, high, sign):
        return None
    if sign in ("-", "/") and _text(tokens, high.after) == sign and high.unit is None:
        following = tokens[high.after + 1] if high.after + 1 < len(tokens) else None
        if following is not None and following.kind == FIGURES and following.gap != LINE:
            return None
    if sign in ("a", "o", "of", "à") and tokens[next_at].kind != FIGURES:
        return None
    return high


def _chained(tokens: Sequence[Token], at: int, link: int) -> bool:
    """Does a hyphen also stand directly before the first number, as in 14-5-11: then they are a list."""
    return at >= 2 and tokens[at - 1].text == "-" and tokens[at - 2].kind == FIGURES and tokens[at - 1].gap != LINE


def _is_range(low: _Amount, high: _Amount, sign: str) -> bool:
    if low.unit and high.unit:
        if low.unit.dimension != high.unit.dimension:
            return False
        if low.unit.name != high.unit.name:
            return False
    elif low.unit and not high.unit and sign == "/":
        return False
    unit = high.unit or low.unit
    first, last = _as_unit(low, unit), _as_unit(high, unit)
    widest = _WIDEST_SLASHED if sign == "/" else _WIDEST_RANGE
    return 0 < first < last <= first * widest


_NUMBERED = re.compile(r"(?m)^[ \t>*(]*(\d{1,2})([.):]|(?=[ \t]))[ \t]+(?=\S)")


def _enumerators(folded: str, found: list[Quantity]) -> list[Quantity]:
    """Tell the numbers of list items at line starts from amounts: 1., 2., 3. or 1 2 3 with something behind each."""
    starts = {match.start(1): match for match in _NUMBERED.finditer(folded)}
    if not starts:
        return found
    places = [
        at
        for at, quantity in enumerate(found)
        if quantity.start in starts
        and quantity.unit is None
        and quantity.shape == Shape.AMOUNT
        and quantity.end == starts[quantity.start].end(1)
    ]
    marked = [at for at in places if starts[found[at].start].group(2) and _more_on_line(folded, found, at)]
    counted: list[int] = []
    for at in places:
        if found[at].low == len(counted) + 1:
            counted.append(at)
    chosen = set(marked) | (set(counted) if len(counted) > 1 and _all_more(folded, found, counted) else set())
    return [
        replace(quantity, shape=Shape.ENUMERATOR) if at in chosen else quantity for at, quantity in enumerate(found)
    ]


def _more_on_line(folded: str, found: Sequence[Quantity], at: int) -> bool:
    """Does another number stand on the line of this one."""
    return at + 1 < len(found) and "\n" not in folded[found[at].end : found[at + 1].start]


def _all_more(folded: str, found: Sequence[Quantity], places: Sequence[int]) -> bool:
    return all(_more_on_line(folded, found, at) for at in places)


_TIMES_BETWEEN = re.compile(
    r"[ \t]*(?:\(?[a-z]{1,9}\)?\.?[ \t]*)?(?:(?<![a-z])(?:x|by|mal|х)(?![a-z])|(?<=\d[lwhtb])x(?=\d)|\*)[ \t]*(?:[a-z]{1,9}[ \t]*[:=]?[ \t]*)?"
)


def _lists(folded: str, found: Sequence[Quantity]) -> tuple[tuple[int, ...], ...]:
    """Find the numbers that are joined by x, by or *."""
    lists: list[tuple[int, ...]] = []
    group: list[int] = []
    for at, quantity in enumerate(found):
        linked = False
        if group and quantity.shape == Shape.AMOUNT:
            start = found[at - 1].end
            linked = quantity.start - start <= 30 and _is_times(folded, start, quantity.start)
        if linked:
            group.append(at)
        else:
            if len(group) > 1:
                lists.append(tuple(group))
            group = [at] if quantity.shape == Shape.AMOUNT else []
    if len(group) > 1:
        lists.append(tuple(group))
    return tuple(lists)


def _is_times(folded: str, start: int, end: int) -> bool:
    match = _TIMES_BETWEEN.match(folded, start, end)
    return match is not None and match.end() == end


_LISTED = re.compile(r"[ \t]*(?:,|and|&|und|en|et|y|e|\+|/|-|,[ \t]*(?:and|&|und|en|et|y|e))[ \t]*")


def _share_units(
    folded: str, found: list[Quantity], lists: Sequence[tuple[int, ...]], lone: list[LoneUnit]
) -> list[Quantity]:
    """Give a unit that is said once for a list to all numbers of the list."""
    for group in lists:
        last = found[group[-1]]
        if last.unit and all(found[at].unit is None for at in group[:-1]):
            for at in group[:-1]:
                found[at] = _shared(found[at], last)
    at = 0
    while at < len(found):
        end = at
        while end + 1 < len(found) and found[end].unit is None and _listed(folded, found, end):
            end += 1
        last = found[end]
        if end > at and last.unit and last.dimension == Dimension.LENGTH and _shares(folded, found, at, end):
            for place in range(at, end):
                if found[place].shape == Shape.AMOUNT:
                    found[place] = _shared(found[place], last)
        at = end + 1
    return _share_leading(folded, found, lone)


def _listed(folded: str, found: Sequence[Quantity], at: int) -> bool:
    start, end = found[at].end, found[at + 1].start
    if end - start > 12 or found[at].shape != Shape.AMOUNT or found[at + 1].shape != Shape.AMOUNT:
        return False
    match = _LISTED.match(folded, start, end)
    return match is not None and match.end() == end


def _shares(folded: str, found: Sequence[Quantity], first: int, last: int) -> bool:
    """Two numbers share a unit where "and" or a slash joins them; with commas alone it takes three."""
    return last - first >= 2 or "," not in folded[found[first].end : found[last].start]


def _shared(quantity: Quantity, source: Quantity) -> Quantity:
    return replace(
        quantity,
        unit=source.unit,
        dimension=source.dimension,
        unit_shared=True,
        unit_start=source.unit_start,
        unit_end=source.unit_end,
    )


_LEADS = re.compile(r"\)?[ \t]*(?::|=|-)[ \t\n]*")


def _share_leading(folded: str, found: list[Quantity], lone: Sequence[LoneUnit]) -> list[Quantity]:
    """Give a unit that stands before a list, "in cm: 35, 28", to the numbers of the list."""
    for unit in lone:
        match = _LEADS.match(folded, unit.end)
        if match is None:
            continue
        place = next((at for at, quantity in enumerate(found) if quantity.start == match.end()), None)
        while place is not None and found[place].unit is None and found[place].shape == Shape.AMOUNT:
            found[place] = replace(
                found[place],
                unit=unit.unit,
                dimension=unit.dimension,
                unit_shared=True,
                unit_start=unit.start,
                unit_end=unit.end,
            )
            place = place + 1 if place + 1 < len(found) and _listed(folded, found, place) else None
    return found


def _stands_alone(tokens: Sequence[Token], at: int, unit: Unit) -> bool:
    """Is a unit that no number precedes meant as one: a full word, or "cm" and the like, never "in" or one letter."""
    return unit.alone or (len(tokens[at].text) > 1 and tokens[at].text not in ("in", "ins", "st", "inc", "ib"))
