"""Tells numbers that are a person's, or the bound of a rule, from those of a dog."""

from collections.abc import Sequence

from replies.reading.facts import SetAside
from replies.reading.marks import NUMBER, PHRASE, STOP, Mark
from replies.reading.page import Candidate, Page
from replies.reading.small_words import Small
from replies.reading.unit_words import Dimension

_PERSONS = "a person's"
_FARTHEST = 3
"""So many marks may stand between two numbers of one person: "6'1 and about 190 lb"."""


def is_bound(page: Page, candidate: Candidate, place: int) -> bool:
    """Is it the bound of a rule: "weight < 999", "up to <= 20 lb"."""
    before = [mark.text for mark in page.marks[max(0, place - 2) : place]]
    if before[-1:] != ["<"] and before not in (["<", "="], [">", "="]):
        return False
    candidate.leave(SetAside.NOT_A_MEASURE, "a bound, not a measure")
    candidate.beside = "limit"
    return True


def is_persons(page: Page, candidate: Candidate, place: int) -> bool:
    """Is it the customer's own height or weight, or another person's."""
    if _said_of_person(page, candidate, place) or _goes_on(page, candidate, place):
        candidate.leave(SetAside.NOT_A_MEASURE, _PERSONS)
        return True
    return False


def speaks_of_persons(page: Page) -> bool:
    """Does the message speak of a person whose number one may be."""
    said = page.index.holds("person") or page.index.holds_among(Small.I_AM)
    return said or any(one.note == _PERSONS for one in page.candidates)


def _said_of_person(page: Page, candidate: Candidate, place: int) -> bool:
    quantity = page.quantities.found[candidate.number]
    at = place - 1
    steps = 0
    while at >= 0 and steps < 4 and page.marks[at].kind == PHRASE:
        mark = page.marks[at]
        if mark.among(Small.I_AM) or (mark.has("person") and not mark.among(Small.WHO_KNOW)):
            tall = quantity.dimension == Dimension.LENGTH or quantity.unit is None or mark.text != "im"
            return steps <= 2 and tall and _is_copula(page.marks[at + 1 : place])
        if not mark.has("filler", "link"):
            return False
        at -= 1
        steps += 1
    return False


def _goes_on(page: Page, candidate: Candidate, place: int) -> bool:
    """Does it go on after a number of a person, of the other dimension: "Im 6'1 and 190 lb", and is no dog's."""
    if not candidate.number:
        return False
    earlier = page.candidates[candidate.number - 1]
    one, other = page.quantities.found[earlier.number], page.quantities.found[candidate.number]
    start = page.distance.place(earlier.number) + 1
    if earlier.note != _PERSONS or place - start > _FARTHEST or other.dimension == one.dimension:
        return False
    between, behind = page.marks[start:place], page.marks[place + 1 : place + 2]
    if any(mark.has("pronoun", "dog", "breed") for mark in between):
        return False
    joined = all(mark.text in (",", "/", "&") if mark.kind == STOP else mark.has("list", "filler") for mark in between)
    joined = joined and not any(mark.has("pronoun", "dog") for mark in between)
    return joined and not any(mark.kind == NUMBER or mark.has("dog", "breed", "atom") for mark in behind)


def _is_copula(between: Sequence[Mark]) -> bool:
    return all(mark.among(Small.OVER_TO_PERSON) for mark in between)
