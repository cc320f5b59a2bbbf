"""Gives a unit to every number: its own, the one told for others of the message, or the one that the customer uses.

The words "stated" and "unit" are those of Fact: where no unit was told anywhere, the shop's own is taken.
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from replies.reading.facts import SetAside
from replies.reading.marks import PHRASE, STOP
from replies.reading.page import Candidate, Page
from replies.reading.proportions import misfit
from replies.reading.quantity import LoneUnit
from replies.reading.shapes import Shape
from replies.reading.small_words import Small
from replies.reading.unit_words import Dimension
from sizing.units import WEIGHT_UNITS, to_inches, to_pounds

_LEAST_M, _MOST_M = 0.05, 0.9
"""A length without a unit in this range can only be in metres."""
_OF_DOG = frozenset(
    {
        *("past", "overruled", "target", "forecast", "body", "joke", "loaded"),
        *("relative", "sibling", "companion", "tool", "part"),
    }
)
_WEIGHTS = frozenset(("lb", "oz", "st", "kg", "g"))
_CARRIED = {
    "ft": "in",
    "in": "in",
    "cm": "cm",
    "mm": "mm",
    "m": "cm",
    "lb": "lb",
    "oz": "lb",
    "st": "lb",
    "kg": "kg",
    "g": "kg",
}
"""The unit in which a number without one goes on after a number in another."""


class InUnit(NamedTuple):
    """A number with the unit that counts for it: both ends as written, and in inches or pounds."""

    unit: str
    stated: bool
    written: tuple[float, float]
    amount: tuple[float, float]


def mend_units(page: Page) -> None:
    """Read "31 in - no hang on, that's cm": the unit takes the place of the one before it."""
    for lone in page.quantities.lone:
        number = bisect_left(page.quantities.found, lone.start, key=lambda one: one.start) - 1
        quantity = page.quantities.found[number] if number >= 0 else None
        if quantity is None or quantity.unit in (None, lone.unit) or quantity.dimension != lone.dimension:
            continue
        place = page.distance.place(number)
        between = [mark for mark in page.marks[place + 1 : place + _CORRECTED_WITHIN] if mark.end <= lone.start]
        reached = place + len(between) + 1 < len(page.marks) and page.marks[place + len(between) + 1].end >= lone.end
        if (
            reached
            and any(mark.has("correction") for mark in between)
            and not any(mark.text == "\n" for mark in between)
        ):
            found = list(page.quantities.found)
            found[number] = replace(quantity, unit=lone.unit)
            page.quantities = replace(page.quantities, found=tuple(found))


_CORRECTED_WITHIN = 9


def see_late_units(page: Page) -> None:
    """Note a unit that stands beside no number: "all in cm btw", "kilos!"."""
    for dimension in (Dimension.LENGTH, Dimension.WEIGHT):
        told = [unit for unit in page.quantities.lone if unit.dimension == dimension and not _is_passing(page, unit)]
        names = {_CARRIED[unit.unit] for unit in told}
        if len(names) == 1:
            name = names.pop()
            if dimension == Dimension.LENGTH:
                page.length_unit = name
            else:
                page.weight_unit = name


def take_asked_units(page: Page, units: Sequence[str]) -> None:
    """Where the shop asked in a unit and the customer names none, take the shop's."""
    for unit in units:
        weighs = unit in _WEIGHTS
        told = any(
            one.unit is not None and (one.dimension == Dimension.WEIGHT) is weighs for one in page.quantities.found
        )
        if weighs and page.weight_unit is None and not told:
            page.weight_unit = _CARRIED[unit]
        elif not weighs and page.length_unit is None and not told:
            page.length_unit = _CARRIED[unit]


def _is_passing(page: Page, unit: LoneUnit) -> bool:
    """Is the unit only spoken of: "cm or inches?", "to the gram", "in pounds of cheek"."""
    if unit.unit in ("g", "m", "oz", "st", "ft"):
        return True
    index = next((at for at, mark in enumerate(page.marks) if mark.start >= unit.start), len(page.marks) - 1)
    if page.marks and (page.marks[index].has("dog", "breed") or any(one.first == index for one in page.names)):
        return True
    before = page.marks[index - 1] if index else None
    following = page.marks[index + 1] if index + 1 < len(page.marks) else None
    if before is not None and before.among(Small.UNIT_IN_PASSING):
        return True
    if following is None or following.kind != PHRASE:
        return False
    return following.text == "or" or following.among(Small.TOOLS) or _is_murmur(page, index)


def _is_murmur(page: Page, index: int) -> bool:
    """Is "mm" the sound of a customer who thinks: "mm ok will do it tonight"."""
    if page.marks[index].text != "mm" or page.marks[index + 1].among(Small.BEHIND_MM):
        return False
    before = page.marks[index - 1] if index else None
    return before is None or (before.kind == STOP and before.text not in (":", "=", "("))


