"""Tells where the names of dogs stand behind what is told of them: "14 lb Otto, 11 lb Pip", "9.5 Ash 9.75 Elm"."""

from collections.abc import Mapping, Sequence

from replies.reading.marks import STOP
from replies.reading.page import Candidate, Named, Page


def names_stand_behind(page: Page, names: Sequence[Named]) -> bool:
    """Do names stand behind what is told of them: numbers before the first name, none behind the last."""
    numbers = [
        page.distance.place(one.number) for one in page.candidates if one.aside is None and not _counts(page, one)
    ]
    if not numbers:
        return False
    first, last = names[0].first, names[-1].first
    boths = page.index.places("both")
    if boths and boths[0] < first:
        return False
    return numbers[0] < first and numbers[-1] < last


def _counts(page: Page, candidate: Candidate) -> bool:
    """May a number in letters count the dogs: "our two"."""
    quantity = page.quantities.found[candidate.number]
    return candidate.measure is None and quantity.spelled and quantity.unit is None


def numbers_before_names(page: Page, names: Mapping[int, Named]) -> set[int]:
    """Give the places of numbers in rows such as "9.5 Ash 9.75 Elm": each before its name, and none behind the last."""
    found: set[int] = set()
    row: list[int] = []
    for place in (page.distance.place(candidate.number) for candidate in page.candidates if candidate.aside is None):
        named = names.get(place + 1)
        goes_on = bool(row) and names[row[-1] + 1].last == place - 1
        if named is None or not goes_on:
            row = []
        if named is None or (not row and place - 1 in names):
            continue
        row.append(place)
        behind = page.marks[named.last + 1] if named.last + 1 < len(page.marks) else None
        if len(row) > 1 and (behind is None or behind.kind == STOP):
            found.update(row)
    return found
