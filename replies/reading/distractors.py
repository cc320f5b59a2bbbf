"""Sets numbers aside that are no measures of the dog: by their shape, by what stands beside them, by whose they are."""

from collections.abc import Sequence

from replies.reading.facts import SetAside
from replies.reading.marks import NUMBER, PHRASE, SENTENCE_ENDS, STOP, Mark
from replies.reading.page import Candidate, Page
from replies.reading.persons import is_bound, is_persons
from replies.reading.shapes import Shape
from replies.reading.small_words import Small
from replies.reading.things import is_size_number, thing_after, thing_before, thing_is_subject

_SHAPE_NOTES = {
    Shape.DATE: "a date",
    Shape.TIME: "a time",
    Shape.DURATION: "an age or a span of time",
    Shape.MONEY: "a price",
    Shape.PHONE: "a telephone number",
    Shape.PERCENT: "a share",
    Shape.ORDINAL: "a place in a row",
    Shape.CODE: "a reference or a size number",
    Shape.ADDRESS: "an address",
    Shape.TEMPERATURE: "a temperature",
    Shape.LINK: "part of an address on the web",
    Shape.MARKUP: "part of markup",
    Shape.ENUMERATOR: "the number of an item in a list",
    Shape.OTHER: "an amount of something else",
}


_LOOKED_AT = 10
"""So many marks on either side of a number are looked at."""


def set_distractors_aside(page: Page) -> None:
    """Set aside every number of a message that is no measure of a dog, or not now."""
    for candidate in page.candidates:
        quantity = page.quantities.found[candidate.number]
        if candidate.aside is not None:
            continue
        if _is_slip(page, candidate):
            candidate.leave(SetAside.WITHDRAWN, "a slip of the keyboard")
            continue
        if quantity.shape not in (Shape.AMOUNT, Shape.HASH):
            candidate.leave(SetAside.NOT_A_MEASURE, _SHAPE_NOTES.get(quantity.shape, "no measure"))
            continue
        if quantity.shape == Shape.HASH and not _is_pounds(page, candidate):
            candidate.leave(SetAside.NOT_A_MEASURE, "a reference")
            continue
        if quantity.restates:
            candidate.leave(SetAside.NOT_A_MEASURE, "the amount before it once more in another unit")
            continue
        place = page.distance.place(candidate.number)
        for test in (
            _is_struck,
            _is_size,
            _is_count,
            _is_seat,
            _is_score,
            _is_negated,
            _is_difference,
            is_bound,
            is_persons,
            _is_beside,
            _is_of_a_thing,
        ):
            if test(page, candidate, place):
                break
    _spread_over_lists(page)


def _is_slip(page: Page, candidate: Candidate) -> bool:
    """Is it "01", right behind the name of a measure: what was meant comes behind it, or is asked."""
    quantity = page.quantities.found[candidate.number]
    place = page.distance.place(candidate.number)
    written = page.tidied.text[quantity.start : quantity.end]
    slipped = quantity.shape == Shape.CODE and len(written) == 2 and written.startswith("0")
    return slipped and place > 0 and page.marks[place - 1].has("atom")


def mark_older(page: Page, places: Sequence[tuple[int, int]]) -> None:
    """What the customer quotes of herself gives way to what she says now."""
    if not places:
        return
    for candidate in page.candidates:
        start = page.quantities.found[candidate.number].start
        if candidate.aside is None and any(first <= start < last for first, last in places):
            candidate.older, candidate.note = True, "of an earlier message"


def _is_pounds(page: Page, candidate: Candidate) -> bool:
    """Is "#11" eleven pounds: a dog or a measure stands beside it."""
    place = page.distance.place(candidate.number)
    beside = page.marks[max(0, place - 3) : place + 4]
    if not any(mark.kind == PHRASE and mark.has("dog", "breed", "atom", "pronoun") for mark in beside):
        return False
    candidate.measure = "weight"
    return True


