"""Gives numbers the measure that was said for another one: by contrast, by "X says", name after name, dog after dog."""

from collections.abc import Sequence
from itertools import pairwise

from replies.reading.facts import SetAside
from replies.reading.lists import number_rows
from replies.reading.marks import STOP, Mark
from replies.reading.page import Candidate, Page
from replies.reading.said_by import (
    FAR,
    is_near,
    is_said,
    lies_within,
    may_be,
    renewed,
    settled_by,
    told_by_two,
    told_exactly,
)
from replies.reading.several import speaks_of_several
from replies.reading.small_words import Small
from replies.reading.tries import is_repeated, join_tries

_TAKES = 3
_PAUSES = (",", ".", "...", "(", "-")
_CONTRASTED = 20
"""So many marks may stand between a value that is not so and the one that is."""
_OR_ELSE = 1.45
"""Two values of which "or" leaves it open which is right lie within this ratio."""
_SAME = 1.12
"""Several takes within this ratio are one value between them; farther apart they contradict one another."""


def carry_measures(page: Page) -> None:
    """Give a measure to numbers that stand in the place of another one."""
    _two_units(page)
    _two_ends(page)
    _taken_several_times(page)
    _overruled_by_but(page)
    _contrasted(page)
    told_exactly(page)
    told_by_two(page)
    settled_by(page)
    renewed(page)
    join_tries(page)
    if len(page.dogs) > 1:
        _shared_out(page)
        _in_parallel(page)
        _after_names(page)


def _two_ends(page: Page) -> None:
    """Read "from 31 up to 33", "10 tall, or maybe 11" as two ends of one measure; far apart they are two values."""
    for earlier, later in zip(page.candidates, page.candidates[1:], strict=False):
        if earlier.aside is not None or later.aside is not None or later.measure is not None:
            continue
        between = page.marks[page.distance.place(earlier.number) + 1 : page.distance.place(later.number)]
        between = between[_own_name(between) :]
        if len(between) > 5 or not _links_two_ends(between) or not _alike(page, earlier, later):
            continue
        close = _close(page, earlier, later)
        if close or lies_within(page, earlier, later, _OR_ELSE):
            later.measure, later.labels, later.dogs = earlier.measure, earlier.labels, earlier.dogs
            later.end_of = earlier.number if close else None


def _own_name(between: Sequence[Mark]) -> int:
    """Give how many marks behind a number are its own name."""
    return next((at for at, mark in enumerate(between) if not mark.has("atom")), len(between))


def _links_two_ends(between: Sequence[Mark]) -> bool:
    words = [mark for mark in between if mark.kind != STOP or mark.text not in _PAUSES]
    said = all(mark.among(Small.LINKING, Small.BETWEEN_ENDS) for mark in words)
    return said and any(mark.among(Small.LINKING) for mark in words)


def _taken_several_times(page: Page) -> None:
    """Read "12.5, 12.5, 12.75 long", "back: 12 and 14": a row of close numbers, only one of which is named."""
    if len(page.context.asked) > 1 or len(page.quoted) > 1 or all(one.measure for one in page.candidates):
        return
    for row in number_rows(page):
        candidates = [page.candidates[number] for number in row]
        named = [one for one in (candidates[0], candidates[-1]) if one.measure not in (None, "weight") and one.labels]
        bare = [one for one in candidates if one.measure is None]
        if len(named) != 1 or len(bare) != len(row) - 1 or any(one.listed for one in candidates):
            continue
        if len(row) < _TAKES and not _are_two_tries(page, named_first=named[0] is candidates[0]):
            continue
        if all(_close(page, named[0], one) and may_be(page, one, named[0].measure) for one in bare):
            for one in bare:
                one.measure, one.labels, one.dogs = named[0].measure, named[0].labels, named[0].dogs
                one.end_of = named[0].number if lies_within(page, named[0], one, _SAME) else None


def _are_two_tries(page: Page, *, named_first: bool) -> bool:
    """May two numbers be of one measure: where it is said, or it is named before both and one dog is spoken of."""
    return is_repeated(page) or (named_first and len(page.dogs) < 2 and not speaks_of_several(page))


_OVERRULED_WITHIN = 2.0
"""What is and what was said of it lie within this ratio: "my daughter says 13 but she's six" overrules nothing."""


def _overruled_by_but(page: Page) -> None:
    """Read "the tag says 10 lb but she weighs 13": what somebody or something says gives way to what is."""
    for earlier, later in zip(page.candidates, page.candidates[1:], strict=False):
        if (
            earlier.aside is not None
            or later.aside is not None
            or earlier.measure is None
            or later.measure not in (None, earlier.measure)
        ):
            continue
        between = page.marks[page.distance.place(earlier.number) + 1 : page.distance.place(later.number)]
        if (
            any(mark.text == "but" for mark in between)
            and len(between) <= FAR
            and is_said(page, earlier)
            and any(mark.among(Small.ASSERTS) for mark in between)
            and lies_within(page, earlier, later, _OVERRULED_WITHIN)
            and may_be(page, later, earlier.measure)
        ):
            earlier.older, earlier.note = True, "another value was given for it"
            later.measure, later.labels = earlier.measure, later.labels or earlier.labels


