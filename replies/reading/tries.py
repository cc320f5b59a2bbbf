"""Sees that a number is one more try of what another measures: "first go 13, second go 16", "7 here and 9 there"."""

from collections.abc import Sequence

from replies.reading.cues import Cue
from replies.reading.facts import SetAside
from replies.reading.marks import NUMBER, PHRASE, STOP
from replies.reading.page import Candidate, Page
from replies.reading.said_by import lies_within, may_be
from replies.reading.several import speaks_of_several
from replies.reading.small_words import Small
from replies.reading.zones import is_within, zones_of

_APART = 1.6
"""Two tries lie within this ratio; what lies farther apart is of something else."""
_CLOSE = 1.15
"""The same where only the second is said to be taken well: "12 lb, 11.75 to be exact"."""
FAR_APART = 28
"""So many marks may stand between two tries."""
_ALONE, _POINTED = "bare", "pointed"


def see_tries(page: Page) -> None:
    """Note which words say which try a value is, and set the numbers in them aside: "take two: 13"."""
    found = page.single.find(page.words.rivals.takes)
    page.tries = [hit for hit in found if _POINTED not in hit.names]
    if not found:
        return
    repeated = is_repeated(page) or any(not hit.names & {_ALONE, _POINTED} for hit in found)
    page.in_tries = frozenset(
        at for hit in found if repeated or _ALONE not in hit.names for at in range(hit.first, hit.last + 1)
    )
    for hit in page.tries:
        last = page.marks[hit.last]
        if hit.first < hit.last and last.kind == NUMBER:
            page.candidates[last.quantity].leave(SetAside.NOT_A_MEASURE, "it says which try a value is")


def names_in_tries(page: Page) -> set[int]:
    """Give the names of measures that only say which try a value is: "round one"."""
    whole = [hit for hit in page.tries if _ALONE not in hit.names]
    return {
        index
        for index, label in enumerate(page.labels)
        if any(hit.first <= label.first and label.last <= hit.last for hit in whole)
    }


def join_tries(page: Page) -> None:
    """Give a number without a name the measure of the one beside it of which it is another try."""
    take_averages(page)
    _name_headed(page)
    _name_announced(page)
    hows: list[Cue] | None = None
    for candidates in (page.candidates, page.candidates[::-1]):
        named: Candidate | None = None
        for candidate in candidates:
            if candidate.aside is SetAside.NOT_A_MEASURE and candidate.beside is None:
                continue
            if candidate.measure is None and candidate.aside is None and named is not None:
                if hows is None:
                    hows = page.single.find(page.words.rivals.hows)
                if _may_be_tries(page, named, candidate) and _are_tries(page, named, candidate, hows):
                    candidate.measure, candidate.labels, candidate.dogs = named.measure, named.labels, named.dogs
            named = candidate if candidate.aside is None and candidate.measure is not None else None


def take_averages(page: Page) -> None:
    """Take the average of several tries for the value: "I measured three times, the average is 13.25"."""
    averages = [one for one in page.candidates if one.beside == "target" and one.aside is SetAside.NOT_A_MEASURE]
    if not averages:
        return
    hows = page.single.find(page.words.rivals.hows)
    ends = {hit.last for hit in hows if "average" in hit.names}
    for one in averages:
        if page.distance.place(one.number) - 1 not in ends:
            continue
        rivals = [other for other in page.candidates[: one.number] if _is_averaged(page, other, one)]
        measure = one.measure or (rivals[-1].measure if rivals else None)
        if measure is None or not (len(rivals) > 1 or is_repeated(page)):
            continue
        one.aside, one.beside, one.measure = None, None, measure
        one.dogs = rivals[-1].dogs if rivals else one.dogs
        for rival in rivals:
            rival.leave(SetAside.WITHDRAWN, "the customer gives the average")


def _is_averaged(page: Page, rival: Candidate, average: Candidate) -> bool:
    alike = rival.measure is not None and average.measure in (None, rival.measure)
    return rival.aside is None and alike and lies_within(page, rival, average, _APART)


def is_repeated(page: Page) -> bool:
    """Is it said that something was measured several times."""
    return any(mark.kind == PHRASE and mark.text in page.words.rivals.repeats for mark in page.marks) or any(
        "times" in page.tidied.folded[one.start : one.end] for one in page.quantities.found
    )


def _name_headed(page: Page) -> None:
    """Read "Width:", "1st: 5", "2nd: 5.5": a name without a number stands before a row of tries."""
    rows = [one for one in page.candidates if one.aside is None and one.measure is None and _is_try(page, one)]
    if len(rows) < 2 or len(page.context.asked) > 1 or len(page.quoted) > 1:
        return
    first = min(hit.first for hit in page.tries)
    used = {index for one in page.candidates if one.aside is None for index in one.labels}
    heads = [index for index, label in enumerate(page.labels) if first - _HEAD <= label.first and label.last < first]
    if not heads or heads[-1] in used:
        return
    rule = page.labels[heads[-1]].rule
    for one in rows:
        if rule is not None and may_be(page, one, rule.gives) and lies_within(page, rows[0], one, _APART):
            one.measure, one.labels, one.dogs = rule.gives, (heads[-1],), rows[0].dogs


