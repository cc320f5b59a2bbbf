"""The next standard size either way, and why it is not the one: what a maker looks at before she agrees."""

from collections.abc import Iterator

from sizing.assessment import Neighbour
from sizing.chart import Shop
from sizing.fit import Body, all_right, drop_slack, room_slacks
from sizing.opening import clears_elbow
from sizing.outcome import Outcome
from sizing.sizes import Size


def neighbours(body: Body, outcome: Outcome, shop: Shop) -> tuple[Neighbour, ...]:
    """Give the next smaller and the next larger standard size.

    Returns   for a standard size those beside it in the chart, for made to measure those beside it by inside volume;
              () where nothing serves
    """
    return tuple(_described(body, size, shop, larger=larger) for size, larger in _beside(outcome, shop))


def _beside(outcome: Outcome, shop: Shop) -> Iterator[tuple[Size, bool]]:
    if outcome.inside is None:
        return
    inside = outcome.inside
    volume = inside.length * inside.width * inside.height
    others = [size for size in shop.sizes if size.name != outcome.size]
    smaller = [size for size in others if size.inside.volume <= volume]
    larger = [size for size in others if size.inside.volume > volume]
    if smaller:
        yield smaller[-1], False
    if larger:
        yield larger[0], True


def _described(body: Body, size: Size, shop: Shop, *, larger: bool) -> Neighbour:
    slacks = (*room_slacks(body, size.inside, shop), drop_slack(body, size.opening, shop))
    holds, clears = size.holds(body.weight), clears_elbow(size.opening, body.height, shop)
    return Neighbour(
        size=size.name,
        larger=larger,
        slacks=slacks,
        holds=holds,
        clears_elbow=clears,
        fits=holds and clears and all_right(slacks),
    )
