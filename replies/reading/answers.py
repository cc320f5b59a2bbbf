"""Reads numbers that stand bare because the question said what they are: in order, numbered, "the other is 18"."""

from collections.abc import Sequence
from itertools import combinations

from replies.reading.context import Asked
from replies.reading.facts import Manner, SetAside
from replies.reading.labels import Label
from replies.reading.letter import Letter
from replies.reading.marks import NUMBER, PHRASE, STOP
from replies.reading.page import Candidate, Page, Slot
from replies.reading.proportions import misfit
from replies.reading.shapes import Shape
from replies.reading.small_words import Small
from replies.reading.unit_words import Dimension
from replies.reading.units import in_units
from sizing.measures import Measure
from sizing.reasons import Why
from sizing.units import is_weight

_HINT_WITHIN = 14
_ORDER = {"first": 0, "second": 1, "third": 2, "fourth": 3}


def read_answers(page: Page, letter: Letter) -> None:
    """Give bare numbers the measures that had been asked for."""
    _leave_times(page)
    _leave_with_head(page)
    _read_numbered(page, letter)
    for questions in letter.questions:
        dog = _dog_asked(page)
        asked = tuple(Asked(measure=measure, dog=dog) for measure in questions.measures)
        _fill(page, asked, questions.start, questions.end)
    if page.context.asked:
        _fill(page, page.context.asked, 0, len(page.tidied.text) + 1)
    _see_heads(page)
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
    promised = [at for at, mark in enumerate(page.marks) if mark.kind == PHRASE and mark.has("promise")]
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
    for candidate, following in zip(page.candidates, page.candidates[1:], strict=False):
        quantity = page.quantities.found[candidate.number]
        if quantity.shape != Shape.ENUMERATOR or following.aside is not None or following.measure is not None:
            continue
        measures = order.get(int(quantity.low))
        if measures and len(measures) == 1 and not _on_other_line(page, candidate, following):
            _give(page, following, Asked(measure=measures[0], dog=_dog_asked(page)))


def _on_other_line(page: Page, one: Candidate, other: Candidate) -> bool:
    between = page.tidied.text[page.quantities.found[one.number].end : page.quantities.found[other.number].start]
    return "\n" in between


def _fill(page: Page, asked: Sequence[Asked], start: int, end: int) -> None:
    """Give the bare numbers of a stretch what is asked and not yet answered."""
    bare = [
        candidate
        for candidate in page.candidates
        if _is_bare(candidate) and start <= page.quantities.found[candidate.number].start < end
    ]
    if not bare:
        return
    bare = [candidate for candidate in bare if not _is_chosen(page, candidate, asked)]
    bare = [candidate for candidate in bare if not _is_known_value(page, candidate, asked)]
    bare = [candidate for candidate in bare if not _by_order(page, candidate, asked, bare)]
    for dog in dict.fromkeys(candidate.dogs for candidate in bare):
        mine = [candidate for candidate in bare if candidate.dogs == dog]
        _fill_in_order(page, mine, _open(page, asked, dog))


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
    _give(page, candidate, contradicted[0])
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
            _give(page, candidate, one)
            return True
    return False


def _leave_with_head(page: Page) -> None:
    """A bare number with "head up", "with head" beside it gives way to another one."""
    raised = [label for label in page.labels if label.rule is None and "HEADUP" in label.atoms]
    for candidate in page.candidates:
        if candidate.aside is None and candidate.measure is None:
            place = page.distance.place(candidate.number)
            candidate.older = candidate.older or any(
                0 < place - label.last <= 3 or 0 < label.first - place <= 2 for label in raised
            )


def _see_heads(page: Page) -> None:
    """Read "throat to floor 8, but with her head down. head up it's 9": the first is doubtful, the second stands."""
    loose = [label for label in page.labels if label.rule is None]
    told = [one for one in page.candidates if one.aside is None and one.measure in ("throat_height", "height")]
    for candidate in told:
        place = page.distance.place(candidate.number)
        near = next((label for label in loose if place < label.first <= place + _HEAD_WITHIN), None)
        if near is None or _parted(page, place, near.first):
            continue
        rule = page.words.composer.compose(near.atoms | {_GROUPS[candidate.measure or ""]})
        if rule is not None and rule.gives == candidate.measure and rule.hint is not None:
            candidate.hints |= {Why(rule.hint)}
            _take_other_posture(page, candidate, loose)


_HEAD_WITHIN = 5


def _parted(page: Page, start: int, end: int) -> bool:
    return any(
        mark.kind == NUMBER or (mark.kind == STOP and mark.text not in (",", "(", "-"))
        for mark in page.marks[start + 1 : end]
    )


def _take_other_posture(page: Page, candidate: Candidate, loose: Sequence[Label]) -> None:
    """Give the next bare number, with the head held otherwise, the same measure."""
    following = page.candidates[candidate.number + 1 : candidate.number + 2]
    if candidate.measure != "throat_height" or not following or not _is_bare(following[0]):
        return
    place = page.distance.place(following[0].number)
    if any("HEADUP" in label.atoms and 0 < place - label.last <= 3 for label in loose):
        following[0].measure, following[0].dogs, following[0].older = candidate.measure, candidate.dogs, False


