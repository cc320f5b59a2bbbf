"""Picks what serves a dog: a standard size, one with an altered opening, made to measure, or nothing.

The rules in the order in which they are tried stand in `fit`. A dog counts by the middles of its measures, its weight
by the upper end.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from sizing.chart import Shop
from sizing.cutting import nearest_within
from sizing.measures import Dog, Measure
from sizing.opening import EdgeBand, clears_elbow, edge_band, recut
from sizing.outcome import Dimensions, Direction, Kind, Outcome, Room, Slack
from sizing.sizes import Ease, Inside, Size

_NOISE = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """A dog as the rules count it.

    length, width, height, throat_height   middles, inches
    weight                                 upper end, pounds
    """

    length: float
    width: float
    height: float
    throat_height: float
    weight: float


def body_of(dog: Dog) -> Body:
    """Give the dog as the rules count it.

    Raises   KeyError when one of the five measures is missing
    """
    of = dog.measures
    return Body(
        length=of[Measure.LENGTH].amount.middle,
        width=of[Measure.WIDTH].amount.middle,
        height=of[Measure.HEIGHT].amount.middle,
        throat_height=of[Measure.THROAT_HEIGHT].amount.middle,
        weight=of[Measure.WEIGHT].amount.high,
    )


def fit(body: Body, shop: Shop) -> Outcome:
    """Give what serves the dog; the first rule that holds decides.

    Returns   the outcome without `sure` and `sure_measure`
    """
    roomy = [(size, room_slacks(body, size.inside, shop)) for size in shop.sizes]
    right = [(size, slacks) for size, slacks in roomy if all_right(slacks)]
    holding = [(size, slacks) for size, slacks in right if size.holds(body.weight)]
    return (
        _standard(body, holding, shop)
        or _altered(body, holding, shop)
        or _too_heavy(right)
        or _made_to_measure(body, roomy, shop)
    )


def room_slacks(body: Body, inside: Inside | Dimensions, shop: Shop) -> tuple[Slack, ...]:
    """Give the room of a carrier in length, width and height."""
    ease = shop.ease
    return (
        _slack(Direction.LENGTH, inside.length - body.length, ease.length, body.length),
        _slack(Direction.WIDTH, inside.width - body.width, ease.width, body.width),
        _slack(Direction.HEIGHT, inside.height - shop.pad - body.height, ease.height, body.height),
    )


def drop_slack(body: Body, opening: float, shop: Shop) -> Slack:
    """Give how far an edge `opening` inches above the board lies below the throat hollow."""
    return _slack(Direction.DROP, body.throat_height + shop.pad - opening, shop.ease.drop, body.height)


def all_right(slacks: Iterable[Slack]) -> bool:
    """Tell whether every direction leaves the right room."""
    return all(slack.room is Room.RIGHT for slack in slacks)


def made_to_measure_inside(body: Body, shop: Shop) -> Dimensions:
    """Give the finished inside dimensions for a dog, each a multiple of the cutting step, inches."""
    return Dimensions(
        length=_cut(body.length, 0.0, shop.ease.length, step=shop.step),
        width=_cut(body.width, 0.0, shop.ease.width, step=shop.step),
        height=_cut(body.height, shop.pad, shop.ease.height, step=shop.step),
    )


def _slack(direction: Direction, slack: float, ease: Ease, measure: float) -> Slack:
    return Slack(
        direction=direction,
        slack=slack,
        least=ease.least.at(measure),
        aim=ease.aim.at(measure),
        most=ease.most.at(measure),
    )


def _cut(measure: float, under: float, ease: Ease, *, step: float) -> float:
    base = measure + under
    low, aim, high = base + ease.least.at(measure), base + ease.aim.at(measure), base + ease.most.at(measure)
    cut = nearest_within(aim, low, high, step=step)
    # Settings leave at least one step between least and most; only measures far beyond any dog come here without.
    return aim if cut is None else cut


def _far_from_aim(slacks: Iterable[Slack]) -> float:
    return sum(((slack.slack - slack.aim) / (slack.most - slack.least)) ** 2 for slack in slacks)


def _nearest_to_aim(fitting: list[tuple[Size, tuple[Slack, ...]]]) -> tuple[Size, tuple[Slack, ...]]:
    """Give the size nearest to aim. Sizes come from small to large, so that of two equally near the smaller is kept."""
    best, least = fitting[0], _far_from_aim(fitting[0][1])
    for one in fitting[1:]:
        far = _far_from_aim(one[1])
        if far < least - _NOISE:
            best, least = one, far
    return best


def _standard(body: Body, holding: list[tuple[Size, tuple[Slack, ...]]], shop: Shop) -> Outcome | None:
    fitting = []
    for size, slacks in holding:
        drop = drop_slack(body, size.opening, shop)
        if drop.room is Room.RIGHT and clears_elbow(size.opening, body.height, shop):
            fitting.append((size, (*slacks, drop)))
    if not fitting:
        return None
    size, slacks = _nearest_to_aim(fitting)
    return Outcome(
        kind=Kind.STANDARD, size=size.name, inside=_dimensions(size.inside), opening=size.opening, slacks=slacks
    )


def _altered(body: Body, holding: list[tuple[Size, tuple[Slack, ...]]], shop: Shop) -> Outcome | None:
    if not holding:
        return None
    size, slacks = _nearest_to_aim(holding)
    opening = recut(_band(body, shop), size.inside.height, shop)
    return Outcome(
        kind=Kind.ALTERED_OPENING,
        size=size.name,
        inside=_dimensions(size.inside),
        opening=opening,
        concern="opening" if opening is None else None,
        slacks=slacks if opening is None else (*slacks, drop_slack(body, opening, shop)),
    )


def _too_heavy(right: list[tuple[Size, tuple[Slack, ...]]]) -> Outcome | None:
    return Outcome(kind=Kind.NOT_SAFE) if right else None


def _made_to_measure(body: Body, roomy: list[tuple[Size, tuple[Slack, ...]]], shop: Shop) -> Outcome:
    inside = made_to_measure_inside(body, shop)
    opening = recut(_band(body, shop), inside.height, shop)
    if not _can_be_sewn(inside, opening, shop):
        return Outcome(kind=Kind.OUTSIDE_RANGE)
    rated = shop.made_to_measure_rated_load
    if rated is not None and body.weight > rated:
        return Outcome(kind=Kind.NOT_SAFE)
    slacks = room_slacks(body, inside, shop)
    return Outcome(
        kind=Kind.MADE_TO_MEASURE,
        fallback=_fallback(body, roomy, shop),
        inside=inside,
        opening=opening,
        concern="opening" if opening is None else None,
        slacks=slacks if opening is None else (*slacks, drop_slack(body, opening, shop)),
    )


def _can_be_sewn(inside: Dimensions, opening: float | None, shop: Shop) -> bool:
    least, most = shop.sewn.least, shop.sewn.most
    spans = [
        (least.length, inside.length, most.length),
        (least.width, inside.width, most.width),
        (least.height, inside.height, most.height),
    ]
    if opening is not None:
        spans.append((least.opening, opening, most.opening))
    return all(low - _NOISE <= value <= high + _NOISE for low, value, high in spans)


def _fallback(body: Body, roomy: list[tuple[Size, tuple[Slack, ...]]], shop: Shop) -> str | None:
    for size, slacks in roomy:
        tight = any(slack.room is Room.TIGHT for slack in (*slacks, drop_slack(body, size.opening, shop)))
        if not tight and size.holds(body.weight):
            return size.name
    return None


def _band(body: Body, shop: Shop) -> EdgeBand:
    return edge_band(body.height, body.throat_height, shop)


def _dimensions(inside: Inside) -> Dimensions:
    return Dimensions(length=inside.length, width=inside.width, height=inside.height)