def _alike(page: Page, earlier: Candidate, later: Candidate) -> bool:
    """May both be of one measure: the same dimension, or of the later none told; not two answers to two questions."""
    one, other = page.quantities.found[earlier.number], page.quantities.found[later.number]
    if one.dimension is not None and other.dimension is not None and one.dimension != other.dimension:
        return False
    return earlier.measure is not None or len(page.context.asked) == 1 or len(page.quoted) == 1


def _close(page: Page, earlier: Candidate, later: Candidate) -> bool:
    one, other = page.quantities.found[earlier.number], page.quantities.found[later.number]
    return one.low > 0 and 0.84 <= other.low / one.low <= 1.19


def _two_units(page: Page) -> None:
    """Read "28 cm / 13 in": both are of one measure, and should agree."""
    for earlier, later in zip(page.candidates, page.candidates[1:], strict=False):
        one, other = page.quantities.found[earlier.number], page.quantities.found[later.number]
        if (
            one.dimension is None
            or one.dimension != other.dimension
            or one.unit == other.unit
            or later.aside is not None
        ):
            continue
        between = page.marks[page.distance.place(earlier.number) + 1 : page.distance.place(later.number)]
        if len(between) == 1 and between[0].text in ("/", "(", "=", "or") and later.measure in (None, earlier.measure):
            later.measure, later.labels, later.dogs = earlier.measure, earlier.labels, earlier.dogs


def _contrasted(page: Page) -> None:
    """Read "should be 14 lbs but she's 17", "not 13 long, it's 14": the second number is of the same measure."""
    values = [one for one in page.candidates if one.aside is not SetAside.NOT_A_MEASURE or one.beside is not None]
    for earlier, later in pairwise(values):
        for one, other in ((earlier, later), (later, earlier)):
            other_value = one.beside is not None and one.note != page.words.notes["object"]
            contrast = other_value or one.aside is SetAside.WITHDRAWN or (one.older and one is earlier)
            if (
                other.aside is None
                and other.measure is None
                and contrast
                and may_be(page, other, one.measure)
                and is_near(page, earlier, later, _CONTRASTED)
            ):
                other.measure, other.labels = one.measure, one.labels
                other.dogs = other.dogs or one.dogs


def _shared_out(page: Page) -> None:
    """Read "weight: 8 and 5.4 kg", "backs 13 and 11" of as many dogs: one each, in their order."""
    dogs = [number for number, slot in enumerate(page.dogs) if slot.carried]
    for row in number_rows(page):
        candidates = [page.candidates[number] for number in row]
        measures = {candidate.measure for candidate in candidates if candidate.measure}
        if (
            len(row) != len(dogs)
            or len(measures) != 1
            or not all(may_be(page, one, min(measures)) for one in candidates)
        ):
            continue
        if len({candidate.dogs for candidate in candidates}) != 1 or any(one.listed for one in candidates):
            continue
        labels = next((candidate.labels for candidate in candidates if candidate.labels), ())
        for candidate, dog in zip(candidates, dogs, strict=True):
            candidate.measure, candidate.labels, candidate.dogs = min(measures), labels, (dog,)


def _after_names(page: Page) -> None:
    """Read "back Olga 35 cm, Piet 28 cm": the name of the measure holds for the next dog, too."""
    earlier: Candidate | None = None
    for candidate in page.candidates:
        if candidate.aside is not None:
            continue
        if (
            earlier is not None
            and candidate.measure is None
            and candidate.dogs
            and candidate.dogs != earlier.dogs
            and may_be(page, candidate, earlier.measure)
            and _same_sentence(page, earlier, candidate)
            and not _is_given(page, candidate.dogs, earlier.measure)
        ):
            candidate.measure, candidate.labels = earlier.measure, earlier.labels
        earlier = candidate


def _same_sentence(page: Page, earlier: Candidate, later: Candidate) -> bool:
    _, end = page.index.sentence(page.distance.place(earlier.number))
    return (
        page.distance.place(later.number) < end
        and page.distance.place(later.number) - page.distance.place(earlier.number) <= 5
    )


def _is_given(page: Page, dogs: tuple[int, ...], measure: str | None) -> bool:
    return any(one.measure == measure and one.aside is None and set(one.dogs) & set(dogs) for one in page.candidates)


def _in_parallel(page: Page) -> None:
    """Read "Olga is 33 cm at the shoulder and weighs 9.4 kg, Piet is 26 cm and weighs 5.3 kg": as of the dog before."""
    rows = [
        [candidate for candidate in page.candidates if candidate.dogs == (dog,) and candidate.aside is None]
        for dog in range(len(page.dogs))
    ]
    rows = [row for row in rows if row]
    for first, second in pairwise(rows):
        if len(first) == len(second) and all(
            _agree(page, one, other) for one, other in zip(first, second, strict=True)
        ):
            for one, other in zip(first, second, strict=True):
                if other.measure is None:
                    other.measure, other.labels = one.measure, one.labels


def _agree(page: Page, one: Candidate, other: Candidate) -> bool:
    return one.measure is not None and (
        other.measure == one.measure or (other.measure is None and may_be(page, other, one.measure))
    )
