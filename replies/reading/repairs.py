"""Finds numbers that only mend the one before them: in "long 13, I mean 14, tall 12" no name is 14's own."""

from replies.reading.marks import NUMBER, Mark
from replies.reading.page import Page
from replies.reading.small_words import Small

_PAUSES = (",", ".", "...", "-")
_MOST_BETWEEN = 5
"""So many marks may stand between a number and the one that mends it."""


def mending_numbers(page: Page) -> set[int]:
    """Give the numbers right behind "I mean", "no wait" and the like, which stand for the number before those words.

    They need no name of their own, and would take that of the next number. One with a name behind it keeps it: "12
    across, no wait, 12 long".
    """
    found: set[int] = set()
    before: int | None = None
    for at, mark in enumerate(page.marks):
        if mark.kind != NUMBER or page.candidates[mark.quantity].aside is not None:
            continue
        if before is not None and _only_mends(page, before, at):
            found.add(mark.quantity)
        before = at
    return found


def _only_mends(page: Page, before: int, at: int) -> bool:
    between = page.marks[before + 1 : at]
    named = next((place for place, mark in enumerate(between) if not mark.has("atom", "connector")), len(between))
    between = between[named:]
    if not 0 < len(between) <= _MOST_BETWEEN or not any(_mends(mark) for mark in between):
        return False
    one, other = (page.quantities.found[page.marks[place].quantity] for place in (before, at))
    if one.dimension not in (None, other.dimension) and other.dimension is not None:
        return False
    small = (_mends(mark) or mark.text in _PAUSES or mark.among(Small.BETWEEN_VALUES) for mark in between)
    return not _has_own_name(page, before, at) and all(small)


def _has_own_name(page: Page, before: int, at: int) -> bool:
    """Is a name right behind the mending number its own, and not of the next: "back 13 I mean 14 shoulder 11"."""
    following = page.marks[at + 1 : at + 3]
    if following and following[0].among(Small.MEANT_FOR):
        following = page.marks[at + 2 : at + 4]
    if not following or not following[0].has("atom", "letter", "connector", "filler"):
        return False
    named = before > 0 and page.marks[before - 1].has("atom")
    return not (named and len(following) == 2 and following[1].kind == NUMBER)


def _mends(mark: Mark) -> bool:
    return mark.has("correction") and not mark.among(Small.CALLS_NOTHING_WRONG)
