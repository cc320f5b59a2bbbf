"""Finds the cheapest way to give every number of a text its names, and how much the next best would cost.

Going along the text once, only how many of the names behind a number are taken has to be remembered. In linear time.
"""

from collections.abc import Sequence
from typing import NamedTuple

REACH = 3
"""So many names on either side may belong to one number."""


class Given(NamedTuple):
    """A number with the measure that it was given.

    number   index of the quantity
    measure  as in labels.toml: a measure, "chest", "largo", "large", "none"; None: its unit alone tells a weight
    labels   indices of the names that decided, nearest first
    hint     the mistake that the names give away
    cost     of names and distances
    margin   how much more the best way with another measure costs
    """

    number: int
    measure: str | None
    labels: tuple[int, ...]
    hint: str | None
    cost: float
    margin: float


class Option(NamedTuple):
    """One way to give a number a measure: how far into the names before and behind it reaches, and what it costs."""

    before: int
    after: int
    cost: float
    measure: str | None
    labels: tuple[int, ...]
    hint: str | None


def cheapest(
    numbers: Sequence[int], options: Sequence[Sequence[Option]], skips: Sequence[Sequence[float]]
) -> list[Given]:
    """Choose among the options of each number, so that all together cost least.

    options   of each number
    skips     of each stretch between numbers: as `skip_costs` gives them
    """
    forward, choices = _forward(options, skips)
    backward = _backward(options, skips)
    return _trace(numbers, options, skips, forward, backward, choices)


def skip_costs(gap: Sequence[int], left: Sequence[float]) -> list[float]:
    """Give the cost of leaving the first n names of a gap, for each n."""
    costs = [0.0]
    for index in gap:
        costs.append(costs[-1] + left[index])
    return costs


def _between(skips: Sequence[float], taken: int, reach: int) -> float | None:
    """Give the cost of the names of a gap that neither side takes; None: the two sides overlap."""
    until = len(skips) - 1 - reach
    return skips[until] - skips[taken] if taken <= until else None


Table = list[dict[int, float]]
"""For each number: how many names behind it are taken -> the least cost so far."""


def _forward(
    options: Sequence[Sequence[Option]], skips: Sequence[Sequence[float]]
) -> tuple[Table, list[dict[int, tuple[int, int]]]]:
    table: Table = [{0: 0.0}]
    choices: list[dict[int, tuple[int, int]]] = [{}]
    for at, here in enumerate(options):
        costs: dict[int, float] = {}
        chosen: dict[int, tuple[int, int]] = {}
        for number, option in enumerate(here):
            for taken, so_far in table[at].items():
                left = _between(skips[at], taken, option.before)
                if left is None:
                    continue
                cost = so_far + left + option.cost
                if cost < costs.get(option.after, float("inf")):
                    costs[option.after] = cost
                    chosen[option.after] = (taken, number)
        table.append(costs)
        choices.append(chosen)
    return table, choices


def _backward(options: Sequence[Sequence[Option]], skips: Sequence[Sequence[float]]) -> Table:
    """Give for each number the least cost of all that follows, by how many names behind it are taken."""
    table: Table = [{} for _ in range(len(options) + 1)]
    last = skips[-1]
    table[-1] = {taken: last[-1] - last[taken] for taken in range(min(REACH, len(last) - 1) + 1)}
    for at in range(len(options) - 1, -1, -1):
        for taken in range(min(REACH, len(skips[at]) - 1) + 1):
            best = float("inf")
            for option in options[at]:
                left = _between(skips[at], taken, option.before)
                if left is not None and option.after in table[at + 1]:
                    best = min(best, left + option.cost + table[at + 1][option.after])
            table[at][taken] = best
    return table


def _trace(
    numbers: Sequence[int],
    options: Sequence[Sequence[Option]],
    skips: Sequence[Sequence[float]],
    forward: Table,
    backward: Table,
    choices: Sequence[dict[int, tuple[int, int]]],
) -> list[Given]:
    """Follow the cheapest way back from the end, and note for each number what its best other measure would cost."""
    taken = min(forward[-1], key=lambda state: forward[-1][state] + backward[-1][state])
    total = forward[-1][taken] + backward[-1][taken]
    given: list[Given] = []
    for at in range(len(numbers) - 1, -1, -1):
        taken, number = choices[at + 1][taken]
        option = options[at][number]
        if option.measure is None:
            continue
        other = _best_other(options[at], option, skips[at], forward[at], backward[at + 1])
        given.append(Given(numbers[at], option.measure, option.labels, option.hint, option.cost, other - total))
    given.reverse()
    return given


def _best_other(
    options: Sequence[Option], best: Option, skips: Sequence[float], before: dict[int, float], after: dict[int, float]
) -> float:
    costs = [
        so_far + left + option.cost + after[option.after]
        for option in options
        if _another(option.measure, best.measure) and option.after in after
        for taken, so_far in before.items()
        if (left := _between(skips, taken, option.before)) is not None
    ]
    return min(costs, default=float("inf"))


def _another(measure: str | None, best: str | None) -> bool:
    """Is it another measure, rather than the same less surely named."""
    if best in ("girth", "width") and measure == "chest":
        return False
    return measure != best