def _is_struck(page: Page, candidate: Candidate, place: int) -> bool:
    """Is it struck out: "~~14~~"."""
    around = [mark.text for mark in (*page.marks[max(0, place - 2) : place], *page.marks[place + 1 : place + 3])]
    if around != ["~"] * 4:
        return False
    candidate.leave(SetAside.WITHDRAWN, "struck out")
    return True


def _is_size(page: Page, candidate: Candidate, place: int) -> bool:
    """Is it "the no 3", a size of the shop."""
    quantity = page.quantities.found[candidate.number]
    if quantity.low % 1 or quantity.low > 9 or not is_size_number(page, place):
        return False
    following = _following(page.marks, place, 1)
    if following and following[0].kind == PHRASE and following[0].has("atom", "letter"):
        return False
    candidate.leave(SetAside.NOT_A_MEASURE, "a reference or a size number")
    return True


def _is_count(page: Page, candidate: Candidate, place: int) -> bool:
    """Is it so many dogs, bags, or pieces of an order: "2 dogs", "two 8 week dachshunds", "1 x Soft carrier"."""
    quantity = page.quantities.found[candidate.number]
    if quantity.unit is not None or quantity.low != quantity.high or quantity.low > 20 or quantity.low % 1:
        return False
    following = _following(page.marks, place, 2)
    if following and following[0].text == "x" and (len(following) < 2 or following[1].kind != NUMBER):
        candidate.leave(SetAside.NOT_A_MEASURE, "a count")
        return True
    if (
        following
        and following[0].kind == PHRASE
        and following[0].has("dog", "breed", "product", "part", "thing", "animal", "large_animal", "kin")
    ):
        plural = following[0].text.endswith("s") or quantity.low == 1
        if plural and quantity.low <= 12 and following[0].name("atom") is None:
            candidate.leave(SetAside.NOT_A_MEASURE, "a count")
            return True
    if len(following) == 2 and following[0].text == "other" and following[1].has("dog", "breed", "animal"):
        candidate.leave(SetAside.NOT_A_MEASURE, "a count")
        return True
    if following and following[0].kind == PHRASE and following[0].has("counted"):
        candidate.leave(SetAside.NOT_A_MEASURE, "a count")
        return True
    counted = quantity.spelled and quantity.low <= 4
    before = page.marks[place - 1] if place else None
    if counted and before is not None and before.kind == PHRASE and _counts_the_rest(page, before):
        candidate.leave(SetAside.NOT_A_MEASURE, "so many of them")
        return True
    if counted and before is not None and before.among(Small.ORDERS) and (not following or following[0].kind == STOP):
        candidate.leave(SetAside.NOT_A_MEASURE, "a count")
        return True
    if counted and following and following[0].kind == NUMBER and following[0].quantity >= 0:
        shape = page.quantities.found[following[0].quantity].shape
        if shape == Shape.DURATION:
            candidate.leave(SetAside.NOT_A_MEASURE, "a count")
            return True
    return False


def _is_seat(page: Page, candidate: Candidate, place: int) -> bool:
    """Is it the number of a seat: "in 23B", "seat 14 C"."""
    quantity = page.quantities.found[candidate.number]
    before, following = page.marks[place - 1 : place], _following(page.marks, place, 1)
    if quantity.unit is not None or quantity.low % 1 or not before or not before[0].among(Small.SEATED):
        return False
    if not following or len(following[0].text) != 1 or not following[0].text.isalpha() or not following[0].glued:
        return False
    candidate.leave(SetAside.NOT_A_MEASURE, "the number of a seat")
    return True


def _counts_the_rest(page: Page, mark: Mark) -> bool:
    """Does a word before a number make it so many of those that are left: "the other two", "the last three"."""
    return page.words.small.ends_with_one_of(mark.text, Small.LEFT_OVER) or mark.name("order") in ("other", "last")


