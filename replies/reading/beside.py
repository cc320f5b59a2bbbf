"""Tells that a word near a number makes it no measure of now: "should weigh 12", "last year 9", "plus room of 2 in"."""

from collections.abc import Sequence

from replies.reading.facts import SetAside
from replies.reading.marks import NUMBER, SENTENCE_ENDS, STOP, Mark
from replies.reading.page import Candidate, Page
from replies.reading.small_words import Small
from replies.reading.unit_words import Dimension

_LOOKED_AT = 10
"""So many marks on either side of a number are looked at."""


def is_beside(page: Page, candidate: Candidate, place: int) -> bool:
    """Does a word beside it make it a target, a forecast, an earlier value, a hypothesis, or room for the coat."""
    found = _cue_before(page, candidate, place, weak=False) or _cue_after(page, candidate, place, weak=False)
    found = found or _cue_before(page, candidate, place, weak=True) or _cue_after(page, candidate, place, weak=True)
    if found is None:
        return False
    near = page.words.near[found]
    if near.of_lengths and page.quantities.found[candidate.number].dimension is Dimension.WEIGHT:
        return False
    if near.weak:
        candidate.older = True
        candidate.note = near.note
        return False
    candidate.leave(SetAside.NOT_A_MEASURE, near.note)
    candidate.beside = found
    return True


def _cue_before(page: Page, candidate: Candidate, place: int, *, weak: bool) -> str | None:
    for at in range(place - 1, max(place - 1 - _LOOKED_AT, -1), -1):
        mark = page.marks[at]
        if mark.kind == NUMBER or (mark.kind == STOP and mark.text in SENTENCE_ENDS):
            break
        if mark.among(Small.TURNS_CLAUSE) or (mark.text == "plus" and _says_one_more(page, at, place)):
            break
        if _is_cue(page, at, "before", weak=weak) and page.distance.before(at, candidate.number) <= _far(
            page, mark, "before"
        ):
            return mark.name("before")
    return None


def _says_one_more(page: Page, at: int, place: int) -> bool:
    """Does "plus" tell one thing more: at the beginning of a sentence, or of another measure: "plus 5.5 wide"."""
    if at == 0 or (page.marks[at - 1].kind == STOP and page.marks[at - 1].text in SENTENCE_ENDS):
        return True
    return place == at + 1 and place + 1 < len(page.marks) and page.marks[place + 1].has("atom")


def _is_cue(page: Page, at: int, kind: str, *, weak: bool) -> bool:
    """Is a mark a word of one of these lists, and not a dog called so: "Max"."""
    name = page.marks[at].name(kind)
    if name is None or page.words.near[name].weak is not weak or at in page.in_tries:
        return False
    return not any(named.first <= at <= named.last for named in page.names)


def _far(page: Page, mark: Mark, kind: str) -> float:
    return page.words.near[mark.name(kind) or ""].far


def _cue_after(page: Page, candidate: Candidate, place: int, *, weak: bool) -> str | None:
    for at in range(place + 1, min(place + 1 + _LOOKED_AT, len(page.marks))):
        mark = page.marks[at]
        if mark.kind == NUMBER or (mark.kind == STOP and mark.text in SENTENCE_ENDS):
            return None
        if mark.text == "(" and _number_in_bracket(page.marks, at):
            return None
        if _is_cue(page, at, "after", weak=weak) and page.distance.after(candidate.number, at) <= _far(
            page, mark, "after"
        ):
            return mark.name("after")
    return None


def _number_in_bracket(marks: Sequence[Mark], at: int) -> bool:
    """Does a bracket tell a number of its own: what is said in it is then said of that one: "7 lb (adult: 18 lb)"."""
    for mark in marks[at + 1 : at + 1 + _LOOKED_AT]:
        if mark.kind == NUMBER or mark.text == ")":
            return mark.kind == NUMBER
    return False
