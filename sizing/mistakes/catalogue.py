"""The list of all measuring mistakes."""

from collections.abc import Callable, Iterator

from sizing.mistakes import girth, head, size, swap, tail, throat, unit, weight
from sizing.mistakes.told import Mistake, Told

_ALL: tuple[Callable[[Told], Iterator[Mistake]], ...] = (
    unit.mistakes,
    swap.mistakes,
    girth.mistakes,
    tail.mistakes,
    head.mistakes,
    throat.mistakes,
    size.mistakes,
    weight.mistakes,
)


def possible_mistakes(told: Told) -> list[Mistake]:
    """Give every mistake that may have been made with these measures."""
    return [mistake for find in _ALL for mistake in find(told)]
