"""Reads what is said of values told before: they stand, they changed places, one of two counts, the unit was another.

Also a number that corrects one of them without naming it: "sorry, 6.25".
"""

import math
from itertools import pairwise

from replies.reading.context import Asked, KnownDog
from replies.reading.facts import Fact, Manner, Passage, SetAside
from replies.reading.marks import PHRASE, Mark
from replies.reading.page import Candidate, Page
from replies.reading.small_words import Small
from sizing.measures import Amount, Measure
from sizing.reasons import Why
from sizing.units import from_inches, from_pounds, is_weight, to_inches, to_pounds

_NEAR, _CLEARLY = math.log(1.35), math.log(1.25)
"""A bare correction lies within the first of the value it corrects, and closer than to any other by the second."""
_WORDS_FOR = {Why.TAIL: "TAIL_OUT", Why.HEAD: "SHOULDER", Why.GIRTH: "ACROSS"}
"""Words that deny a mistake by themselves."""
_NAMES_MISTAKE = frozenset({Why.GIRTH, Why.HEAD, Why.TAIL, Why.VAGUE, Why.SWAP})
"""The questions about these say what the mistake would be, so that to agree may be to own up to it."""


def read_confirmations(page: Page) -> None:
    """Note what the message says of values that were told before."""
    _exchange_known(page)
    _correct_known(page)
    _renew_known(page)
    doubts = [one for one in page.context.asked if one.why is not None and one.dog < len(page.context.dogs)]
    if not doubts:
        return
    _swap_back(page, doubts)
    _pick_one(page, doubts)
    _take_back_around(page, doubts)
    _reread_in_unit(page, doubts)
    _confirm(page, doubts)


def _words(page: Page, kind: str) -> list[Mark]:
    return [mark for mark in page.marks if mark.kind == PHRASE and mark.has(kind)]


def _is_told(page: Page, asked: Asked) -> bool:
    """Does the message give the measure anew."""
    return any(one.aside is None and one.measure == asked.measure and asked.dog in one.dogs for one in page.candidates)


def _loose_atoms(page: Page) -> set[str]:
    """Give the groups of words that name a measure without a number."""
    used = {index for candidate in page.candidates if candidate.aside is None for index in candidate.labels}
    return {atom for index, label in enumerate(page.labels) if index not in used for atom in label.atoms}


def _confirm(page: Page, doubts: list[Asked]) -> None:
    denied = _words(page, "stands_not") or any(mark.text == "?" for mark in page.marks)
    stands = bool(_words(page, "stands")) and not denied
    agrees = bool(_words(page, "agrees")) and not denied
    atoms = _loose_atoms(page)
    for one in doubts:
        if (
            _is_told(page, one)
            or (one.dog, one.measure) in page.withdrawn
            or one.why in (Why.SWAP, Why.UNIT, Why.CONFLICT, None)
        ):
            continue
        said = _WORDS_FOR.get(one.why) in atoms and not denied
        if stands or said or (agrees and one.why not in _NAMES_MISTAKE):
            page.confirmed.add((one.dog, one.measure, one.why))
    if stands:
        for one in doubts:
            if one.why is Why.SWAP and not _is_told(page, one) and not _words(page, "swapped"):
                page.confirmed.add((one.dog, one.measure, one.why))


def _passage(page: Page, marks: list[Mark]) -> Passage:
    return page.passage(marks[0].start, marks[-1].end)


def _known_fact(page: Page, one: Asked, amount: Amount, at: Passage) -> Fact:
    weighs = is_weight(one.measure)
    known = page.context.dogs[one.dog]
    unit = (
        (known.weight_unit or page.context.weight_unit) if weighs else (known.length_unit or page.context.length_unit)
    )
    convert = from_pounds if weighs else from_inches
    return Fact(
        measure=one.measure,
        amount=amount,
        written=Amount(low=convert(amount.low, unit), high=convert(amount.high, unit)),
        unit=unit,
        unit_stated=one.measure not in known.unit_open,
        at=at,
        manner=Manner.CORRECTION,
    )


def _swap_back(page: Page, doubts: list[Asked]) -> None:
    """Let two values change places where the customer says that they were exchanged."""
    said = _words(page, "swapped") or _words(page, "yes")
    for dog in dict.fromkeys(one.dog for one in doubts):
        pair = [one for one in doubts if one.dog == dog and one.why is Why.SWAP]
        known = page.context.dogs[dog].measures
        if len(pair) != 2 or not said or any(one.measure not in known or _is_told(page, one) for one in pair):
            continue
        if any(mark.has("no", "negation") for mark in page.marks[:3]):
            continue
        first, second = pair
        at = _passage(page, said)
        page.facts.append((dog, _known_fact(page, first, known[second.measure], at)))
        page.facts.append((dog, _known_fact(page, second, known[first.measure], at)))


