"""Reads names that stand on lines of their own below their numbers: "13 in / length / 11 in / height"."""

from collections.abc import Iterator
from itertools import pairwise

from replies.reading.marks import NUMBER, STOP
from replies.reading.page import Page

_LINE_ENDS = ("\n", "\n\n")
_LEAST_PAIRS = 2


def read_stacked(page: Page, *, without: set[int]) -> tuple[set[int], set[int]]:
    """Give numbers the names on the lines below them, where number and name take turns from the first line to the last.

    without   numbers that are dealt with already
    Returns   the numbers and the names that are dealt with
    """
    numbers: set[int] = set()
    names: set[int] = set()
    for run in _runs(page, without):
        for number, name in zip(run[::2], run[1::2], strict=True):
            rule = page.labels[name].rule
            candidate = page.candidates[number]
            candidate.measure, candidate.labels, candidate.listed = (rule.gives if rule else None), (name,), True
            numbers.add(number)
            names.add(name)
    return numbers, names


def _runs(page: Page, without: set[int]) -> Iterator[list[int]]:
    """Give the runs of lines in which a number and a name take turns, number first, name last."""
    names = {label.first: index for index, label in enumerate(page.labels)}
    run: list[int] = []
    before = ""
    for first, last in pairwise([-1, *_line_ends(page), len(page.marks)]):
        kind, index = _line(page, first + 1, last, names)
        if kind == "number" and index in without:
            kind = ""
        if kind and kind != before and (run or kind == "number"):
            run.append(index)
        else:
            yield from _ended(run, kind)
            run = [index] if kind == "number" and before != "name" else []
        before = kind
    yield from _ended(run, "")


def _ended(run: list[int], following: str) -> Iterator[list[int]]:
    if len(run) >= 2 * _LEAST_PAIRS and len(run) % 2 == 0 and following != "number":
        yield run


def _line_ends(page: Page) -> list[int]:
    return [at for at, mark in enumerate(page.marks) if mark.kind == STOP and mark.text in _LINE_ENDS]


def _line(page: Page, first: int, last: int, names: dict[int, int]) -> tuple[str, int]:
    """Tell a line that is one number, or one name, from any other."""
    marks = [mark for mark in page.marks[first:last] if mark.kind != STOP]
    if len(marks) == 1 and marks[0].kind == NUMBER and page.candidates[marks[0].quantity].aside is None:
        return "number", marks[0].quantity
    index = names.get(first)
    if index is not None and page.labels[index].last == last - 1 and page.labels[index].rule is not None:
        return "name", index
    return "", -1