def _is_score(page: Page, candidate: Candidate, place: int) -> bool:
    """Is it "10/10"."""
    marks = page.marks
    for near, far in ((1, 2), (-1, -2)):
        if 0 <= place + far < len(marks) and marks[place + near].text == "/" and marks[place + far].kind == NUMBER:
            other = page.quantities.found[marks[place + far].quantity]
            mine = page.quantities.found[candidate.number]
            glued = marks[max(place + near, place)].glued and marks[max(place + near, place + far)].glued
            if glued and other.low == mine.low and mine.unit is None and other.unit is None:
                candidate.leave(SetAside.NOT_A_MEASURE, "a score")
                return True
    return False


def _is_negated(page: Page, candidate: Candidate, place: int) -> bool:
    """Is it "not 13", "nowhere near 13", "she must be 13. she's not"."""
    at = place - 1
    while at >= 0 and page.marks[at].kind == PHRASE and page.marks[at].among(Small.DENIED_OVER):
        at -= 1
    before = at >= 0 and page.marks[at].has("negation")
    if not before and not _is_denied_behind(page.marks, place):
        return False
    candidate.leave(SetAside.WITHDRAWN, "the customer says that it is not this")
    return True


def _is_denied_behind(marks: Sequence[Mark], place: int) -> bool:
    """Does "she's not" stand behind it, and nothing behind that."""
    behind = [mark for mark in marks[place + 1 : place + 6] if mark.text not in (",", ".", "-", "...")]
    if len(behind) < 2 or not behind[0].among(Small.HE_OR_SHE) or not behind[1].has("negation"):
        return False
    return len(behind) == 2 or behind[2].kind != PHRASE or behind[2].among(Small.HE_OR_SHE)


def _is_difference(page: Page, candidate: Candidate, place: int) -> bool:
    """Is it "an inch longer", "2 lb heavier"."""
    quantity = page.quantities.found[candidate.number]
    following = _following(page.marks, place, 2)
    for mark in following:
        if mark.kind != PHRASE:
            return False
        if mark.has("compared") and quantity.unit is not None:
            candidate.leave(SetAside.NOT_A_MEASURE, "a difference")
            return True
        if not mark.has("connector", "filler"):
            return False
    return False


def _is_beside(page: Page, candidate: Candidate, place: int) -> bool:
    """Does a word beside it make it a target, a forecast, an earlier value, a hypothesis, or room for the coat."""
    found = _cue_before(page, candidate, place, weak=False) or _cue_after(page, candidate, place, weak=False)
    found = found or _cue_before(page, candidate, place, weak=True) or _cue_after(page, candidate, place, weak=True)
    if found is None:
        return False
    near = page.words.near[found]
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
        if mark.text == "plus" and _opens_sentence(page, at):
            break
        if _is_cue(page, at, "before", weak=weak) and page.distance.before(at, candidate.number) <= _far(
            page, mark, "before"
        ):
            return mark.name("before")
    return None


def _opens_sentence(page: Page, at: int) -> bool:
    """Does a word stand at the beginning of a sentence or of a line: "plus 7,9 kg" then says one thing more."""
    return at == 0 or (page.marks[at - 1].kind == STOP and page.marks[at - 1].text in SENTENCE_ENDS)


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


def _is_of_a_thing(page: Page, candidate: Candidate, place: int) -> bool:
    """Is it the size of a crate, a seat, a carrier, a handle."""
    if thing_before(page, place) or thing_after(page, candidate, place) or thing_is_subject(page, place):
        candidate.leave(SetAside.NOT_A_MEASURE, page.words.notes["object"])
        return True
    return False


def _following(marks: Sequence[Mark], place: int, count: int) -> Sequence[Mark]:
    return marks[place + 1 : place + 1 + count]


def _spread_over_lists(page: Page) -> None:
    """What holds for one number of "24 x 18 x 19" holds for all."""
    for group in page.quantities.lists:
        left = [page.candidates[at] for at in group if page.candidates[at].aside is SetAside.NOT_A_MEASURE]
        if left:
            for at in group:
                if page.candidates[at].aside is None:
                    page.candidates[at].leave(SetAside.NOT_A_MEASURE, left[0].note)
