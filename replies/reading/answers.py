"""Reads numbers that stand bare because the question said what they are: in order, numbered, "the other is 18"."""

from collections.abc import Sequence

from replies.reading.context import Asked
from replies.reading.facts import Manner, SetAside
from replies.reading.giving import give
from replies.reading.heads import is_bare, leave_with_head, see_heads
from replies.reading.in_order import fill_in_order
from replies.reading.letter import Letter
from replies.reading.marks import NUMBER, PHRASE, STOP
from replies.reading.page import Candidate, Page
from replies.reading.shapes import Shape
from replies.reading.small_words import Small
from replies.reading.unit_words import Dimension
from replies.reading.units import in_units
from sizing.measures import Measure
from sizing.reasons import Why
from sizing.units import is_weight

_ORDER = {"first": 0, "second": 1, "third": 2, "fourth": 3}


def read_answers(page: Page, letter: Letter) -> None:
    """Give bare numbers the measures that had been asked for."""
    _leave_times(page)
    leave_with_head(page)
    _read_numbered(page, letter)
    _read_again(page, letter)
    for questions in letter.questions:
        dog = _dog_asked(page)
        asked = tuple(Asked(measure=measure, dog=dog) for measure in questions.measures)
        _fill(page, asked, questions.start, questions.end)
    if page.context.asked:
        _fill(page, page.context.asked, 0, len(page.tidied.text) + 1)
    see_heads(page)
    for candidate in page.candidates:
        if candidate.end_of is not None and candidate.measure is None:
            first = page.candidates[candidate.end_of]
            candidate.measure, candidate.dogs, candidate.bare, candidate.manner = (
                first.measure,
                first.dogs,
                True,
                first.manner,
            )
    _mark_answered(page)


def _dog_asked(page: Page) -> int:
    return page.context.asked[0].dog if page.context.asked else max(0, len(page.context.dogs) - 1)


def _leave_times(page: Page) -> None:
    """A bare number in "tonight when he's home, 8ish" is an hour."""
    promised = page.index.places("promise")
    if not promised:
        return
    for candidate in page.candidates:
        if (
            candidate.aside is None
            and candidate.measure is None
            and page.quantities.found[candidate.number].unit is None
        ):
            place = page.distance.place(candidate.number)
            if any(abs(at - place) <= 8 and not _line_between(page, at, place) for at in promised):
                candidate.leave(SetAside.NOT_A_MEASURE, "a time")


def _line_between(page: Page, one: int, other: int) -> bool:
    between = page.marks[min(one, other) : max(one, other)]
    return any(mark.kind == STOP and mark.text in (".", "\n", "\n\n", "!") for mark in between)


def _read_numbered(page: Page, letter: Letter) -> None:
    """Read "2. 19 cm": the number of the item says which question it answers."""
    order: dict[int, tuple[Measure, ...]] = {at + 1: (asked.measure,) for at, asked in enumerate(page.context.asked)}
    order.update({number: measures for number, measures in letter.numbered.items() if measures})
    for candidate in page.candidates:
        quantity = page.quantities.found[candidate.number]
        measures = order.get(int(quantity.low)) if quantity.shape == Shape.ENUMERATOR else None
        if not measures or len(measures) != 1:
            continue
        answers = _answers_behind(page, candidate)
        if len(answers) == 1 or len({one.dogs for one in answers}) == len(answers):
            for answer in answers:
                give(page, answer, Asked(measure=measures[0], dog=_dog_asked(page)))


def _answers_behind(page: Page, item: Candidate) -> list[Candidate]:
    """Give the bare number behind the number of an item, and on its line those of other dogs: "1) Rex 34, Bo 31"."""
    found: list[Candidate] = []
    for candidate in page.candidates[item.number + 1 :]:
        if not is_bare(candidate) or _on_other_line(page, item, candidate):
            break
        if found and (not candidate.dogs or candidate.dogs == found[-1].dogs):
            break
        found.append(candidate)
    return found


def _read_again(page: Page, letter: Letter) -> None:
    """Read "yes, 12 cm" below the question "is the width really 12 cm?": a value said again is of the same measure."""
    for candidate in page.candidates if letter.asked_for else ():
        quantity = page.quantities.found[candidate.number]
        meant = {
            one.measure
            for one in letter.asked_for
            if one.value == quantity.low == quantity.high and quantity.unit in (one.unit, None)
        }
        if is_bare(candidate) and len(meant) == 1:
            give(page, candidate, Asked(measure=meant.pop(), dog=_dog_asked(page)))


def _on_other_line(page: Page, one: Candidate, other: Candidate) -> bool:
    between = page.tidied.text[page.quantities.found[one.number].end : page.quantities.found[other.number].start]
    return "\n" in between


