"""Reads run-on speech in which names and numbers take turns: "back eleven shoulder nine across the hips four".

One idea: where a passage begins with a name, ends with a number, and has one name for each number in between (or the
other way round), each name stands with its own number, and no number is between two that could both have it.
"""

from collections.abc import Sequence

from replies.reading.marks import NUMBER, PHRASE, STOP
from replies.reading.page import Page
from replies.reading.unit_words import Dimension

_FEWEST = 4
"""So many pairs at least: fewer are left to the weighing of distances."""
_MEASURES = frozenset(("length", "height", "width", "throat_height", "weight", "girth", "neck"))


def read_alternating(page: Page, *, without: set[int]) -> tuple[set[int], set[int]]:
    """Give the numbers of passages without any punctuation the names with which they take turns.

    without   numbers that are dealt with already
    Returns   the numbers and the names that are dealt with
    """
    numbers: set[int] = set()
    names: set[int] = set()
    for passage in _passages(page):
        pairs = _pairs(page, passage)
        if pairs and not without & {number for number, _ in pairs}:
            for number, label in pairs:
                rule = page.labels[label].rule
                candidate = page.candidates[number]
                candidate.measure, candidate.labels, candidate.listed = (rule.gives if rule else None), (label,), True
            numbers.update(number for number, _ in pairs)
            names.update(label for _, label in pairs)
    return numbers, names


_Told = tuple[bool, int]
"""Is it a number, and its index among the numbers or the names."""


def _passages(page: Page) -> list[list[_Told]]:
    """Cut the message at its signs, and give the names and numbers of each stretch in order."""
    starts = {label.first: index for index, label in enumerate(page.labels)}
    passages: list[list[_Told]] = [[]]
    covered = -1
    for at, mark in enumerate(page.marks):
        if mark.kind == STOP:
            passages.append([])
        elif mark.kind == NUMBER and page.candidates[mark.quantity].aside is None:
            passages[-1].append((True, mark.quantity))
        elif mark.kind == PHRASE and at > covered and at in starts:
            passages[-1].append((False, starts[at]))
            covered = page.labels[starts[at]].last
    return [passage for passage in passages if len(passage) >= 2 * _FEWEST]


def _pairs(page: Page, passage: Sequence[_Told]) -> list[tuple[int, int]]:
    """Give (number, name) of each pair; []: they do not take turns, or a name is none of a measure."""
    number_first = passage[0][0]
    if len(passage) % 2 or any(
        is_number != ((at % 2 == 0) == number_first) for at, (is_number, _) in enumerate(passage)
    ):
        return []
    pairs = [
        (one[1], other[1]) if number_first else (other[1], one[1])
        for one, other in zip(passage[::2], passage[1::2], strict=True)
    ]
    gives = [rule.gives if (rule := page.labels[label].rule) else None for _, label in pairs]
    fits = all(_fits(page, number, measure) for (number, _), measure in zip(pairs, gives, strict=True))
    return pairs if fits and len(set(gives)) == len(gives) and set(gives) <= _MEASURES else []


def _fits(page: Page, number: int, measure: str | None) -> bool:
    dimension = page.quantities.found[number].dimension
    return dimension is None or (dimension == Dimension.WEIGHT) == (measure == "weight")
