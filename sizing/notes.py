"""What the maker should know beside the fit: no rated load, an edge that cannot be cut, a puppy, a posture, a space."""

from collections.abc import Iterator

from sizing.assessment import Note, Remark
from sizing.caution import Caution
from sizing.chart import Shop
from sizing.fit import Body
from sizing.growth import Advice, Growth, Stage
from sizing.measures import Dog, Posture
from sizing.opening import clears_elbow
from sizing.outcome import Kind, Outcome
from sizing.space import Space
from sizing.written import length_with_unit

_POSTURES = {
    Posture.SITS: (
        "The dog is to sit; the size is for a dog that stands. Sitting takes less length, but no less width and no "
        "less height. Shorten it only after asking whether the dog ever stands or lies down in it."
    ),
    Posture.CURLS: (
        "The dog is to curl up; the size is for a dog that stands. Curled up it takes less length and height, but more "
        "width. Ask how wide it lies before you change anything."
    ),
}


def notes_on_dog(dog: Dog, growth: Growth | None) -> Iterator[Note]:
    """Give the notes that hang on the dog alone."""
    if growth is not None:
        yield Note(remark=Remark.PUPPY, text=_on_growth(growth))
    if dog.posture in _POSTURES:
        yield Note(remark=Remark.POSTURE, text=_POSTURES[dog.posture])


def notes_on_fit(body: Body, outcome: Outcome, caution: Caution, *, space: Space | None, shop: Shop) -> Iterator[Note]:
    """Give the notes on what serves the dog."""
    if outcome.concern == "opening":
        yield Note(
            remark=Remark.NO_OPENING,
            text="No cutting step serves for the opening: there is no room between throat hollow and elbow.",
        )
    if _has_no_rated_load(outcome, shop):
        yield Note(
            remark=Remark.NO_RATED_LOAD,
            text="No rated load is set for this construction: nothing is claimed about its strength. Proof-test it.",
        )
    if outcome.fallback is not None and not clears_elbow(shop.size(outcome.fallback).opening, body.height, shop):
        yield Note(
            remark=Remark.FALLBACK_EDGE,
            text=f"The edge of {outcome.fallback} lies below the dog's elbow: it must be recut, or a paw goes over.",
        )
    if caution.empty_estimated:
        yield Note(
            remark=Remark.EMPTY_ESTIMATED,
            text="The empty weight is estimated from the sewn area: weigh the finished carrier.",
        )
    if space is not None:
        yield Note(remark=Remark.SPACE, text=_on_space(space, shop))


def _has_no_rated_load(outcome: Outcome, shop: Shop) -> bool:
    if outcome.size is not None:
        return shop.size(outcome.size).rated_load is None
    return outcome.kind is Kind.MADE_TO_MEASURE and shop.made_to_measure_rated_load is None


def _on_growth(growth: Growth) -> str:
    age = f"{growth.age_months:g} months old"
    if growth.stage is Stage.HEIGHT_FINAL:
        return f"{age}: height and length are final, the weight may still rise."
    final = (
        "no height or length is final yet" if growth.stage is Stage.NOT_FINAL else "height and length are nearly final"
    )
    advised = "wait" if growth.advice is Advice.WAIT else "leave room"
    return f"{age}: {final}; final from about {growth.wait_until_months:g} months. Your setting advises to {advised}."


def _on_space(space: Space, shop: Shop) -> str:
    def sides(*values: float) -> str:
        return " x ".join(length_with_unit(value, shop.length_unit) for value in values)

    outer = sides(space.outer.length, space.outer.width, space.outer.height)
    limit = sides(*space.limit.sides)
    if not space.fits:
        verdict = "more than"
    elif space.whichever_way:
        verdict = "within"
    else:
        verdict = f"within, if {' or '.join(sides(side) for side in space.upright)} stands up,"
    return f"Outside {outer}, pockets empty: {verdict} the {limit} that was named. The operator decides."
