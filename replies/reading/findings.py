"""Puts together what a message says of each dog: one fact a measure, with contradictions kept."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from replies.reading.facts import Aside, DogReading, Fact, Manner, Passage, SetAside
from replies.reading.guesses import guessed_numbers
from replies.reading.page import Candidate, Page
from replies.reading.said_by import may_be
from replies.reading.units import InUnit, in_units
from replies.reading.widest import widest
from sizing.measures import Amount, Measure

_MEASURES = {str(measure): measure for measure in Measure}


def dog_readings(page: Page) -> tuple[DogReading, ...]:
    """Give what the message says of each dog that is to be carried, in order of first mention."""
    guessed = guessed_numbers(page)
    facts = {dog: _facts(page, dog, guessed) for dog in range(len(page.dogs))}
    _add_likened(page, facts)
    readings = [_reading(page, dog, facts[dog]) for dog in _in_order(page)]
    return tuple(reading for reading in readings if reading is not None)


def _in_order(page: Page) -> Sequence[int]:
    first: dict[int, int] = {}
    for candidate in page.candidates:
        for dog in candidate.dogs:
            first.setdefault(dog, candidate.number)
    return sorted(range(len(page.dogs)), key=lambda dog: (page.dogs[dog].known is None, dog))


def _reading(page: Page, dog: int, facts: dict[Measure, Fact]) -> DogReading | None:
    slot = page.dogs[dog]
    confirmed = frozenset((measure, why) for number, measure, why in page.confirmed if number == dog)
    withdrawn = frozenset(measure for number, measure in page.withdrawn if number == dog)
    known = page.context.dogs[slot.known] if slot.known is not None else None
    news = slot.name if known is None or slot.name != known.name else None
    breeds = slot.breeds if known is None or slot.breeds != known.breeds else ()
    told = news or slot.posture or slot.space or ((breeds or slot.age_months) and known is not None)
    if not slot.carried or not (facts or confirmed or withdrawn or told):
        return None
    return DogReading(
        known=slot.known,
        name=news,
        breeds=breeds,
        sex=slot.sex if slot.sex_told else None,
        age_months=slot.age_months,
        posture=slot.posture,
        space=slot.space,
        facts=tuple(facts[measure] for measure in Measure if measure in facts),
        confirmed=confirmed,
        withdrawn=withdrawn,
    )


def _facts(page: Page, dog: int, guessed: set[int]) -> dict[Measure, Fact]:
    candidates = [
        candidate
        for candidate in page.candidates
        if candidate.aside is None
        and dog in candidate.dogs
        and candidate.measure in _MEASURES
        and may_be(page, candidate, candidate.measure)
    ]
    numbers = in_units(page, dog, candidates)
    facts: dict[Measure, Fact] = {fact.measure: fact for number, fact in page.facts if number == dog}
    for name, measure in _MEASURES.items():
        told = [candidate for candidate in candidates if candidate.measure == name]
        if told:
            facts[measure] = _fact(page, _kept(page, told, numbers), numbers, guessed)
    return facts


def _kept(page: Page, told: Sequence[Candidate], numbers: dict[int, InUnit]) -> list[Candidate]:
    """Leave out values that give way to another one of the same measure."""
    kept = list(told)
    for is_lesser in (lambda one: one.older, lambda one: bool(one.hints)):
        better = [candidate for candidate in kept if not is_lesser(candidate)]
        if better and len(better) < len(kept):
            for candidate in kept:
                if is_lesser(candidate):
                    candidate.leave(SetAside.NOT_A_MEASURE, candidate.note or "another value was given for it")
                    candidate.beside = candidate.beside or "overruled"
            kept = better
    kept = _without_rough(page, kept, numbers)
    return widest(page, kept, numbers) if len(kept) > 1 and kept[0].measure == "width" else kept


def _without_rough(page: Page, kept: list[Candidate], numbers: dict[int, InUnit]) -> list[Candidate]:
    """Leave out a rough value where an exact one lies close to it."""
    exact = [one for one in kept if not page.quantities.found[one.number].hedged]
    if not exact or len(exact) == len(kept):
        return kept
    return [
        one
        for one in kept
        if one in exact or not any(_lies_close(numbers[one.number], numbers[other.number]) for other in exact)
    ]


def _lies_close(one: InUnit, other: InUnit) -> bool:
    return abs(one.amount[0] - other.amount[0]) <= 0.15 * other.amount[0]


def _fact(page: Page, kept: Sequence[Candidate], numbers: dict[int, InUnit], guessed: set[int]) -> Fact:
    last = kept[-1]
    number = numbers[last.number]
    quantity = page.quantities.found[last.number]
    amounts = _distinct(_amounts(kept, numbers))
    whole = amounts[0]
    if len(amounts) > 1:
        whole = Amount(low=min(one.low for one in amounts), high=max(one.high for one in amounts))
    label = page.labels[last.labels[0]] if last.labels else None
    return Fact(
        measure=_MEASURES[last.measure or ""],
        amount=whole,
        written=_amount(number.written),
        unit=number.unit,
        unit_stated=number.stated,
        at=page.passage(quantity.start, quantity.end),
        label=page.passage(page.marks[label.first].start, page.marks[label.last].end) if label else None,
        hedged=quantity.hedged,
        vague=last.number in guessed,
        hints=last.hints,
        manner=last.manner,
        conflicting=tuple(amounts) if len(amounts) > 1 else (),
    )


def _amounts(kept: Sequence[Candidate], numbers: dict[int, InUnit]) -> list[Amount]:
    """Give the amounts of candidates, two ends of one measure as a range."""
    amounts: dict[int, Amount] = {}
    for candidate in sorted(kept, key=lambda one: one.end_of is not None):
        amount = _amount(numbers[candidate.number].amount)
        other = amounts.get(candidate.end_of) if candidate.end_of is not None else None
        if other is not None and candidate.end_of is not None:
            amounts[candidate.end_of] = Amount(low=min(other.low, amount.low), high=max(other.high, amount.high))
        else:
            amounts[candidate.number] = amount
    return list(amounts.values())


def _amount(ends: tuple[float, float]) -> Amount:
    return Amount(low=ends[0], high=ends[1])


def _distinct(amounts: Iterable[Amount]) -> list[Amount]:
    found: list[Amount] = []
    for amount in amounts:
        if not any(abs(amount.middle - other.middle) <= 0.02 * other.middle + 0.01 for other in found):
            found.append(amount)
    return found


def _add_likened(page: Page, facts: dict[int, dict[Measure, Fact]]) -> None:
    """Give a dog that is "the same but an inch longer" the measures of the other one."""
    for likened in page.likened:
        base = _base_facts(page, likened.of, facts, page.passage(likened.start, likened.end))
        for measure, fact in base.items():
            change = likened.changes.get(measure)
            if measure in facts[likened.dog]:
                continue
            if change is None:
                if likened.whole or measure in likened.takes:
                    facts[likened.dog][measure] = fact
                continue
            amount, start, end = change
            if fact.amount.low + amount <= 0:
                continue
            changed = Amount(low=fact.amount.low + amount, high=fact.amount.high + amount)
            further = _was_taken_over(page, likened.dog, measure, fact.amount)
            facts[likened.dog][measure] = replace(
                fact,
                amount=changed,
                written=changed,
                unit="lb" if measure is Measure.WEIGHT else "in",
                at=page.passage(start, end),
                manner=Manner.CORRECTION if further else Manner.PLAIN,
            )


def _was_taken_over(page: Page, dog: int, measure: Measure, amount: Amount) -> bool:
    """Is what is known of a dog just what is known of the other: then a difference told now mends it."""
    index = page.dogs[dog].known
    known = page.context.dogs[index].measures.get(measure) if index is not None else None
    return known is not None and abs(known.middle - amount.middle) < 0.05


def _base_facts(page: Page, dog: int, facts: dict[int, dict[Measure, Fact]], at: Passage) -> dict[Measure, Fact]:
    base: dict[Measure, Fact] = {}
    index = page.dogs[dog].known
    if index is not None:
        known = page.context.dogs[index]
        for measure, amount in known.measures.items():
            base[measure] = Fact(
                measure=measure,
                amount=amount,
                written=amount,
                unit="lb" if measure is Measure.WEIGHT else "in",
                unit_stated=measure not in known.unit_open,
                at=at,
            )
    return {**base, **facts[dog]}


def set_aside(page: Page) -> tuple[Aside, ...]:
    """Give every number that was seen and left, with the reason."""
    found = []
    for candidate in page.candidates:
        quantity = page.quantities.found[candidate.number]
        why, note = candidate.aside, candidate.note
        if why is None and (not candidate.dogs or candidate.measure not in _MEASURES):
            why, note = SetAside.UNCLEAR, "nothing says what it is of"
        if why is not None:
            found.append(Aside(at=page.passage(quantity.start, quantity.end), why=why, note=note))
    return tuple(found)