def _pick_one(page: Page, doubts: list[Asked]) -> None:
    """Take the one of two contradicting values that the customer points to."""
    for one in doubts:
        values = page.context.dogs[one.dog].conflicting.get(one.measure, ())
        if one.why is not Why.CONFLICT or len(values) < 2:
            continue
        if _both_told(page, one, values):
            continue
        if _is_told(page, one):
            _keep_right(page, one)
            continue
        picks = [mark for mark in _words(page, "pick") if mark.name("pick") != "right"]
        if not picks:
            continue
        ordered = sorted(values, key=lambda amount: amount.middle)
        value = {"first": values[0], "last": values[-1], "small": ordered[0], "large": ordered[-1]}[
            picks[0].name("pick") or "first"
        ]
        page.facts.append((one.dog, _known_fact(page, one, value, _passage(page, picks[:1]))))


def _both_told(page: Page, one: Asked, values: tuple[Amount, ...]) -> bool:
    """Read "29 is what the scale said, 24 was an old bill": of two values named again one is said to be of before."""
    told = [each for each in page.candidates if _is_one_of(page, each, one, values)]
    if len({page.quantities.found[each.number].low for each in told}) != 2 or len(told) != 2:
        return False
    past = [each for each in told if each.older or _is_of_before(page, each)]
    for each in told:
        each.measure, each.aside, each.manner, each.dogs = str(one.measure), None, Manner.ANSWER, (one.dog,)
        if len(past) == 1:
            each.manner, each.older = Manner.CORRECTION, False
    if len(past) == 1:
        past[0].leave(SetAside.WITHDRAWN, "the other value is right")
    return True


def _is_one_of(page: Page, candidate: Candidate, one: Asked, values: tuple[Amount, ...]) -> bool:
    if candidate.aside not in (None, SetAside.UNCLEAR) or candidate.measure not in (None, str(one.measure)):
        return False
    quantity, known = page.quantities.found[candidate.number], page.context.dogs[one.dog]
    weighs = is_weight(one.measure)
    if quantity.dimension is not None and (quantity.dimension == "weight") is not weighs:
        return False
    unit = quantity.unit or _unit_before(page, known, weighs=weighs)
    convert = to_pounds if weighs else to_inches
    return any(math.isclose(convert(quantity.low, unit), value.low, rel_tol=0.01) for value in values)


def _is_of_before(page: Page, candidate: Candidate) -> bool:
    """Is a value told as one of before: "24 was an old vet bill"."""
    place = page.distance.place(candidate.number)
    for mark in page.marks[place + 1 : place + 6]:
        if mark.kind != PHRASE:
            return False
        if mark.among(Small.WAS_BEFORE) or page.words.small.holds_one_of(mark.text, Small.EARLIER):
            return True
    return False


def _keep_right(page: Page, one: Asked) -> None:
    """Of two values named again, keep the one that is said to be right."""
    told = [
        each for each in page.candidates if each.aside is None and each.measure == one.measure and one.dog in each.dogs
    ]
    right = [each for each in told if _is_called_right(page, each)]
    if len(told) > 1 and len(right) == 1:
        for each in told:
            if each is not right[0]:
                each.leave(SetAside.WITHDRAWN, "the other value is right")


def _is_called_right(page: Page, candidate: Candidate) -> bool:
    place = page.distance.place(candidate.number)
    return any(mark.name("pick") == "right" for mark in page.marks[place + 1 : place + 3] if mark.kind == PHRASE)


def _take_back_around(page: Page, doubts: list[Asked]) -> None:
    """Read "that was all the way round": the width is taken back, and was the girth."""
    for one in doubts:
        if one.why is not Why.GIRTH or "AROUND" not in _loose_atoms(page):
            continue
        known = page.context.dogs[one.dog].measures
        if not _is_told(page, one):
            page.withdrawn.add((one.dog, one.measure))
        label = next(label for label in page.labels if "AROUND" in label.atoms)
        at = page.passage(page.marks[label.first].start, page.marks[label.last].end)
        if one.measure in known and Measure.GIRTH not in known and not _negated(page, label.first):
            page.facts.append(
                (one.dog, _known_fact(page, Asked(measure=Measure.GIRTH, dog=one.dog), known[one.measure], at))
            )


def _negated(page: Page, at: int) -> bool:
    return any(mark.kind == PHRASE and mark.has("negation") for mark in page.marks[max(0, at - 3) : at])


def _reread_in_unit(page: Page, doubts: list[Asked]) -> None:
    """Read "sorry, cm": values that were told in another unit are taken in this one."""
    for one in doubts:
        known = page.context.dogs[one.dog]
        weighs = is_weight(one.measure)
        unit = page.weight_unit if weighs else page.length_unit
        if (
            one.why is not Why.UNIT
            or unit is None
            or one.measure in known.unit_open
            or one.measure not in known.measures
            or _is_told(page, one)
        ):
            continue
        before = _unit_before(page, known, weighs=weighs)
        if before == unit:
            continue
        written = _converted(known.measures[one.measure], before, weighs=weighs)
        convert = to_pounds if weighs else to_inches
        lone = next(each for each in page.quantities.lone if (each.dimension == "weight") == weighs)
        fact = Fact(
            measure=one.measure,
            amount=Amount(low=convert(written.low, unit), high=convert(written.high, unit)),
            written=written,
            unit=unit,
            unit_stated=True,
            at=page.passage(lone.start, lone.end),
            manner=Manner.CORRECTION,
        )
        page.facts.append((one.dog, fact))


