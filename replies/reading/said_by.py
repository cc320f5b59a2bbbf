"""Gives numbers the measure of the one before them where another person, a tape or another day gives the value."""

from collections.abc import Sequence
from itertools import pairwise, takewhile

from replies.reading.marks import PHRASE, STOP, Mark
from replies.reading.page import Candidate, Page
from replies.reading.small_words import Small
from replies.reading.unit_words import Dimension

FAR = 14
"""So many marks may stand between a number and the one with which it is contrasted."""


def may_be(page: Page, candidate: Candidate, measure: str | None) -> bool:
    """Can the number be of this measure by its unit."""
    dimension = page.quantities.found[candidate.number].dimension
    return measure not in (None, "none") and (
        dimension is None or (dimension == Dimension.WEIGHT) == (measure == "weight")
    )


def is_near(page: Page, earlier: Candidate, later: Candidate, far: int = FAR) -> bool:
    """Do two numbers stand on one line, not far apart."""
    start, end = page.distance.place(earlier.number), page.distance.place(later.number)
    return end - start <= far and not any(
        mark.kind == STOP and mark.text in ("\n", "\n\n") for mark in page.marks[start:end]
    )


_FAR_APART = 1.45
"""Two people's values of one measure lie within this ratio; what lies farther apart is of something else."""


def told_by_two(page: Page) -> None:
    """Read "I get 13 for the back, my husband insists on 15", "the vet says 14, ours says 17.5"."""
    earlier: Candidate | None = None
    for candidate in page.candidates:
        if candidate.aside is not None:
            continue
        if (
            earlier is not None
            and candidate.measure is None
            and may_be(page, candidate, earlier.measure)
            and is_near(page, earlier, candidate)
            and lies_within(page, earlier, candidate, _FAR_APART)
            and (_speaker_beside(page, earlier, candidate) or (is_said(page, earlier) and is_said(page, candidate)))
        ):
            candidate.measure, candidate.labels, candidate.dogs = earlier.measure, earlier.labels, earlier.dogs
        elif earlier is not None and _is_told_of_the_next(page, earlier, candidate):
            earlier.measure, earlier.labels, earlier.dogs = candidate.measure, candidate.labels, candidate.dogs
        earlier = candidate


def _is_told_of_the_next(page: Page, earlier: Candidate, later: Candidate) -> bool:
    """Read "I get 7 3/4 and my son got 8 for the throat": the name stands behind the second alone."""
    if earlier.measure is not None or later.measure is None or later.measure == "weight":
        return False
    start, place = page.distance.place(earlier.number), page.distance.place(later.number)
    between = page.marks[start + 1 : place]
    joined = not any(mark.kind == STOP and mark.text not in (",", "-") for mark in between)
    spoken = any(_is_speaker(mark) for mark in between)
    return (
        joined and spoken and may_be(page, earlier, later.measure) and lies_within(page, earlier, later, _CLOSE_TAKES)
    )


_CLOSE_TAKES = 1.35


_MOST_SAID = 8
"""Nobody settles more; looking at each number for each of them takes its time in a text of a megabyte."""


def settled_by(page: Page) -> None:
    """Read "I say 11.5, the tape says 11.75, so go with the tape": the others give way to the one that is trusted."""
    trusts = page.words.small.lists[Small.TRUSTS]
    if trusts.isdisjoint(page.single.words):
        return
    said = [
        at for at, mark in enumerate(page.marks) if mark.kind == PHRASE and not trusts.isdisjoint(mark.text.split())
    ]
    for at in said[:_MOST_SAID]:
        speaker = next((one.text for one in page.marks[at + 1 : at + 4] if _is_speaker(one)), None)
        trusted = [one for one in page.candidates if speaker is not None and _is_said_by(page, one, speaker)]
        if len(trusted) != 1 or trusted[0].measure is None:
            continue
        for other in page.candidates[: trusted[0].number]:
            if other.measure == trusted[0].measure and other.dogs == trusted[0].dogs:
                other.older, other.note = True, "another value was given for it"


def _is_said_by(page: Page, candidate: Candidate, speaker: str) -> bool:
    place = page.distance.place(candidate.number)
    before = page.marks[max(0, place - 3) : place]
    return candidate.aside is None and any(mark.text == speaker for mark in before)


