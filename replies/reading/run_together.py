"""Reads a row of numbers beside as many words that run together: "back shoulder width throat: 13 11 5 7"."""

from collections.abc import Sequence

from replies.reading.marks import PHRASE
from replies.reading.page import Page
from replies.reading.unit_words import Dimension

_LEAST = 3
"""Fewer words than this that run together name one measure: "shoulder width"."""
_BETWEEN = 2
"""So many signs may stand between the row and its words."""


def words_beside(page: Page, row: Sequence[int]) -> list[tuple[int, str]] | None:
    """Give, for each number of a row, the mark of its word and the measure that this names by itself; None: no such."""
    if len(row) < _LEAST:
        return None
    first, last = page.distance.place(row[0]), page.distance.place(row[-1])
    for start, step in ((first, -1), (last, 1)):
        found = _named(page, row, _run(page, start, step)[::step])
        if found is not None:
            return found
    return None


def _run(page: Page, start: int, step: int) -> list[int]:
    """Give the marks of the run of names that begins on one side of a row, nearest first."""
    at = start + step
    while 0 <= at < len(page.marks) and abs(at - start) <= _BETWEEN and page.marks[at].kind != PHRASE:
        at += step
    run: list[int] = []
    while 0 <= at < len(page.marks) and page.marks[at].kind == PHRASE and page.marks[at].name("atom"):
        run.append(at)
        at += step
    return run


def _named(page: Page, row: Sequence[int], run: Sequence[int]) -> list[tuple[int, str]] | None:
    rules = [page.words.composer.compose(frozenset((page.marks[at].name("atom") or "",))) for at in run]
    measures = [rule.gives for rule in rules if rule is not None and rule.gives != "none"]
    if len(run) != len(row) or len(set(measures)) != len(row):
        return None
    for number, measure in zip(row, measures, strict=True):
        dimension = page.quantities.found[number].dimension
        if dimension is not None and (dimension is Dimension.WEIGHT) != (measure == "weight"):
            return None
    return list(zip(run, measures, strict=True))
