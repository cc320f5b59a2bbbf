"""Two dogs side by side in one carrier. Two carriers are the better advice; this says what one would have to be."""

from dataclasses import dataclass, replace

from sizing.caution import Caution, caution_for
from sizing.chart import Shop
from sizing.empty_weight import estimated_empty_weight
from sizing.fit import Body, body_of, fit, made_to_measure_inside
from sizing.measures import Dog
from sizing.opening import EdgeBand, edge_band, recut
from sizing.outcome import Dimensions, Kind, Outcome

BETWEEN_IN = 1.0
"""Room between two dogs."""

FARTHEST_THROATS_IN = 1.5
"""Throat hollows that differ by more share no opening."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Together:
    """What one carrier for two dogs would be.

    outcome          as for one dog that is as large as both side by side; never a standard opening
    shared_opening   one edge serves both throats
    opening          its height above the board, inches; None where no edge serves both
    caution          of both dogs' weight
    tethers          one a dog
    """

    outcome: Outcome
    shared_opening: bool
    opening: float | None
    caution: Caution
    tethers: int = 2


def together(first: Dog, second: Dog, shop: Shop) -> Together:
    """Give what one carrier for two dogs side by side would be.

    Raises   KeyError when one of the five measures of either is missing
    """
    one, other = body_of(first), body_of(second)
    both = Body(
        length=max(one.length, other.length),
        width=one.width + BETWEEN_IN + other.width,
        height=max(one.height, other.height),
        throat_height=min(one.throat_height, other.throat_height),
        weight=one.weight + other.weight,
    )
    outcome = fit(both, shop)
    inside = outcome.inside or made_to_measure_inside(both, shop)
    near = abs(one.throat_height - other.throat_height) <= FARTHEST_THROATS_IN
    opening = recut(_shared(one, other, shop), inside.height, shop) if near and outcome.inside else None
    return Together(
        outcome=_with_opening(outcome, opening),
        shared_opening=opening is not None,
        opening=opening,
        caution=_caution(both, outcome, inside, shop),
    )


def _shared(one: Body, other: Body, shop: Shop) -> EdgeBand:
    """Give where one edge serves both: above both elbows, below both hollows, too deep for neither."""
    bands = [edge_band(body.height, body.throat_height, shop) for body in (one, other)]
    return EdgeBand(
        lowest=max(band.lowest for band in bands),
        aim=sum(band.aim for band in bands) / len(bands),
        highest=min(band.highest for band in bands),
    )


def _with_opening(outcome: Outcome, opening: float | None) -> Outcome:
    """The opening is cut for both dogs, so that no size keeps its standard one."""
    if outcome.inside is None:
        return outcome
    kind = Kind.ALTERED_OPENING if outcome.kind is Kind.STANDARD else outcome.kind
    concern = "opening" if opening is None else None
    return replace(outcome, kind=kind, opening=opening, concern=concern, fallback=None, slacks=outcome.slacks[:3])


def _caution(both: Body, outcome: Outcome, inside: Dimensions, shop: Shop) -> Caution:
    standard = outcome.size is not None
    empty = shop.size(outcome.size).empty_weight if outcome.size else estimated_empty_weight(inside, shop)
    return caution_for(both.weight, empty, inside=inside, shop=shop, empty_estimated=not standard)
