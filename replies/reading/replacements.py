"""Gives a bare number the measure whose known value it replaces: "sorry, 6.25", "the 12 should be 13"."""

import math
from itertools import pairwise

from replies.reading.context import KnownDog
from replies.reading.facts import Manner, SetAside
from replies.reading.page import Candidate, Page
from replies.reading.small_words import Small
from replies.reading.told_before import measures_of, unit_before
from sizing.measures import Measure
from sizing.units import is_weight, to_inches, to_pounds

_NEAR, _CLEARLY = math.log(1.35), math.log(1.25)
"""A bare correction lies within the first of the value it corrects, and closer than to any other by the second."""


def correct_known(page: Page) -> None:
    """Give a bare number that corrects the measure whose known value it replaces: "sorry, 6.25", "6.25 not 5.5"."""
    bare = [one for one in page.candidates if one.aside in (None, SetAside.UNCLEAR) and one.measure is None]
    dogs = {dog for one in bare for dog in one.dogs}
    if len(bare) != 1 or len(dogs) != 1:
        return
    candidate, dog = bare[0], dogs.pop()
    index = page.dogs[dog].known
    if index is None:
        return
    known = page.context.dogs[index]
    measure = _negated_measure(page, known) or (
        _closest(page, candidate, known) if candidate.manner is Manner.CORRECTION else None
    )
    if measure is not None:
        candidate.measure, candidate.bare, candidate.aside = str(measure), True, None
        candidate.manner = Manner.CORRECTION


def exchange_known(page: Page) -> None:
    """Read "the 12 should be 13": a known value is named, and what it should have been."""
    for one, other in pairwise(page.candidates):
        start, end = page.distance.place(one.number), page.distance.place(other.number)
        between = page.marks[start + 1 : end]
        if (
            one.measure
            or other.measure
            or not any(mark.among(Small.SHOULD_BE) for mark in between)
            or end - start > _CLOSE_BY
        ):
            continue
        low = page.quantities.found[one.number].low
        same = [
            (slot, measure)
            for slot, dog in enumerate(page.dogs)
            if dog.known is not None
            for measure in measures_of(page, page.context.dogs[dog.known], low)
        ]
        if len(same) == 1:
            slot, measure = same[0]
            one.leave(SetAside.WITHDRAWN, "the customer corrects it")
            other.measure, other.bare, other.aside, other.older = str(measure), True, None, False
            other.dogs, other.manner = (slot,), Manner.CORRECTION


_CLOSE_BY = 5


def renew_known(page: Page) -> None:
    """Read "the other two are 4 and 6.75 now": each takes the place of the one value known that it is close to."""
    bare = [one for one in page.candidates if one.aside in (None, SetAside.UNCLEAR) and one.measure is None]
    dogs = {one.dogs for one in bare}
    if len(bare) < 2 or len(dogs) != 1 or page.context.asked or any(one.manner is Manner.PLAIN for one in bare):
        return
    index = page.dogs[bare[0].dogs[0]].known if len(bare[0].dogs) == 1 else None
    if index is None:
        return
    told = {one.measure for one in page.candidates if one.aside is None}
    found = [_closest(page, one, page.context.dogs[index]) for one in bare]
    if None in found or len(set(found)) < len(found) or told.intersection(map(str, found)):
        return
    for candidate, measure in zip(bare, found, strict=True):
        candidate.measure, candidate.bare, candidate.aside = str(measure), True, None


def _negated_measure(page: Page, known: KnownDog) -> Measure | None:
    """Give the measure whose known value the message denies."""
    for one in page.candidates:
        if one.aside is SetAside.WITHDRAWN:
            low = page.quantities.found[one.number].low
            same = measures_of(page, known, low)
            if len(same) == 1:
                return same[0]
    return None


def _closest(page: Page, candidate: Candidate, known: KnownDog) -> Measure | None:
    quantity = page.quantities.found[candidate.number]
    value = (quantity.low + quantity.high) / 2
    away = []
    for measure, amount in known.measures.items():
        if quantity.dimension is not None and (quantity.dimension == "weight") is not is_weight(measure):
            continue
        unit = quantity.unit or unit_before(page, known, weighs=is_weight(measure))
        inside = (to_pounds if is_weight(measure) else to_inches)(value, unit)
        away.append((abs(math.log(inside / amount.middle)), measure))
    away.sort()
    if not away or away[0][0] > _NEAR or (len(away) > 1 and away[1][0] - away[0][0] < _CLEARLY):
        return None
    return away[0][1]
