"""Values that were told in earlier messages: in the unit in which they were told, and as facts."""

from replies.reading.context import Asked, KnownDog
from replies.reading.facts import Fact, Manner, Passage
from replies.reading.page import Page
from sizing.measures import Amount, Measure
from sizing.units import from_inches, from_pounds, is_weight


def known_fact(page: Page, one: Asked, amount: Amount, at: Passage) -> Fact:
    """Make a fact of a value told before, now told to be of this measure."""
    weighs = is_weight(one.measure)
    known = page.context.dogs[one.dog]
    unit = unit_before(page, known, weighs=weighs)
    return Fact(
        measure=one.measure,
        amount=amount,
        written=converted(amount, unit, weighs=weighs),
        unit=unit,
        unit_stated=one.measure not in known.unit_open,
        at=at,
        manner=Manner.CORRECTION,
    )


def unit_before(page: Page, known: KnownDog | None, *, weighs: bool) -> str:
    """Give the unit in which the lengths, or the weight, of a dog were told; without any, the shop's own."""
    if weighs:
        return (known and known.weight_unit) or page.context.weight_unit
    return (known and known.length_unit) or page.context.length_unit


def converted(amount: Amount, unit: str, *, weighs: bool) -> Amount:
    """Give an amount of inches, or pounds, in a unit."""
    convert = from_pounds if weighs else from_inches
    return Amount(low=convert(amount.low, unit), high=convert(amount.high, unit))


def measures_of(page: Page, known: KnownDog, value: float) -> list[Measure]:
    """Give the measures that have this value, as the customer told it."""
    return [
        measure
        for measure, amount in known.measures.items()
        if abs(_as_told(page, known, measure, amount) - value) < 0.02 * value
    ]


def _as_told(page: Page, known: KnownDog, measure: Measure, amount: Amount) -> float:
    weighs = is_weight(measure)
    return converted(amount, unit_before(page, known, weighs=weighs), weighs=weighs).middle
