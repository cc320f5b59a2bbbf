"""Reads what is said of values told before: they stand, they changed places, one of two counts, the unit was another.

Also a number that corrects one of them without naming it: "sorry, 6.25".
"""

import math

from replies.reading.context import Asked
from replies.reading.facts import Fact, Manner, Passage, SetAside
from replies.reading.marks import PHRASE, Mark
from replies.reading.page import Candidate, Page
from replies.reading.proportions import fits
from replies.reading.replacements import correct_known, exchange_known, renew_known
from replies.reading.small_words import Small
from replies.reading.tell_apart import amount_of, values_known
from replies.reading.told_before import converted, known_fact, unit_before
from sizing.measures import Amount, Measure
from sizing.reasons import Why
from sizing.units import is_weight, to_inches, to_pounds

_WORDS_FOR = {Why.TAIL: "TAIL_OUT", Why.HEAD: "SHOULDER", Why.GIRTH: "ACROSS"}
"""Words that deny a mistake by themselves."""
_NAMES_MISTAKE = frozenset({Why.GIRTH, Why.HEAD, Why.TAIL, Why.VAGUE, Why.SWAP})
"""The questions about these say what the mistake would be, so that to agree may be to own up to it."""


def read_confirmations(page: Page) -> None:
    """Note what the message says of values that were told before."""
    exchange_known(page)
    correct_known(page)
    renew_known(page)
    _know_heavy(page)
    doubts = [one for one in page.context.asked if one.why is not None and one.dog < len(page.context.dogs)]
    if not doubts:
        return
    _swap_back(page, doubts)
    _pick_one(page, doubts)
    _take_back_around(page, doubts)
    _reread_in_unit(page, doubts)
    _confirm(page, doubts)


def _know_heavy(page: Page) -> None:
    """Read "27 lb, the vet has told us": who says that her dog is heavy need not be asked whether it weighs so much.

    Only where such a dog can be at all: no word of hers explains 270 lb.
    """
    if all(at and page.marks[at - 1].has("negation") for at in page.index.places("heavy")):
        return
    dogs = [number for number, slot in enumerate(page.dogs) if slot.carried]
    if len(dogs) != 1:
        return
    known = values_known(page, dogs[0])
    for one in page.candidates:
        if one.aside is None and one.measure is not None and one.dogs == (dogs[0],):
            known[one.measure] = amount_of(page, one, dogs[0])
    if "weight" in known and fits("weight", known["weight"], known):
        page.confirmed.add((dogs[0], Measure.WEIGHT, Why.WEIGHT))


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
        page.facts.append((dog, known_fact(page, first, known[second.measure], at)))
        page.facts.append((dog, known_fact(page, second, known[first.measure], at)))


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
        page.facts.append((one.dog, known_fact(page, one, value, _passage(page, picks[:1]))))


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
    unit = quantity.unit or unit_before(page, known, weighs=weighs)
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
                (one.dog, known_fact(page, Asked(measure=Measure.GIRTH, dog=one.dog), known[one.measure], at))
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
        before = unit_before(page, known, weighs=weighs)
        if before == unit:
            continue
        written = converted(known.measures[one.measure], before, weighs=weighs)
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