def in_units(page: Page, dog: int, candidates: Sequence[Candidate]) -> dict[int, InUnit]:
    """Give every number of a dog with its unit, by index of the quantity."""
    lengths = [candidate for candidate in candidates if candidate.measure != "weight"]
    weights = [candidate for candidate in candidates if candidate.measure == "weight"]
    found: dict[int, InUnit] = {}
    known = _known(page, dog)
    for candidate in [*(one for one in lengths if _own(page, one)), *(one for one in weights if _own(page, one))]:
        found[candidate.number] = _as(page, candidate, _own(page, candidate) or "", stated=True)
        known.setdefault(candidate.measure or "", _middle(found[candidate.number]))
    for candidate in lengths:
        if candidate.number not in found:
            unit, stated = _length_unit(page, dog, candidate, known)
            found[candidate.number] = _as(page, candidate, unit, stated=stated)
    for candidate in lengths:
        if candidate.number in found:
            known.setdefault(candidate.measure or "", _middle(found[candidate.number]))
    for candidate in weights:
        if candidate.number not in found:
            unit, stated = _weight_unit(page, dog, candidate, known)
            found[candidate.number] = _as(page, candidate, unit, stated=stated)
    return found


def _known(page: Page, dog: int) -> dict[str, float]:
    index = page.dogs[dog].known
    if index is None:
        return {}
    known = page.context.dogs[index]
    return {str(measure): amount.middle for measure, amount in known.measures.items() if measure not in known.unit_open}


def _own(page: Page, candidate: Candidate) -> str | None:
    """Give the unit that stands beside a number; "#" is one for pounds."""
    quantity = page.quantities.found[candidate.number]
    return quantity.unit or ("lb" if quantity.shape == Shape.HASH else None)


def _middle(number: InUnit) -> float:
    return (number.amount[0] + number.amount[1]) / 2


def _as(page: Page, candidate: Candidate, unit: str, *, stated: bool) -> InUnit:
    quantity = page.quantities.found[candidate.number]
    convert = to_pounds if unit in WEIGHT_UNITS else to_inches
    low, high = convert(quantity.low, unit), convert(quantity.high, unit)
    return InUnit(unit, stated, (quantity.low, quantity.high), (low, high))


def _length_unit(page: Page, dog: int, candidate: Candidate, known: dict[str, float]) -> tuple[str, bool]:
    """Give the unit of a length without one, and whether it was told."""
    if page.length_unit is not None:
        return page.length_unit, True
    told = _told_beside(page, candidate, Dimension.LENGTH)
    if told:
        return _likeliest(page, candidate, told, known), True
    before = _used_before(page, dog, weight=False)
    if before is not None:
        return before, True
    return ("m" if _all_in_metres(page) else page.context.length_unit), False


def _all_in_metres(page: Page) -> bool:
    """Are all lengths of the message, two at least, numbers that can only be metres: 0.31, 0.34."""
    lengths = [
        page.quantities.found[one.number].low
        for one in page.candidates
        if one.aside is None and one.measure not in (None, "weight")
    ]
    return len(lengths) > 1 and all(_LEAST_M <= length <= _MOST_M for length in lengths)


def _weight_unit(page: Page, dog: int, candidate: Candidate, known: dict[str, float]) -> tuple[str, bool]:
    if page.weight_unit is not None:
        return page.weight_unit, True
    told = _told_beside(page, candidate, Dimension.WEIGHT)
    if told:
        return _likeliest(page, candidate, told, known), True
    before = _used_before(page, dog, weight=True)
    if before is not None:
        return before, True
    return page.context.weight_unit, False


_AROUND = 100
"""So many numbers on either side are looked at for a unit."""


def _told_beside(page: Page, candidate: Candidate, dimension: Dimension) -> list[str]:
    """Give the units told for other numbers of the message that are a dog's, nearest first, one before it preferred."""
    units: list[tuple[int, str]] = []
    for other in page.candidates[max(0, candidate.number - _AROUND) : candidate.number + _AROUND]:
        quantity = page.quantities.found[other.number]
        if quantity.unit is None or quantity.dimension != dimension or not _is_of_dog(other):
            continue
        gap = candidate.number - other.number
        units.append((2 * gap if gap > 0 else 1 - 2 * gap, _CARRIED[quantity.unit]))
    return list(dict.fromkeys(unit for _, unit in sorted(units)))


def _is_of_dog(candidate: Candidate) -> bool:
    """Is the number a dog's, taken or not: an earlier or a wrong value, or his brother's, tells the unit as well."""
    return candidate.aside in (None, SetAside.WITHDRAWN) or candidate.beside in _OF_DOG


def _likeliest(page: Page, candidate: Candidate, told: Sequence[str], known: dict[str, float]) -> str:
    """Choose between units that were both told: the nearest one with which the number can be this measure."""
    if len(told) == 1:
        return told[0]
    return min(
        told,
        key=lambda unit: misfit(candidate.measure or "", _middle(_as(page, candidate, unit, stated=True)), known),
    )


def _used_before(page: Page, dog: int, *, weight: bool) -> str | None:
    """Give the unit in which the customer last gave a length or a weight, of this dog or else of another."""
    index = page.dogs[dog].known
    dogs = [page.context.dogs[index]] if index is not None else []
    dogs += [known for known in reversed(page.context.dogs) if known not in dogs]
    for known in dogs:
        unit = known.weight_unit if weight else known.length_unit
        if unit is not None:
            return _CARRIED.get(unit, unit)
    return None