def _is_bare(candidate: Candidate) -> bool:
    return candidate.aside is None and candidate.measure is None and candidate.end_of is None


def _open(page: Page, asked: Sequence[Asked], dogs: tuple[int, ...]) -> list[Asked]:
    """Give what is asked and not answered by a name in the message; of the dogs that the numbers are of, if told."""
    told = {
        (candidate.measure, dog)
        for candidate in page.candidates
        if candidate.aside is None and candidate.measure and not candidate.older
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
    _give(page, candidate, wanted)
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


def _other_put_off(page: Page, candidate: Candidate) -> bool:
    """Is the other thing that was asked put off: "19 cm, the other I must do when my son is here"."""
    place = page.distance.place(candidate.number)
    behind = page.marks[place + 1 : place + 10]
    if any(mark.kind == NUMBER for mark in behind):
        return False
    return any(mark.kind == PHRASE and (mark.name("order") == "other" or mark.has("other")) for mark in behind[:4])


def _fill_in_order(page: Page, bare: Sequence[Candidate], asked: Sequence[Asked]) -> None:
    """Give numbers in the order in which they were asked for; where they are fewer, only if one way is possible."""
    if len(bare) > len(asked):
        newer = [candidate for candidate in bare if not candidate.older]
        bare = newer if len(newer) == len(asked) else bare
    if len(bare) == 1 and len(asked) == 2 and _other_put_off(page, bare[0]):
        asked = asked[:1]
    ways = _ways(page, bare, asked)
    if len(ways) > 1:
        ways = _possible(page, bare, ways)
    if len(ways) == 1:
        for candidate, one in zip(bare, ways[0], strict=True):
            _give(page, candidate, one)
    else:
        for candidate in bare:
            candidate.leave(SetAside.UNCLEAR, "it may be one of several things that were asked")


def _ways(page: Page, bare: Sequence[Candidate], asked: Sequence[Asked]) -> list[tuple[Asked, ...]]:
    """Give every way to answer in order, no length being a weight."""
    if len(bare) > len(asked):
        return []
    named = _named_without_number(page)
    if len(bare) < len(asked):
        left = [one for one in asked if str(one.measure) not in named]
        if len(left) == len(bare):
            asked = left
    if len(bare) <= 5 and len(asked) <= 10:
        return [way for way in combinations(asked, len(bare)) if _is_allowed(page, bare, way)]
    return [tuple(asked)] if len(bare) == len(asked) and _is_allowed(page, bare, tuple(asked)) else []


def _is_allowed(page: Page, bare: Sequence[Candidate], way: Sequence[Asked]) -> bool:
    return all(
        one.measure is not Measure.WEIGHT or page.quantities.found[candidate.number].dimension != Dimension.LENGTH
        for candidate, one in zip(bare, way, strict=True)
    )


def _named_without_number(page: Page) -> set[str]:
    """Give the measures that the message names without a number: "the throat I'll do tomorrow"."""
    used = {index for candidate in page.candidates for index in candidate.labels}
    return {
        label.rule.gives
        for index, label in enumerate(page.labels)
        if (index not in used or label.undone) and label.rule and not label.letter
    }


def _possible(page: Page, bare: Sequence[Candidate], ways: Sequence[tuple[Asked, ...]]) -> list[tuple[Asked, ...]]:
    """Keep the ways in which the numbers can be a dog's, together with what is known of it."""
    return [way for way in ways if _is_possible(page, bare, way)]


def _is_possible(page: Page, bare: Sequence[Candidate], way: Sequence[Asked]) -> bool:
    dog = way[0].dog
    if dog >= len(page.dogs):
        return True
    before = [candidate.measure for candidate in bare]
    for candidate, one in zip(bare, way, strict=True):
        candidate.measure = str(one.measure)
    told = [one for one in page.candidates if one.aside is None and one.measure and (not one.dogs or dog in one.dogs)]
    numbers = in_units(page, dog, told)
    for candidate, measure in zip(bare, before, strict=True):
        candidate.measure = measure
    values = (
        {str(measure): amount.middle for measure, amount in page.context.dogs[dog].measures.items()}
        if dog < len(page.context.dogs)
        else {}
    )
    values |= {one.measure or "": sum(numbers[one.number].amount) / 2 for one in told if one.measure}
    values |= {
        str(one.measure): sum(numbers[candidate.number].amount) / 2 for candidate, one in zip(bare, way, strict=True)
    }
    return all(misfit(str(one.measure), values[str(one.measure)], values) == 0 for one in way)


def _give(page: Page, candidate: Candidate, asked: Asked) -> None:
    candidate.measure, candidate.bare = str(asked.measure), True
    candidate.manner = Manner.ANSWER
    candidate.hints |= _hints_beside(page, candidate)
    if not candidate.dogs:
        if not page.dogs:
            page.dogs.append(Slot())
        candidate.dogs = (min(asked.dog, len(page.dogs) - 1),)


_GROUPS = {"length": "LENGTH", "height": "HEIGHT", "width": "WIDTH", "throat_height": "THROAT"}


def _hints_beside(page: Page, candidate: Candidate) -> frozenset[Why]:
    """Give the mistake that words on the line of an answer give away: "36, but that's up to the ears"."""
    group = _GROUPS.get(candidate.measure or "")
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
