"""Gives each of several values of one measure the words that belong to it."""

from collections.abc import Collection, Sequence

from replies.reading.cues import Cue
from replies.reading.marks import NUMBER, SENTENCE_ENDS, STOP, Mark
from replies.reading.page import Page
from replies.reading.small_words import Small

FAR = 16
"""So many marks before and behind a number may tell how it was taken."""
Zone = tuple[int, int]
"""The marks [first, end) that belong to a value."""


def is_within(hit: Cue, zone: Zone) -> bool:
    """Does a phrase stand in a stretch of marks."""
    return zone[0] <= hit.first and hit.last < zone[1]


def zones_of(page: Page, numbers: Sequence[int], hows: Sequence[Cue]) -> list[Zone]:
    """Give the words that belong to each of several values of one measure.

    numbers   indices of their quantities, in order
    hows      the phrases that say how or where a value was taken
    """
    opens = _stand_before(page, numbers[0], page.tries)
    starts = {hit.first if opens else hit.last + 1 for hit in page.tries}
    within = {at for hit in page.tries for at in range(hit.first, hit.last + 1)}
    lead = opens or _stand_before(page, numbers[0], [hit for hit in hows if not hit.names & {"not", "open"}])
    places = [page.distance.place(number) for number in numbers]
    zones: list[Zone] = []
    for at, place in enumerate(places):
        before = _number_from(page, place, -1, within)
        behind = _number_from(page, place, 1, within)
        start = page.index.sentence(place)[0]
        if before is not None:
            start = _parting(page.marks, before, place, starts, lead=lead)
        end = len(page.marks) if behind is None else _parting(page.marks, place, behind, starts, lead=lead)
        if behind is None or at + 1 == len(places) or behind != places[at + 1]:
            end = min(end, page.index.sentence(place)[1])
        zones.append((max(start, place - FAR), min(end, place + FAR)))
    return zones


def _stand_before(page: Page, number: int, hits: Sequence[Cue]) -> bool:
    """Do such words stand before the first value, and so before each: "first go 13", not "13 on the first go"."""
    place = page.distance.place(number)
    return any(page.index.sentence(place)[0] <= hit.first and hit.last < place for hit in hits)


def _number_from(page: Page, place: int, step: int, within: set[int]) -> int | None:
    """Give the next number on one side, but for those that only say which try a value is."""
    at = place + step
    while 0 <= at < len(page.marks) and abs(at - place) <= 2 * FAR:
        if page.marks[at].kind == NUMBER and at not in within:
            return at
        at += step
    return None


def _parting(marks: Sequence[Mark], one: int, other: int, starts: Collection[int], *, lead: bool) -> int:
    """Give the mark at which the words of one number end and those of the next begin."""
    opened = [at for at in range(one + 1, other) if at in starts]
    if opened:
        ends = [
            at + 1 for at in range(one + 1, opened[-1]) if marks[at].text in SENTENCE_ENDS and marks[at].kind == STOP
        ]
        return ends[-1] if ends else opened[-1]
    for at in range(other - 1, one, -1):
        if marks[at].kind == STOP or marks[at].among(Small.PARTS_VALUES):
            return at + 1
    return one + 1 if lead else other