def _name_announced(page: Page) -> None:
    """Read "two heights: 12 and 11": as many numbers as were announced are all of that measure."""
    for label in page.labels:
        before, last = page.marks[label.first - 1] if label.first else None, page.marks[label.last]
        if before is None or before.kind != NUMBER or label.rule is None or not last.text.endswith("s"):
            continue
        count = page.quantities.found[before.quantity]
        following = page.candidates[before.quantity + 1 : before.quantity + 1 + int(min(count.low, _MOST_ANNOUNCED))]
        first = following[0] if following else None
        if first is None or count.unit is not None or len(following) != count.low:
            continue
        if first.measure != label.rule.gives or page.distance.place(following[-1].number) > label.last + FAR_APART:
            continue
        for one in following[1:]:
            if one.aside is None and one.measure is None and lies_within(page, first, one, _APART):
                one.measure, one.labels, one.dogs = first.measure, first.labels, first.dogs


_MOST_ANNOUNCED = 4
_HEAD = 8
"""So many marks may stand between the name of a measure and its first try."""


def _is_try(page: Page, one: Candidate) -> bool:
    """Do words that say which try it is open what is said of a number."""
    place = page.distance.place(one.number)
    return any(place - _HEAD <= hit.first and hit.last < place for hit in page.tries) and not any(
        page.marks[at].kind == NUMBER and page.candidates[page.marks[at].quantity].aside is None
        for at in range(max((hit.last for hit in page.tries if hit.last < place), default=place), place)
    )


def _may_be_tries(page: Page, named: Candidate, other: Candidate) -> bool:
    one, two = page.quantities.found[named.number], page.quantities.found[other.number]
    alike = one.unit is None or two.unit is None or one.dimension == two.dimension
    return (
        alike
        and named.dogs == other.dogs
        and may_be(page, other, named.measure)
        and lies_within(page, named, other, _APART)
        and _in_one_paragraph(page, named, other)
    )


def _in_one_paragraph(page: Page, named: Candidate, other: Candidate) -> bool:
    start, end = sorted((page.distance.place(named.number), page.distance.place(other.number)))
    return end - start <= FAR_APART and not any(mark.text == "\n\n" for mark in page.marks[start:end])


def _are_tries(page: Page, named: Candidate, other: Candidate, hows: Sequence[Cue]) -> bool:
    """Do the words of both say that they are tries of one thing, or how, when or where each was taken."""
    first, second = sorted((named, other), key=lambda one: one.number)
    one, two = zones_of(page, (first.number, second.number), hows)
    tries = [[hit for hit in page.tries if is_within(hit, zone)] for zone in (one, two)]
    if _counts_tries(page, *tries) or _is_named_once(page, first, second, named):
        return True
    if len(page.context.asked) > 1 or len(page.quoted) > 1:
        return False
    nothing = {"not", "open", "unsettled"} | (set() if named.measure == "width" else {"place"})
    said = [{name for hit in hows if is_within(hit, zone) for name in hit.names} - nothing for zone in (one, two)]
    if (said[0] and said[1]) or _is_left_open(page, second, hows):
        return True
    return second is other and "well" in said[1] and lies_within(page, first, second, _CLOSE)


def _is_left_open(page: Page, second: Candidate, hows: Sequence[Cue]) -> bool:
    """Does the customer say behind both that she does not know which it is: "no idea which is right"."""
    place = page.distance.place(second.number)
    return any("unsettled" in hit.names and 0 < hit.first - place <= FAR_APART // 2 for hit in hows)


def _is_named_once(page: Page, first: Candidate, second: Candidate, named: Candidate) -> bool:
    """Read "width 5 then 6.5.": one name stands before both, only "and" between, and the second ends the clause."""
    start, end = page.distance.place(first.number), page.distance.place(second.number)
    between, following = page.marks[start + 1 : end], page.marks[end + 1] if end + 1 < len(page.marks) else None
    return (
        named is first
        and bool(named.labels)
        and all(page.labels[index].last < start for index in named.labels)
        and any(mark.among(Small.PARTS_VALUES) for mark in between)
        and all(mark.among(Small.PARTS_VALUES) or mark.text == "," for mark in between)
        and (following is None or following.kind == STOP)
        and len(page.context.asked) < 2
        and not speaks_of_several(page)
    )


def _counts_tries(page: Page, first: Sequence[Cue], second: Sequence[Cue]) -> bool:
    """Say the words which tries the values are: of the second outright, or of both by "first" and "second" alone."""
    whole = [hit for hit in second if _ALONE not in hit.names and hit.names & {"second", "third", "again"}]
    if whole or (any(_ALONE not in hit.names for hit in first) and second):
        return True
    return bool(first and second) and len(page.context.asked) < 2 and len(page.quoted) < 2
