"""The one way in: a dog and a shop give what is missing, doubted, fitting and to be cautioned."""

from dataclasses import replace
from datetime import date

from sizing.assessment import Assessment, WouldBe
from sizing.caution import Caution, caution_for
from sizing.chart import Shop
from sizing.empty_weight import estimated_empty_weight
from sizing.fit import Body, body_of, fit, made_to_measure_inside
from sizing.growth import growth
from sizing.judge import judge
from sizing.matters import matters_for
from sizing.measures import Amount, Dog, Measure, Taken
from sizing.missing import missing
from sizing.neighbours import neighbours
from sizing.notes import notes_on_dog, notes_on_fit
from sizing.outcome import Dimensions, Outcome
from sizing.space import space
from sizing.sure import how_sure


def assess(dog: Dog, shop: Shop, on: date) -> Assessment:
    """Assess a dog.

    dog       what was told of it, inches and pounds
    shop      the chart and settings in force
    on        the day, which the answer bears
    Returns   the outcome is None while something is missing or doubted
    Raises    nothing for any measures, however wild
    """
    lacking, young = missing(dog), growth(dog, shop)
    on_dog = tuple(notes_on_dog(dog, young))
    doubts = judge(dog, matters=matters_for(dog, shop))
    if lacking or doubts:
        would_be = _would_be(dog, shop) if lacking == (Measure.THROAT_HEIGHT,) and not doubts else None
        return Assessment(dog=dog, on=on, missing=lacking, doubts=doubts, would_be=would_be, growth=young, notes=on_dog)
    body = body_of(dog)
    outcome = _with_sure(fit(body, shop), dog, shop)
    caution = _caution(body, outcome, shop)
    room = space(outcome.inside, dog.space, shop) if outcome.inside and dog.space else None
    return Assessment(
        dog=dog,
        on=on,
        outcome=outcome,
        caution=caution,
        ask_again=_ask_again(outcome, shop),
        neighbours=neighbours(body, outcome, shop),
        growth=young,
        space=room,
        notes=(*on_dog, *notes_on_fit(body, outcome, caution, space=room, shop=shop)),
    )


def _with_sure(outcome: Outcome, dog: Dog, shop: Shop) -> Outcome:
    if outcome.inside is None or outcome.opening is None:
        return outcome
    sure = how_sure(dog, outcome.inside, outcome.opening, shop=shop)
    return replace(outcome, sure=sure.serves, sure_measure=sure.measure)


def _ask_again(outcome: Outcome, shop: Shop) -> Measure | None:
    if outcome.sure is None or outcome.sure >= shop.ask_again_below:
        return None
    return outcome.sure_measure


def _would_be(dog: Dog, shop: Shop) -> WouldBe:
    """Fit the dog as if its throat hollow lay where any opening can be cut."""
    guess = Taken(amount=Amount.exactly(dog.measures[Measure.HEIGHT].amount.middle))
    outcome = fit(body_of(replace(dog, measures={**dog.measures, Measure.THROAT_HEIGHT: guess})), shop)
    return WouldBe(kind=outcome.kind, size=outcome.size, inside=outcome.inside)


def _caution(body: Body, outcome: Outcome, shop: Shop) -> Caution:
    """Give the caution for the recommended carrier; where none is, for the nearest that can be sewn."""
    inside = outcome.inside or _sewable(made_to_measure_inside(body, shop), shop)
    empty = shop.size(outcome.size).empty_weight if outcome.size else estimated_empty_weight(inside, shop)
    return caution_for(body.weight, empty, inside=inside, shop=shop, empty_estimated=outcome.size is None)


def _sewable(inside: Dimensions, shop: Shop) -> Dimensions:
    least, most = shop.sewn.least, shop.sewn.most
    return Dimensions(
        length=min(max(inside.length, least.length), most.length),
        width=min(max(inside.width, least.width), most.width),
        height=min(max(inside.height, least.height), most.height),
    )
