"""Settles words that name one of two measures, by what else is told of the dog: "chest", "largo", "large".

A chest is around where the number is about the dog's height or more, and across where it is about half of that; "largo"
is long in Spanish and wide in Italian and Portuguese. What stays open is set aside.
"""

from replies.reading.facts import SetAside
from replies.reading.page import Candidate, Page
from sizing.units import to_inches

_EITHER = {"chest": ("girth", "width"), "largo": ("length", "width"), "large": ("width", "length")}
_LARGE_FROM, _SMALL_TO = 0.75, 0.62
"""Shares of the dog's length or height: girths and lengths lie above, widths below (common practice, no source)."""
_GIRTH_FROM_IN, _WIDTH_TO_IN = 14.0, 7.0
"""The same with no other measure to compare, inches: few dogs are that wide, few have a chest that thin."""


def settle_ambiguous(page: Page) -> None:
    """Give candidates of an ambiguous name the one measure that it can be."""
    for candidate in page.candidates:
        if candidate.measure not in _EITHER:
            continue
        measure = _settled(page, candidate, *_EITHER[candidate.measure])
        if measure is None:
            candidate.leave(SetAside.UNCLEAR, "its name fits two measures")
        else:
            candidate.measure = measure


def _settled(page: Page, candidate: Candidate, large: str, small: str) -> str | None:
    large, small = (small, large) if candidate.measure == "large" else (large, small)
    others = [
        other
        for other in page.candidates
        if other.aside is None and other is not candidate and set(other.dogs) & set(candidate.dogs)
    ]
    told = {other.measure for other in others}
    asked = {str(one.measure) for one in page.context.asked}
    if small == "width" and large == "length" and told & {"length", "width"} and not {"length", "width"} <= told:
        return "width" if "length" in told else "length"
    share = _share(page, candidate, others)
    if share is not None:
        return large if share >= _LARGE_FROM else small if share <= _SMALL_TO else None
    if "width" in asked and "girth" not in asked and large == "girth":
        return "width"
    inches = _inches(page, candidate)
    if candidate.measure == "large":
        return small
    return large if inches >= _GIRTH_FROM_IN else small if inches <= _WIDTH_TO_IN else None


def _share(page: Page, candidate: Candidate, others: list[Candidate]) -> float | None:
    """Give the number as a share of the dog's height or length, all in inches, or all without a unit."""
    for measure in ("height", "length"):
        for other in others:
            if other.measure == measure:
                return _inches(page, candidate) / _inches(page, other)
    for dog in candidate.dogs:
        known = page.dogs[dog].known
        if known is not None:
            for key, amount in page.context.dogs[known].measures.items():
                if key in ("height", "length"):
                    return _inches(page, candidate) / amount.middle
    return None


def _inches(page: Page, candidate: Candidate) -> float:
    """Give the number in inches; without a unit of its own, in the one that the message uses for lengths."""
    quantity = page.quantities.found[candidate.number]
    unit = quantity.unit or page.length_unit or _used(page) or page.context.length_unit
    return to_inches((quantity.low + quantity.high) / 2, unit)


def _used(page: Page) -> str | None:
    units = {one.unit for one in page.quantities.found if one.unit is not None and one.dimension == "length"}
    return units.pop() if len(units) == 1 else None
