"""Sees what the customer takes back in the same breath, and what she says to correct or renew an earlier message."""

from collections.abc import Sequence
from itertools import pairwise

from replies.reading.facts import Manner, SetAside
from replies.reading.marks import NUMBER, PHRASE, SENTENCE_ENDS, STOP, Mark
from replies.reading.page import Candidate, Page
from replies.reading.quantity import Quantity
from replies.reading.small_words import Small
from replies.reading.unit_words import Dimension

_OPENING, _WHOLE_SENTENCE = 3, 20
"""So many marks at the beginning of a sentence may hold "hang on", and so many may lie between it and the number."""
_IT_IS = frozenset(("its", "is"))
_MOST_BETWEEN = 8
"""A corrected number stands at most so many marks after the one it corrects."""


def see_corrections(page: Page) -> None:
    """Withdraw numbers that are corrected by a later one, and note how the others are told."""
    _correct_in_passing(page)
    _renew_in_passing(page)
    _take_over(page)
    _withdraw_called_wrong(page)
    _correct_by_star(page)
    _mark_manner(page)


def _correct_in_passing(page: Page) -> None:
    said = page.index.holds("correction") or page.index.holds_among(Small.PASSES_INTO)
    if not said and "*" not in page.tidied.folded:
        return
    earlier: Candidate | None = None
    for candidate in page.candidates:
        if candidate.aside is not None:
            continue
        if earlier is not None and _corrects(page, earlier, candidate):
            if candidate.measure in (None, earlier.measure) or (candidate.bare and earlier.measure):
                candidate.measure = candidate.measure or earlier.measure
                candidate.labels = candidate.labels or earlier.labels
                candidate.hints |= earlier.hints
                candidate.replaces = earlier.number
                candidate.manner = Manner.CORRECTION
                earlier.leave(SetAside.WITHDRAWN, "the customer corrects it")
            elif earlier.measure is None or _is_same_number(page, earlier, candidate):
                earlier.leave(SetAside.WITHDRAWN, "the customer corrects it")
                candidate.manner = Manner.CORRECTION
        earlier = candidate


def _renew_in_passing(page: Page) -> None:
    """Read "was 10 inches at the shoulder when we got him, he's 12 now": the new number is of what the old one was."""
    if not page.index.holds_among(Small.NOW):
        return
    for earlier, candidate in pairwise(one for one in page.candidates if one.aside is None or one.beside is not None):
        if candidate.aside is not None or candidate.measure is not None or not _is_said_of_now(page, candidate):
            continue
        one, other = page.quantities.found[earlier.number], page.quantities.found[candidate.number]
        like = one.unit is not None and other.dimension in (None, one.dimension) and other.unit in (None, one.unit)
        gone = earlier.beside in _EARLIER or earlier.older
        if gone and earlier.measure is not None and like and _lies_near(one, other):
            candidate.measure, candidate.labels, candidate.bare = earlier.measure, earlier.labels, True


def _take_over(page: Page) -> None:
    """Read "our cat is 12 lb, he's 7", "emotionally 900 lb, physically 12": the bare number is of what the other is."""
    for number, against in page.against.items():
        earlier, candidate = page.candidates[against], page.candidates[number]
        one, other = page.quantities.found[against], page.quantities.found[number]
        measure = earlier.measure or ("weight" if one.dimension == Dimension.WEIGHT else None)
        if candidate.aside is not None or candidate.measure is not None or other.unit is not None or measure is None:
            continue
        if earlier.beside == "joke" or _lies_near(one, other):
            candidate.measure, candidate.labels, candidate.bare = measure, earlier.labels, True


_EARLIER = frozenset(("past", "overruled"))
_GROWN_TO = 2.2


def _is_said_of_now(page: Page, candidate: Candidate) -> bool:
    place = page.distance.place(candidate.number)
    beside = (*page.marks[max(0, place - 2) : place], *page.marks[place + 1 : place + 2])
    return any(mark.kind == PHRASE and mark.among(Small.NOW) for mark in beside)


def _lies_near(one: Quantity, other: Quantity) -> bool:
    return one.low / _GROWN_TO <= other.low <= one.low * _GROWN_TO


def _is_same_number(page: Page, earlier: Candidate, later: Candidate) -> bool:
    """Is only the name mended: "12 across, no wait, 12 long"."""
    one, other = page.quantities.found[earlier.number], page.quantities.found[later.number]
    return (one.low, one.high, one.unit) == (other.low, other.high, other.unit)


def _withdraw_called_wrong(page: Page) -> None:
    """Read "26 across?? no that's a typo: ... 6.5 across": the first gives way to a later one of its measure."""
    if not page.index.holds("correction"):
        return
    for at, candidate in enumerate(page.candidates):
        if candidate.aside is not None or candidate.measure is None or not _is_called_wrong(page, candidate):
            continue
        if any(
            later.aside is None and later.measure == candidate.measure and later.dogs == candidate.dogs
            for later in page.candidates[at + 1 :]
        ):
            candidate.leave(SetAside.WITHDRAWN, "the customer corrects it")


