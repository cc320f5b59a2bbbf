"""Gives a bare number the measure that was asked, with the mistake that the words beside it give away."""

from replies.reading.context import Asked
from replies.reading.facts import Manner
from replies.reading.marks import NUMBER, PHRASE
from replies.reading.page import Candidate, Page, Slot
from replies.reading.said_by import may_be
from replies.reading.small_words import Small
from sizing.reasons import Why

_HINT_WITHIN = 14


def give(page: Page, candidate: Candidate, asked: Asked) -> None:
    """Give a number what was asked: its measure, its dog, and the mistake that words on its line give away.

    A number whose unit cannot be of that measure is left as it is: "1. a foot" answers no question for a weight.
    """
    if not may_be(page, candidate, str(asked.measure)):
        return
    candidate.measure, candidate.bare = str(asked.measure), True
    candidate.manner = Manner.ANSWER
    candidate.hints |= _hints_beside(page, candidate)
    if not candidate.dogs:
        if not page.dogs:
            page.dogs.append(Slot())
        candidate.dogs = (min(asked.dog, len(page.dogs) - 1),)


GROUPS = {"length": "LENGTH", "height": "HEIGHT", "width": "WIDTH", "throat_height": "THROAT"}


def _hints_beside(page: Page, candidate: Candidate) -> frozenset[Why]:
    """Give the mistake that words on the line of an answer give away: "36, but that's up to the ears"."""
    group = GROUPS.get(candidate.measure or "")
    place = page.distance.place(candidate.number)
    if group is None or _tells_of_before(page, candidate, place):
        return frozenset()
    for label in page.labels:
        if place < label.first <= place + _HINT_WITHIN and not _next_number(page, place, label.first):
            rule = page.words.composer.compose(label.atoms | {group})
            if rule is not None and rule.gives == candidate.measure and rule.hint is not None:
                return frozenset((Why(rule.hint),))
    return frozenset()


def _tells_of_before(page: Page, candidate: Candidate, place: int) -> bool:
    """Do the words behind a doubted value tell how the earlier one came about: "8, I had gone to her chin"."""
    doubted = any(one.why is not None and one.measure == candidate.measure for one in page.context.asked)
    return doubted and any(
        mark.kind == PHRASE and (mark.among(Small.TELLS_OF_BEFORE) or mark.has("correction"))
        for mark in page.marks[place + 1 : place + _HINT_WITHIN]
    )


def _next_number(page: Page, start: int, end: int) -> bool:
    return any(mark.kind == NUMBER or mark.text in ("\n", "\n\n") for mark in page.marks[start + 1 : end])