def _fill(page: Page, asked: Sequence[Asked], start: int, end: int) -> None:
    """Give the bare numbers of a stretch what is asked and not yet answered."""
    bare = [
        candidate
        for candidate in page.candidates
        if is_bare(candidate) and start <= page.quantities.found[candidate.number].start < end
    ]
    if not bare:
        return
    bare = [candidate for candidate in bare if not _is_chosen(page, candidate, asked)]
    bare = [candidate for candidate in bare if not _is_known_value(page, candidate, asked)]
    bare = [candidate for candidate in bare if not _by_order(page, candidate, asked, bare)]
    for dog in dict.fromkeys(candidate.dogs for candidate in bare):
        mine = [candidate for candidate in bare if candidate.dogs == dog]
        free = _open(page, asked, dog)
        if len(mine) > len(free):  # a value told later, and named, may be another one for what was answered here
            free = _open(page, asked, dog, until=end)
        fill_in_order(page, mine, free)


def _is_chosen(page: Page, candidate: Candidate, asked: Sequence[Asked]) -> bool:
    """Is it one of two contradicting values, said to be the right one: "13 is right, with the tail it is 15.5"."""
    contradicted = [one for one in asked if one.why is Why.CONFLICT]
    place = page.distance.place(candidate.number)
    right = any(mark.name("pick") == "right" for mark in page.marks[place + 1 : place + 3] if mark.kind == PHRASE)
    if len(contradicted) != 1 or not right:
        return False
    for other in page.candidates:
        if other.aside is None and other.measure == contradicted[0].measure:
            other.leave(SetAside.WITHDRAWN, "the other value is right")
    give(page, candidate, contradicted[0])
    return True


def _is_known_value(page: Page, candidate: Candidate, asked: Sequence[Asked]) -> bool:
    """Is it the value of a doubted measure, said again: "really is 26"."""
    quantity = page.quantities.found[candidate.number]
    for one in asked:
        known = page.context.dogs[one.dog] if one.dog < len(page.context.dogs) else None
        if one.why is None or known is None or one.measure not in known.measures:
            continue
        if quantity.dimension is not None and (quantity.dimension == Dimension.WEIGHT) is not is_weight(one.measure):
            continue
        before = in_units(
            page, one.dog, [Candidate(number=candidate.number, measure=str(one.measure), dogs=(one.dog,))]
        )
        low, high = before[candidate.number].amount
        amount = known.measures[one.measure]
        if quantity.low > 0 and abs(low - amount.low) < 0.02 * low and abs(high - amount.high) < 0.02 * high:
            give(page, candidate, one)
            return True
    return False


def _open(page: Page, asked: Sequence[Asked], dogs: tuple[int, ...], until: int | None = None) -> list[Asked]:
    """Give what is asked and not answered by a name in the message, or in it up to a place.

    dogs    the dogs that the numbers are of, if told
    """
    told = {
        (candidate.measure, dog)
        for candidate in page.candidates
        if candidate.aside is None and candidate.measure and not candidate.older
        if until is None or page.quantities.found[candidate.number].start < until
        for dog in (candidate.dogs or (0,))
    }
    mine = [one for one in asked if not dogs or one.dog in dogs or len({each.dog for each in asked}) == 1]
    return [one for one in mine if (str(one.measure), dogs[0] if dogs else one.dog) not in told]


def _by_order(page: Page, candidate: Candidate, asked: Sequence[Asked], bare: Sequence[Candidate]) -> bool:
    """Read "the second is 12", "9.5 for the last one": the words say which of the things asked it is."""
    name = _order_word(page, candidate)
    if name is None or len({one.dog for one in asked}) > 1:
        return False
    free = _open(page, asked, candidate.dogs)
    if name in _ORDER and len(asked) > _ORDER[name]:
        wanted: Asked | None = asked[_ORDER[name]]
    elif name in ("last", "other") and free:
        wanted = free[-1] if len(free) == 1 or (name == "last") or len(bare) == len(free) else None
    else:
        return False
    if wanted is None or wanted not in free:
        return False
    give(page, candidate, wanted)
    return True


def _order_word(page: Page, candidate: Candidate) -> str | None:
    place = page.distance.place(candidate.number)
    for step in (-1, 1):
        meant = step < 0
        for at in range(place + step, place + 5 * step, step):
            if not 0 <= at < len(page.marks) or page.marks[at].kind == NUMBER:
                break
            mark = page.marks[at]
            meant = meant or mark.among(Small.MEANT_FOR)
            if mark.kind == STOP and mark.text not in (":", "-", "="):
                break
            name = mark.name("order") if mark.kind == PHRASE else None
            if name is not None and meant:
                return name
    return None


def _mark_answered(page: Page) -> None:
    """A value of just what was asked for, about a dog that it was asked of, is its answer."""
    asked = {(str(one.measure), one.dog) for one in page.context.asked}
    for candidate in page.candidates:
        if (
            candidate.aside is None
            and candidate.manner is Manner.PLAIN
            and any((candidate.measure, dog) in asked for dog in candidate.dogs)
        ):
            candidate.manner = Manner.ANSWER
