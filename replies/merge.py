"""What becomes of a measure when another value is told for it: the same again, a correction, or a conflict."""

from collections.abc import Mapping
from dataclasses import replace

from replies.enquiry import Known, Source
from replies.reading.facts import Fact, Manner
from sizing.measures import Amount, Measure, Taken
from sizing.reasons import Why
from sizing.units import is_weight, to_inches, to_pounds


def merge(
    older: Known | None, fact: Fact, *, source: Source, asked: Mapping[Measure, Why | None], later: bool = False
) -> Known:
    """Join a value that is told now with the older one of the same measure, if there is one.

    asked    what had just been asked of this dog: the measure, and the doubt it was asked for (None: it was missing)
    later    so much time has passed that a different value is a new measurement
    Returns  the measure as it stands now; values that contradict one another stay, both, as a conflict
    """
    newer = known_from(fact, source)
    if older is None:
        return newer
    newer = replace(newer, before=(*older.before, *(older.taken.conflicting or (older.taken.amount,))))
    was_asked = fact.measure in asked or fact.manner is Manner.ANSWER
    if older.source.by_maker:
        return older if _same(older, newer, fact.measure) else _conflict(older, newer, keep=older)
    if _same(older, newer, fact.measure):
        return _said_again(older, newer, asked.get(fact.measure) if was_asked else None)
    if was_asked or later or fact.manner in (Manner.CORRECTION, Manner.AGAIN):
        return newer
    if _is_better(newer, older):
        return newer
    if _is_better(older, newer):
        return older
    return _conflict(older, newer, keep=newer)


def known_from(fact: Fact, source: Source) -> Known:
    """Give a fact as a measure of an enquiry's dog."""
    taken = Taken(
        amount=fact.amount,
        unit_stated=fact.unit_stated,
        hedged=fact.hedged,
        vague=fact.vague,
        conflicting=fact.conflicting,
        hints=fact.hints,
    )
    return Known(taken=taken, source=source, unit=fact.unit, written=(fact.written.low, fact.written.high))


def with_unit(known: Known, unit: str) -> Known:
    """Give a measure whose number had no unit as one that had this unit, told late.

    unit    any of those of Fact.unit, of the same dimension
    """
    convert = to_pounds if unit in ("lb", "kg", "g", "oz", "st") else to_inches
    low, high = (convert(value, unit) for value in known.written)
    factor = low / known.taken.amount.low
    conflicting = tuple(Amount(low=a.low * factor, high=a.high * factor) for a in known.taken.conflicting)
    taken = replace(known.taken, amount=Amount(low=low, high=high), unit_stated=True, conflicting=conflicting)
    return replace(known, taken=taken, unit=unit)


_LEAST, _MOST = 1.5, 80.0
"""Inches: no dog has a length outside of these."""


def is_possible(known: Known, unit: str) -> bool:
    """Can a number be a dog's in this unit at all: 13 can't be millimetres."""
    if unit in ("lb", "kg", "g", "oz", "st"):
        return True
    low, high = (to_inches(value, unit) for value in known.written)
    return low >= _LEAST and high <= _MOST


def _same(older: Known, newer: Known, measure: Measure) -> bool:
    """The same value again, allowing for rounding; between two units for coarser rounding than within one."""
    if older.taken.conflicting:
        return False
    a, b = older.taken.amount, newer.taken.amount
    slack = 0.02 if older.unit == newer.unit else max(0.26, 0.02 * a.middle)
    if abs(a.low - b.low) <= slack and abs(a.high - b.high) <= slack:
        return True
    no_unit = not (older.taken.unit_stated and newer.taken.unit_stated)
    return no_unit and older.written == newer.written and is_weight(measure) is (newer.unit in ("lb", "kg", "g", "oz"))


def _said_again(older: Known, newer: Known, asked_for: Why | None) -> Known:
    """The same value again is nothing new, but a unit told with it is, and a doubted value is confirmed by it."""
    base = newer if newer.taken.unit_stated or not older.taken.unit_stated else older
    if newer.taken.hedged and not older.taken.hedged:
        base = older if older.taken.unit_stated else base
    confirmed = older.taken.confirmed | ({asked_for} if asked_for else frozenset())
    taken = replace(
        base.taken,
        vague=older.taken.vague and newer.taken.vague,
        hints=newer.taken.hints,
        confirmed=confirmed,
    )
    return replace(base, taken=taken, before=older.before)


def _is_better(one: Known, other: Known) -> bool:
    """One is a measurement and the other a guess, a hint of a mistake, or the wider range around it."""
    a, b = one.taken, other.taken
    if b.conflicting:
        return False
    if (b.vague and not a.vague) or (b.hints and not a.hints):
        return True
    inside = b.amount.low <= a.amount.low and a.amount.high <= b.amount.high and b.amount != a.amount
    return inside or (b.hedged and not a.hedged and abs(a.amount.middle - b.amount.middle) <= 0.15 * a.amount.middle)


def _conflict(older: Known, newer: Known, *, keep: Known) -> Known:
    values = (*(older.taken.conflicting or (older.taken.amount,)), newer.taken.amount)
    distinct = tuple(dict.fromkeys(values))
    if keep.source.by_maker:
        return replace(keep, taken=replace(keep.taken, conflicting=distinct, confirmed=frozenset(Why) - {Why.CONFLICT}))
    span = Amount(low=min(a.low for a in distinct), high=max(a.high for a in distinct))
    return replace(keep, taken=replace(keep.taken, amount=span, conflicting=distinct))