def _is_called_wrong(page: Page, candidate: Candidate) -> bool:
    place = page.distance.place(candidate.number)
    behind = page.marks[place + 1 : place + _MOST_BETWEEN]
    for at, mark in enumerate(behind):
        if mark.kind == NUMBER or (mark.kind == STOP and mark.text in ("\n", "\n\n")):
            return False
        if mark.kind == PHRASE and mark.has("correction") and not mark.among(Small.CALLS_NOTHING_WRONG):
            return not _another_says(behind[at + 1 :])
    return False


def _correct_by_star(page: Page) -> None:
    """Read "*15 lbs" on a line of its own: it corrects what was written above."""
    if "*" not in page.tidied.folded:
        return
    for at, candidate in enumerate(page.candidates):
        if candidate.aside is not None or candidate.measure is None or not at or not _behind_star(page, candidate):
            continue
        for earlier in page.candidates[:at]:
            if earlier.aside is None and earlier.measure == candidate.measure and earlier.dogs == candidate.dogs:
                earlier.leave(SetAside.WITHDRAWN, "the customer corrects it")
                candidate.manner = Manner.CORRECTION


def _behind_star(page: Page, candidate: Candidate) -> bool:
    place = page.distance.place(candidate.number)
    for at in range(place - 1, max(place - 5, 0), -1):
        mark = page.marks[at]
        if mark.text == "*":
            alone = not mark.glued and page.marks[at + 1].glued and page.marks[at - 1].kind == NUMBER
            return (page.marks[at - 1].kind == STOP and page.marks[at - 1].text in SENTENCE_ENDS) or alone
        if mark.kind != PHRASE:
            return False
    return False


def _is_set_right(marks: Sequence[Mark], start: int, end: int) -> bool:
    """Read "back 15. Hang on, he'd stretched, stood him up properly and it's 13.5": nothing else is named between."""
    between = marks[start:end]
    if not between or between[0].kind != STOP or between[-1].text not in _IT_IS:
        return False
    named = any(mark.has("atom", "dog", "other", "both", "kin", "breed") for mark in between)
    return not named and _opens_with_cue(marks, start + 1, end)


def _stands_behind_star(page: Page, between: Sequence[Mark], end: int) -> bool:
    """Does "12 *13" or, on a line of its own, "*13" correct the number before: no name of a measure stands between."""
    if not between or between[-1].text != "*" or not page.marks[end].glued:
        return False
    if len(between) == 1:
        return not between[0].glued
    named = any(mark.kind == PHRASE and mark.has("atom") for mark in page.marks[end + 1 : page.index.sentence(end)[1]])
    return between[-2].kind == STOP and between[-2].text in ("\n", "\n\n") and not named


def _passes_into(between: Sequence[Mark], later: Quantity) -> bool:
    """Does a value pass into a later one: "21 lb down to 18.5 lb"; not "from 21 to 18.5", which may be a range."""
    words = [mark for mark in between if mark.text != "," and not mark.among(Small.BETWEEN_VALUES)]
    return len(words) == 1 and words[0].kind == PHRASE and words[0].among(Small.PASSES_INTO) and later.unit is not None


def _corrects(page: Page, earlier: Candidate, later: Candidate) -> bool:
    """Do "sorry", "no wait", "I mean" stand between two numbers of one kind, and no other measure."""
    one, other = page.quantities.found[earlier.number], page.quantities.found[later.number]
    if one.dimension is not None and other.dimension is not None and one.dimension != other.dimension:
        return False
    start, end = page.distance.place(earlier.number) + 1, page.distance.place(later.number)
    between = page.marks[start:end]
    if later.measure is None and _lies_near(one, other) and _is_set_right(page.marks, start, end):
        return True
    if len(between) > _MOST_BETWEEN:
        return False
    if one.unit is not None and one.dimension == other.dimension and _passes_into(between, other):
        return True
    if _stands_behind_star(page, between, end):
        return True
    if _behind_star(page, earlier):
        return False
    at = next((place for place, mark in enumerate(between) if mark.kind == PHRASE and mark.has("correction")), None)
    if at is None or (at + 1 < len(between) and between[at + 1].among(Small.POLITE)):
        return False
    behind = between[at + 1 :]
    if _another_says(behind) or (earlier.dogs != later.dogs and behind and behind[0].text in SENTENCE_ENDS):
        return False
    return not any(
        mark.has("atom")
        and mark.name("atom") not in ("WITH", "WITHOUT")
        and start + at + 1 + place not in _own_names(page, later)
        for place, mark in enumerate(behind)
    )


def _another_says(marks: Sequence[Mark]) -> bool:
    """Is a later value somebody else's: "no wait, my wife says 33 cm", "wait, my other note says 12"."""
    if any(mark.among(Small.LEADS_ON_OTHER) for mark in marks) and any(mark.among(Small.SAYS) for mark in marks):
        return True
    return any(mark.kind == PHRASE and mark.has("person") and not mark.among(Small.WHO_KNOW) for mark in marks)


