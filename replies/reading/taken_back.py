"""Sees that the customer goes back to a value that she had replaced, or takes one back without giving another."""

from collections.abc import Iterator

from replies.reading.cues import Cue
from replies.reading.facts import Manner, SetAside
from replies.reading.marks import PHRASE, STOP
from replies.reading.page import Candidate, Page
from replies.reading.told_before import unit_before
from sizing.measures import Amount, Measure
from sizing.units import is_weight, to_inches, to_pounds

_LEAST = 0.01
"""A value told again is within this share of the one told before."""
_MEASURES = {str(measure): measure for measure in Measure}


def see_taken_back(page: Page) -> None:
    """Take a value told before for right again, and withdraw one that is taken back."""
    if not page.context.dogs:
        return
    hits = page.single.find(page.words.rivals.before)
    _restore(page, [hit for hit in hits if "restores" in hit.names])
    _withdraw(page, [hit for hit in hits if "takes_back" in hit.names])


def _restore(page: Page, hits: list[Cue]) -> None:
    """Read "no, 13 was right" behind another value: the one told first counts again."""
    said = hits or any(mark.kind == PHRASE and mark.has("no") for mark in page.marks[:2])
    bare = [one for one in page.candidates if one.aside in (None, SetAside.UNCLEAR) and len(one.dogs) < 2]
    if not said or len(bare) != 1:
        return
    found = [
        (slot, measure)
        for slot, dog in enumerate(page.dogs)
        if dog.known is not None and (not bare[0].dogs or slot in bare[0].dogs)
        for measure, amounts in page.context.dogs[dog.known].before.items()
        if bare[0].measure in (None, str(measure))
        and any(_is_same(page, bare[0], measure, slot, one) for one in amounts)
    ]
    if len(set(found)) != 1:
        return
    candidate, (slot, measure) = bare[0], found[0]
    candidate.measure, candidate.dogs, candidate.aside = str(measure), (slot,), None
    candidate.bare, candidate.manner, candidate.older = True, Manner.CORRECTION, False


def _is_same(page: Page, candidate: Candidate, measure: Measure, slot: int, amount: Amount) -> bool:
    """Is the number this value, in its own unit or in the one in which the customer tells such."""
    quantity, known = page.quantities.found[candidate.number], page.context.dogs[page.dogs[slot].known or 0]
    weighs = is_weight(measure)
    if quantity.dimension is not None and (quantity.dimension == "weight") is not weighs:
        return False
    unit = quantity.unit or unit_before(page, known, weighs=weighs)
    inside = (to_pounds if weighs else to_inches)(quantity.low, unit)
    return abs(inside - amount.middle) <= _LEAST * amount.middle


def _withdraw(page: Page, hits: list[Cue]) -> None:
    """Read "ignore the width, I did it over his coat": nothing is known of it any more."""
    dogs = [slot for slot, dog in enumerate(page.dogs) if dog.known is not None]
    if len(dogs) != 1:
        return
    known = page.context.dogs[page.dogs[dogs[0]].known or 0].measures
    for hit in hits:
        for measure in _named_behind(page, hit):
            told = any(one.aside is None and one.measure == str(measure) for one in page.candidates)
            if measure in known and not told:
                page.withdrawn.add((dogs[0], measure))


def _named_behind(page: Page, hit: Cue) -> Iterator[Measure]:
    """Give the measures that are named right behind some words: "the width and the throat"."""
    end = hit.last + 1
    for label in page.labels:
        if label.first < end:
            continue
        between = page.marks[end : label.first]
        if len(between) > _BETWEEN or any(mark.kind == STOP and mark.text != "," for mark in between):
            return
        if label.rule is None or label.rule.gives not in _MEASURES:
            return
        yield _MEASURES[label.rule.gives]
        end = label.last + 1


_BETWEEN = 2
"""So many marks may stand between two measures that are taken back."""