def _unit_before(page: Page, known: KnownDog, *, weighs: bool) -> str:
    if weighs:
        return known.weight_unit or page.context.weight_unit
    return known.length_unit or page.context.length_unit


def _converted(amount: Amount, unit: str, *, weighs: bool) -> Amount:
    convert = from_pounds if weighs else from_inches
    return Amount(low=convert(amount.low, unit), high=convert(amount.high, unit))


def _correct_known(page: Page) -> None:
    """Give a bare number that corrects the measure whose known value it replaces: "sorry, 6.25", "6.25 not 5.5"."""
    bare = [one for one in page.candidates if one.aside in (None, SetAside.UNCLEAR) and one.measure is None]
    dogs = {dog for one in bare for dog in one.dogs}
    if len(bare) != 1 or len(dogs) != 1:
        return
    candidate, dog = bare[0], dogs.pop()
    index = page.dogs[dog].known
    if index is None:
        return
    known = page.context.dogs[index]
    measure = _negated_measure(page, known) or (
        _closest(page, candidate, known) if candidate.manner is Manner.CORRECTION else None
    )
    if measure is not None:
        candidate.measure, candidate.bare, candidate.aside = str(measure), True, None
        candidate.manner = Manner.CORRECTION


def _exchange_known(page: Page) -> None:
    """Read "the 12 should be 13": a known value is named, and what it should have been."""
    for one, other in pairwise(page.candidates):
        start, end = page.distance.place(one.number), page.distance.place(other.number)
        between = page.marks[start + 1 : end]
        if (
            one.measure
            or other.measure
            or not any(mark.among(Small.SHOULD_BE) for mark in between)
            or end - start > _CLOSE_BY
        ):
            continue
        low = page.quantities.found[one.number].low
        same = [
            (slot, measure)
            for slot, dog in enumerate(page.dogs)
            if dog.known is not None
            for measure in _measures_of(page, page.context.dogs[dog.known], low)
        ]
        if len(same) == 1:
            slot, measure = same[0]
            one.leave(SetAside.WITHDRAWN, "the customer corrects it")
            other.measure, other.bare, other.aside, other.older = str(measure), True, None, False
            other.dogs, other.manner = (slot,), Manner.CORRECTION


_CLOSE_BY = 5


def _measures_of(page: Page, known: KnownDog, value: float) -> list[Measure]:
    """Give the measures that have this value, as the customer told it."""
    return [
        measure
        for measure, amount in known.measures.items()
        if abs(_as_told(page, known, measure, amount) - value) < 0.02 * value
    ]


def _renew_known(page: Page) -> None:
    """Read "the other two are 4 and 6.75 now": each takes the place of the one value known that it is close to."""
    bare = [one for one in page.candidates if one.aside in (None, SetAside.UNCLEAR) and one.measure is None]
    dogs = {one.dogs for one in bare}
    if len(bare) < 2 or len(dogs) != 1 or page.context.asked or any(one.manner is Manner.PLAIN for one in bare):
        return
    index = page.dogs[bare[0].dogs[0]].known if len(bare[0].dogs) == 1 else None
    if index is None:
        return
    told = {one.measure for one in page.candidates if one.aside is None}
    found = [_closest(page, one, page.context.dogs[index]) for one in bare]
    if None in found or len(set(found)) < len(found) or told.intersection(map(str, found)):
        return
    for candidate, measure in zip(bare, found, strict=True):
        candidate.measure, candidate.bare, candidate.aside = str(measure), True, None


def _negated_measure(page: Page, known: KnownDog) -> Measure | None:
    """Give the measure whose known value the message denies."""
    for one in page.candidates:
        if one.aside is SetAside.WITHDRAWN:
            low = page.quantities.found[one.number].low
            same = _measures_of(page, known, low)
            if len(same) == 1:
                return same[0]
    return None


def _as_told(page: Page, known: KnownDog, measure: Measure, amount: Amount) -> float:
    weighs = is_weight(measure)
    return _converted(amount, _unit_before(page, known, weighs=weighs), weighs=weighs).middle


def _closest(page: Page, candidate: Candidate, known: KnownDog) -> Measure | None:
    quantity = page.quantities.found[candidate.number]
    value = (quantity.low + quantity.high) / 2
    away = []
    for measure, amount in known.measures.items():
        if quantity.dimension is not None and (quantity.dimension == "weight") is not is_weight(measure):
            continue
        unit = quantity.unit or _unit_before(page, known, weighs=is_weight(measure))
        inside = (to_pounds if is_weight(measure) else to_inches)(value, unit)
        away.append((abs(math.log(inside / amount.middle)), measure))
    away.sort()
    if not away or away[0][0] > _NEAR or (len(away) > 1 and away[1][0] - away[0][0] < _CLEARLY):
        return None
    return away[0][1]