def renewed(page: Page) -> None:
    """Read "12 lb, that was Tuesday, 12.2 today": a bare number of now takes the place of the one before it."""
    if not page.index.holds_among(Small.NOW):
        return
    earlier: Candidate | None = None
    for candidate in page.candidates:
        if candidate.aside is not None:
            continue
        place = page.distance.place(candidate.number)
        beside = (*_words_before(page, place), *page.marks[place : place + 2])
        if (
            earlier is not None
            and candidate.measure is None
            and any(mark.kind == PHRASE and mark.among(Small.NOW) for mark in beside)
            and may_be(page, candidate, earlier.measure)
            and is_near(page, earlier, candidate)
            and lies_within(page, earlier, candidate, _FAR_APART)
        ):
            candidate.measure, candidate.labels, candidate.dogs = earlier.measure, earlier.labels, earlier.dogs
            earlier.older, earlier.note = True, "an earlier value"
        earlier = candidate


def told_exactly(page: Page) -> None:
    """Read "6 kg and something, 6.2": right behind a rough whole number stands the exact one."""
    for earlier, later in pairwise(page.candidates):
        rough, exact = page.quantities.found[earlier.number], page.quantities.found[later.number]
        if not rough.hedged or earlier.measure is None or earlier.aside or later.measure is not None or later.aside:
            continue
        between = page.marks[page.distance.place(earlier.number) + 1 : page.distance.place(later.number)]
        more = not rough.low % 1 and bool(exact.low % 1) and lies_within(page, earlier, later, _ROUGH)
        if more and _is_restated(between) and may_be(page, later, earlier.measure):
            later.measure, later.labels, later.dogs = earlier.measure, earlier.labels, earlier.dogs
            earlier.older, earlier.note = True, "the exact value was given for it"


def _is_restated(between: Sequence[Mark]) -> bool:
    """Does a comma or a bracket part two numbers, with nothing before it but "and something"."""
    if not between or len(between) > _WORDS_OF_DOUBT or between[-1].kind != STOP or between[-1].text not in ",:(-=":
        return False
    return all(mark.kind == PHRASE and not mark.has("atom", "order", "correction") for mark in between[:-1])


_WORDS_OF_DOUBT = 5
_ROUGH = 1.2
"""A rough value and the exact one lie within this ratio."""


def _words_before(page: Page, place: int) -> list[Mark]:
    """Give the few words that lead to a mark: "now he is"."""
    before = takewhile(lambda mark: mark.kind == PHRASE, reversed(page.marks[max(0, place - _NEAR_NOW) : place]))
    return list(before)


_NEAR_NOW = 3


def is_said(page: Page, candidate: Candidate) -> bool:
    """Does a word such as "says" or "reads" stand right before a number."""
    place = page.distance.place(candidate.number) - 1
    while place >= 0 and page.marks[place].kind == PHRASE and page.marks[place].among(Small.HEDGES_VALUE):
        place -= 1
    if place < 0:
        return False
    mark = page.marks[place]
    return mark.kind == PHRASE and page.words.small.ends_with_one_of(mark.text, Small.SAYS)


def lies_within(page: Page, earlier: Candidate, later: Candidate, ratio: float) -> bool:
    """Is neither of two numbers more than `ratio` times the other."""
    one, other = page.quantities.found[earlier.number], page.quantities.found[later.number]
    return one.low > 0 and 1 / ratio <= other.low / one.low <= ratio


def _speaker_beside(page: Page, earlier: Candidate, later: Candidate) -> bool:
    """Is a person named between two numbers, or right behind the second: "12.5 according to my sister"."""
    start, place = page.distance.place(earlier.number), page.distance.place(later.number)
    if any(_is_speaker(mark) for mark in page.marks[start + 1 : place]):
        return True
    for mark in page.marks[place + 1 : place + 6]:
        if mark.kind != PHRASE:
            return False
        if _is_speaker(mark):
            return True
    return False


def _is_speaker(mark: Mark) -> bool:
    return mark.kind == PHRASE and (mark.has("person", "owner") or mark.among(Small.SPEAKERS))