def _own_names(page: Page, candidate: Candidate) -> set[int]:
    return {at for index in candidate.labels for at in range(page.labels[index].first, page.labels[index].last + 1)}


def _mark_manner(page: Page) -> None:
    """Note which values are said to correct, or to renew, what was told in an earlier message."""
    whole = _whole_manner(page)
    if whole is None and not _may_correct(page):
        return
    for candidate in page.candidates:
        if candidate.aside is not None or candidate.manner is not Manner.PLAIN:
            continue
        candidate.manner = whole or _manner_of(page, candidate)
        if candidate.manner is Manner.CORRECTION and whole is None and candidate.measure is not None:
            for earlier in page.candidates[: candidate.number]:
                if (
                    earlier.aside is None
                    and earlier.measure == candidate.measure
                    and earlier.dogs == candidate.dogs
                    and earlier.end_of is None
                ):
                    earlier.leave(SetAside.WITHDRAWN, "the customer corrects it")


def _whole_manner(page: Page) -> Manner | None:
    first = next((mark for mark in page.marks if mark.kind != STOP or mark.text.strip()), None)
    starred = first is not None and first.text == "*" and len(page.marks) > 1 and page.marks[1].kind != STOP
    if starred and page.marks[1].glued and sum(mark.text == "*" for mark in page.marks) == 1:
        return Manner.CORRECTION
    return Manner.AGAIN if page.index.holds_among(Small.MEASURED_ANEW) else None


def _may_correct(page: Page) -> bool:
    """May a value be said to correct or to renew another: does any word stand in the message that could say so."""
    said = page.index.holds("correction", "again") or page.index.holds_among(Small.AFTERTHOUGHTS)
    return said or any(one.aside is SetAside.WITHDRAWN for one in page.candidates)


def _manner_of(page: Page, candidate: Candidate) -> Manner:
    place = page.distance.place(candidate.number)
    start, end = page.index.sentence(place)
    sentence = page.marks[start:end]
    if _negates_another(page, candidate, sentence):
        return Manner.CORRECTION
    for at in range(max(0, place - 8), place):
        mark = page.marks[at]
        if mark.kind == PHRASE and mark.has("correction") and _is_cue(page.marks, at, place):
            return Manner.CORRECTION
    if _cue_behind(page, place, end) or _opens_with_cue(page.marks, start, place) or _follows_no(page.marks, start):
        return Manner.CORRECTION
    if any(mark.kind == PHRASE and mark.has("again") for mark in sentence):
        return Manner.AGAIN
    return Manner.PLAIN


def _opens_with_cue(marks: Sequence[Mark], start: int, place: int) -> bool:
    """Does its sentence begin with "hang on", and say why: "Oh hang on, I read the tape upside down, back's 12"."""
    at = next((at for at in range(start, min(start + _OPENING, place)) if marks[at].has("correction")), None)
    if at is None or place - at > _WHOLE_SENTENCE or marks[at].among(Small.OPENS_NO_VALUE):
        return False
    between = marks[at + 1 : place]
    polite = bool(between) and between[0].among(Small.POLITE)
    return not polite and not _another_says(between) and not any(mark.kind == NUMBER for mark in between)


def _follows_no(marks: Sequence[Mark], start: int) -> bool:
    """Does a sentence of nothing but "no" stand before its own."""
    at = start - 1
    while at >= 0 and marks[at].kind == STOP:
        at -= 1
    return at >= 0 and marks[at].has("correction") and (at == 0 or marks[at - 1].kind == STOP)


def _cue_behind(page: Page, place: int, end: int) -> bool:
    """Does "actually", "sorry" close what is said of the number: "Nutmeg is 3.5 wide actually"."""
    for at in range(place + 1, min(end, place + 7)):
        mark = page.marks[at]
        if mark.kind == NUMBER:
            return False
        if mark.kind == PHRASE and mark.among(Small.AFTERTHOUGHTS):
            return at + 1 >= end or page.marks[at + 1].kind == STOP
    return False


def _negates_another(page: Page, candidate: Candidate, sentence: Sequence[Mark]) -> bool:
    """Is another number of the sentence negated: "12.5 long not 13"."""
    return any(
        mark.kind == NUMBER
        and mark.quantity != candidate.number
        and page.candidates[mark.quantity].aside is SetAside.WITHDRAWN
        for mark in sentence
    )


def _is_cue(marks: Sequence[Mark], at: int, place: int) -> bool:
    """Does a word of correction open what is said of the number, rather than being polite: "sorry for my English"."""
    if _another_says(marks[at + 1 : place]):
        return False
    following = marks[at + 1] if at + 1 < len(marks) else None
    if following is None or following.among(Small.POLITE) or marks[at].among(Small.OPENS_NO_VALUE):
        return marks[at].among(Small.RATHER) and place - at <= 4
    return place - at <= 7 and not any(mark.kind == NUMBER for mark in marks[at:place])
