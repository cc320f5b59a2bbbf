"""Dogs, doubts and outcomes of our own invention, of which the samples that try out the wording are made."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import date

from replies.enquiry import EnquiryDog, Known, Source
from sizing.assessment import Assessment, Neighbour
from sizing.caution import Caution, Level, caution_for
from sizing.chart import Shop
from sizing.doubt import Doubt
from sizing.growth import Growth
from sizing.measures import FIVE, Amount, Measure, Taken
from sizing.outcome import Dimensions, Direction, Kind, Outcome, Slack
from sizing.reasons import Why
from sizing.sizes import Inside, Size
from sizing.units import to_inches, to_pounds

A_DAY = date(2026, 1, 1)

_IN = {
    Measure.LENGTH: 14.5,
    Measure.HEIGHT: 11.0,
    Measure.WIDTH: 5.5,
    Measure.THROAT_HEIGHT: 8.0,
    Measure.WEIGHT: 13.0,
}
_CM = {
    Measure.LENGTH: 36.0,
    Measure.HEIGHT: 28.0,
    Measure.WIDTH: 14.0,
    Measure.THROAT_HEIGHT: 20.5,
    Measure.WEIGHT: 6.2,
}
_INSIDE = Inside(length=17, width=7, height=13)
_FINISHED = Dimensions(length=17, width=7, height=13)
_DIRECTIONS = (Direction.LENGTH, Direction.WIDTH, Direction.HEIGHT)

DOUBTED: Mapping[Why, tuple[Measure, ...]] = {
    Why.UNIT: (Measure.WIDTH,),
    Why.SWAP: (Measure.HEIGHT, Measure.WIDTH),
    Why.GIRTH: (Measure.WIDTH,),
    Why.TAIL: (Measure.LENGTH,),
    Why.HEAD: (Measure.HEIGHT,),
    Why.THROAT: (Measure.THROAT_HEIGHT,),
    Why.SIZE: (Measure.HEIGHT,),
    Why.WEIGHT: (Measure.WEIGHT,),
    Why.CONFLICT: (Measure.LENGTH,),
    Why.VAGUE: (Measure.LENGTH, Measure.WIDTH),
}
"""The measures on which a doubt of each reason is tried."""


def sample_dog(name: str | None = "Pickle", *, metric: bool = False, without: Iterable[Measure] = ()) -> EnquiryDog:
    """Give a dog with all five measures but some."""
    numbers = _CM if metric else _IN
    left_out = frozenset(without)
    measures = {measure: known(measure, number, metric=metric) for measure, number in numbers.items()}
    return EnquiryDog(name=name, measures={m: one for m, one in measures.items() if m not in left_out})


def with_rounds(dog: EnquiryDog, *, metric: bool = False) -> EnquiryDog:
    """Give a dog with its girth and neck besides."""
    girth, neck = (44.0, 28.0) if metric else (17.5, 11.0)
    rounds = {
        Measure.GIRTH: known(Measure.GIRTH, girth, metric=metric),
        Measure.NECK: known(Measure.NECK, neck, metric=metric),
    }
    return replace(dog, measures={**dog.measures, **rounds})


def known(measure: Measure, number: float, *, metric: bool = False, by_maker: bool = False) -> Known:
    """Give a measure as told in inches or pounds, or in centimetres or kilograms."""
    weight = measure is Measure.WEIGHT
    unit = ("kg" if metric else "lb") if weight else ("cm" if metric else "in")
    value = to_pounds(number, unit) if weight else to_inches(number, unit)
    source = Source(message=None if by_maker else "1", at=None, by_maker=by_maker)
    return Known(taken=Taken(amount=Amount.exactly(value)), source=source, unit=unit, written=(number, number))


def in_doubt(dog: EnquiryDog, why: Why, *, by_maker: bool = False) -> EnquiryDog:
    """Give a dog whose measure is as the doubt says: of two values, a guess, or without a unit."""
    measure = DOUBTED[why][0]
    one = dog.measures[measure]
    low = one.taken.amount.low
    values = (Amount.exactly(low), Amount.exactly(low * 1.25)) if why is Why.CONFLICT else ()
    taken = replace(one.taken, conflicting=values, vague=why is Why.VAGUE, unit_stated=why is not Why.UNIT)
    source = Source(message=None, at=None, by_maker=True) if by_maker else one.source
    return replace(dog, measures={**dog.measures, measure: replace(one, taken=taken, source=source)})


def scaled(dog: EnquiryDog, factor: float) -> EnquiryDog:
    """Give the same dog larger or smaller."""

    def times(one: Known) -> Known:
        amount = Amount.exactly(one.taken.amount.low * factor)
        low, high = one.written
        return replace(one, taken=replace(one.taken, amount=amount), written=(low * factor, high * factor))

    return replace(dog, measures={measure: times(one) for measure, one in dog.measures.items()})


def doubts_of(why: Why, also: Why | None = None) -> tuple[Doubt, ...]:
    """Give the doubts that one mistake raises; `also`: a second reason that is nearly as likely."""
    first = tuple(Doubt(measure=measure, why=why, odds=20.0) for measure in DOUBTED[why])
    second = tuple(Doubt(measure=measure, why=also, odds=10.0) for measure in DOUBTED[why]) if also else ()
    return first + second


def undecided(dog: EnquiryDog, doubts: tuple[Doubt, ...] = ()) -> Assessment:
    """Give the assessment of a dog of which something is missing or doubted."""
    lacking = tuple(measure for measure in FIVE if measure not in dog.measures)
    return Assessment(dog=dog.for_sizing(), on=A_DAY, missing=lacking, doubts=doubts)


def decided(
    dog: EnquiryDog, outcome: Outcome, shop: Shop, *, level: Level = Level.SHORT_CARRY, growth: Growth | None = None
) -> Assessment:
    """Give the assessment of a dog with an outcome."""
    return Assessment(
        dog=dog.for_sizing(),
        on=A_DAY,
        outcome=outcome,
        caution=_caution(level, shop),
        neighbours=(_neighbour("Sample A", larger=False), _neighbour("Sample C", larger=True)),
        growth=growth,
    )


STANDARD = Outcome(
    kind=Kind.STANDARD,
    size="Sample B",
    inside=_FINISHED,
    opening=7.5,
    slacks=tuple(Slack(direction=direction, slack=2, least=1, aim=2, most=3) for direction in Direction),
    sure=0.95,
)
MADE_TO_MEASURE = replace(STANDARD, kind=Kind.MADE_TO_MEASURE, size=None)


def outcomes() -> Iterator[Outcome]:
    """Give every kind of outcome, with all that can be amiss with a standard opening."""
    yield STANDARD
    for size in ("Sample A", "Sample B", "Sample C"):
        yield replace(STANDARD, kind=Kind.ALTERED_OPENING, size=size, opening=7.75)
    for fallback in (None, "Sample A", "Sample B"):
        yield replace(MADE_TO_MEASURE, fallback=fallback)
    yield replace(MADE_TO_MEASURE, opening=None, concern="opening", slacks=STANDARD.slacks[:3])
    yield Outcome(kind=Kind.NOT_SAFE)
    yield Outcome(kind=Kind.OUTSIDE_RANGE)


def sizes() -> tuple[Size, ...]:
    """One whose edge lies below the sample dog's elbow, one whose edge could be higher, one whose edge is too high."""
    openings = {"Sample A": 5.5, "Sample B": 7.5, "Sample C": 8.25}
    return tuple(
        Size(name=name, inside=_INSIDE, opening=opening, empty_weight=2.0, price="a sample price")
        for name, opening in openings.items()
    )


def _caution(level: Level, shop: Shop) -> Caution:
    caution = caution_for(13.0, 2.0, inside=_FINISHED, shop=shop)
    return replace(caution, level=level, rest_within_m=10.0 if level is Level.SHORT_CARRY else None)


def _neighbour(size: str, *, larger: bool) -> Neighbour:
    room = 9.0 if larger else 0.0
    slacks = tuple(Slack(direction=direction, slack=room, least=1, aim=2, most=3) for direction in _DIRECTIONS)
    return Neighbour(size=size, larger=larger, slacks=slacks, holds=True, clears_elbow=True, fits=False)
