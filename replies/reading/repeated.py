"""Tells dogs without names apart where the same measures are told again in the same order, once for each dog."""

from collections.abc import Sequence

from replies.reading.page import Candidate, Page, Slot
from replies.reading.several import speaks_of_several

_SURE_FROM = 3
"""So many measures told twice in one order are two dogs, also where nothing says that there are two."""
_MOST_DOGS = 4
_SAME_AGAIN = 0.6
"""No two dogs have more than this part of their measures in common, to the figure."""


def part_repeated(page: Page) -> None:
    """Give "10 lb / 10 tall / 11 long and 12 lb / 10.5 tall / 12 long" to two dogs."""
    if page.context.dogs or len(page.dogs) != 1 or page.dogs[0].name is not None:
        return
    told = [one for one in page.candidates if one.aside is None and one.measure is not None]
    size = _size_of_round([one.measure or "" for one in told])
    if size is None or (size < _SURE_FROM and not speaks_of_several(page)):
        return
    if _is_conflicting(told) or _is_said_again(page, told, size):
        return
    for number, candidate in enumerate(told):
        while len(page.dogs) <= number // size:
            page.dogs.append(Slot())
        candidate.dogs = (number // size,)


def _size_of_round(measures: Sequence[str]) -> int | None:
    """Give how many measures are told of each dog; None: they are not told again in one order."""
    if len(measures) < 4 or measures[0] not in measures[1:]:
        return None
    size = measures.index(measures[0], 1)
    rounds, rest = divmod(len(measures), size)
    again = all(measure == measures[at % size] for at, measure in enumerate(measures))
    return size if size > 1 and not rest and 2 <= rounds <= _MOST_DOGS and again else None


def _is_conflicting(told: Sequence[Candidate]) -> bool:
    """Is a later round said to correct the first."""
    return any(one.replaces is not None or one.older or one.manner != told[0].manner for one in told)


def _is_said_again(page: Page, told: Sequence[Candidate], size: int) -> bool:
    """Is it one dog told twice, word for word but for a slip: most values are the same again."""
    values = [(one.low, one.high, one.unit) for one in (page.quantities.found[candidate.number] for candidate in told)]
    same = sum(value == values[at % size] for at, value in enumerate(values) if at >= size)
    return same > _SAME_AGAIN * (len(values) - size)
