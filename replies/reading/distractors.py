"""Sets numbers aside that are no measures of the dog: by their shape, by what stands beside them, by whose they are."""

from collections.abc import Callable, Sequence

from replies.reading.beside import is_beside
from replies.reading.facts import SetAside
from replies.reading.marks import NUMBER, PHRASE, STOP, Mark
from replies.reading.page import Candidate, Page
from replies.reading.persons import is_bound, is_persons, speaks_of_persons
from replies.reading.shapes import Shape
from replies.reading.small_words import Small
from replies.reading.things import is_size_number, speaks_of_things, thing_after, thing_before, thing_is_subject

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


def set_distractors_aside(page: Page) -> None:
    """Set aside every number of a message that is no measure of a dog, or not now."""
    tests = _tests(page)
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
        any(test(page, candidate, place) for test in tests)
    _spread_over_lists(page)


_Test = Callable[[Page, Candidate, int], bool]
"""Sees whether a number, whose mark has this index, is no measure, and sets it aside."""


def _tests(page: Page) -> list[_Test]:
    """Give the tests that may apply to a number of the message, in their order: those whose words are in it."""
    index, signs = page.index, page.tidied.folded
    tests: list[tuple[_Test, bool]] = [
        (_is_struck, "~" in signs),
        (_is_size, True),
        (_is_count, True),
        (_is_seat, index.holds_among(Small.SEATED)),
        (_is_score, "/" in signs),
        (_is_negated, index.holds("negation")),
        (_is_difference, index.holds("compared")),
        (is_bound, "<" in signs or ">" in signs),
        (is_persons, speaks_of_persons(page)),
        (is_beside, index.holds("before", "after")),
        (_is_of_a_thing, speaks_of_things(page)),
    ]
    return [test for test, applies in tests if applies]


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


_SHORTEST = 3


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
    if quantity.spelled and following and _is_strange_plural(following[0]):
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


def _is_strange_plural(mark: Mark) -> bool:
    """May a word of no list be several of something: "two boxes"."""
    return mark.kind == PHRASE and not mark.senses and len(mark.text) > _SHORTEST and mark.text.endswith("s")


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
