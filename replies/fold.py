"""Joins what a customer says now with what was said earlier: the enquiry as it stands after all its events.

Start at `fold`. What becomes of a value when another is told for the same measure is decided in `merge.py`.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Protocol

from replies.enquiry import CorrectionEvent, Enquiry, EnquiryDog, Event, Known, MessageEvent, SentEvent, Source
from replies.merge import is_possible, merge, with_unit
from replies.reading.context import Asked, Context, KnownDog
from replies.reading.facts import DogReading, Passage, Reading, Topic
from replies.reading.read import read
from replies.reading.words import Words
from sizing.measures import Measure, Taken
from sizing.reasons import Why
from sizing.units import is_weight


class ShopUnits(Protocol):
    """What reading needs to know of a shop: the units in which a number without one is taken."""

    @property
    def length_unit(self) -> str:
        """Give "in" or "cm"."""

    @property
    def weight_unit(self) -> str:
        """Give "lb" or "kg"."""


@dataclass(slots=True)
class Folding:
    """An enquiry while events are added to it, oldest first: `fold` for those who see the events come in one by one."""

    shop: ShopUnits
    words: Words
    dogs: list[EnquiryDog] = field(default_factory=list)
    asked: tuple[Asked, ...] = ()
    unanswered: Topic = Topic.NONE
    reopened: dict[str, Topic] = field(default_factory=dict)
    sent: int = 0
    asked_again: frozenset[tuple[int, Measure]] = frozenset()
    other: tuple[tuple[str, Passage], ...] = ()
    together: bool = False
    readings: dict[str, Reading] = field(default_factory=dict)
    times: dict[str, datetime | None] = field(default_factory=dict)
    length_unit: str | None = None
    weight_unit: str | None = None
    last: MessageEvent | None = None

    def add(self, event: Event) -> None:
        """Add what happened next."""
        match event:
            case MessageEvent():
                _add_message(self, event)
            case CorrectionEvent():
                _add_correction(self, event)
            case SentEvent():
                _add_sent(self, event)

    def enquiry(self) -> Enquiry:
        """Give the enquiry as it stands now."""
        reading = self.readings[self.last.id] if self.last else None
        return Enquiry(
            dogs=tuple(self.dogs),
            topic=reading.topic if reading else Topic.NONE,
            also_other=reading.also_other if reading else False,
            other=self.other,
            asked=self.asked,
            unanswered=self.unanswered,
            sent=self.sent,
            asked_again=self.asked_again,
            together=self.together,
            readings=dict(self.readings),
            length_unit=self.length_unit or self.shop.length_unit,
            weight_unit=self.weight_unit or self.shop.weight_unit,
            last=self.last,
        )


def fold(events: Iterable[Event], shop: ShopUnits, words: Words) -> Enquiry:
    """Compute an enquiry from everything that was kept of it, oldest first.

    Returns   the enquiry after the last event; an empty one for no events
    Raises    nothing that depends on what customers wrote
    """
    folding = Folding(shop=shop, words=words)
    for event in events:
        folding.add(event)
    return folding.enquiry()


def _add_message(state: Folding, event: MessageEvent) -> None:
    context = _context(state, event)
    reading = read(event.text, context, state.words)
    state.readings[event.id] = reading
    state.times[event.id] = event.sent_at
    state.last = event
    state.unanswered = max(state.unanswered, reading.topic, key=_WEIGHT.__getitem__)
    if event.reopened:
        state.reopened[event.id] = reading.topic
    if reading.together is not None:
        state.together = reading.together
    _apply_late_units(state, reading)
    met: dict[int, int] = {}
    for number, told in enumerate(reading.dogs):
        met[number] = _add_dog(state, told, event, context.asked)
    state.other += tuple((event.id, passage) for passage in reading.other)
    told_now = {
        (met[number], measure)
        for number, dog in enumerate(reading.dogs)
        for measure in {fact.measure for fact in dog.facts} | {measure for measure, _ in dog.confirmed}
    }
    state.asked = tuple(asked for asked in context.asked if (asked.dog, asked.measure) not in told_now)


_WEIGHT = {Topic.NONE: 0, Topic.OTHER: 1, Topic.SIZING: 2}


def _add_sent(state: Folding, event: SentEvent) -> None:
    state.asked = event.asks
    state.other = tuple(one for one in state.other if one[0] in state.reopened)
    state.unanswered = max(state.reopened.values(), key=_WEIGHT.__getitem__, default=Topic.NONE)
    state.sent += 1
    state.asked_again |= {
        (asked.dog, asked.measure)
        for asked in event.asks
        if asked.why is None and asked.dog < len(state.dogs) and asked.measure in state.dogs[asked.dog].measures
    }


def _context(state: Folding, event: MessageEvent) -> Context:
    asked = state.asked
    if event.asked is not None:
        dog = max(0, len(state.dogs) - 1)
        asked = tuple(Asked(measure=measure, dog=dog) for measure in event.asked)
    return Context(
        channel=event.channel,
        asked=asked,
        dogs=tuple(_known_dog(dog) for dog in state.dogs),
        length_unit=state.shop.length_unit,
        weight_unit=state.shop.weight_unit,
        first=not state.readings,
    )


def _known_dog(dog: EnquiryDog) -> KnownDog:
    stated = {measure: known for measure, known in dog.measures.items() if known.taken.unit_stated}
    return KnownDog(
        name=dog.name,
        breeds=dog.breeds,
        sex=dog.sex,
        measures={measure: known.taken.amount for measure, known in dog.measures.items()},
        length_unit=_latest_unit(stated, weight=False),
        weight_unit=_latest_unit(stated, weight=True),
        unit_open=frozenset(dog.measures) - frozenset(stated),
        before={m: known.before for m, known in dog.measures.items() if known.before},
        conflicting={m: known.taken.conflicting for m, known in dog.measures.items() if known.taken.conflicting},
    )


def _latest_unit(stated: Mapping[Measure, Known], *, weight: bool) -> str | None:
    units = [known.unit for measure, known in stated.items() if is_weight(measure) is weight]
    return units[-1] if units else None


def _apply_late_units(state: Folding, reading: Reading) -> None:
    """A unit that is told late counts for the earlier numbers that had none."""
    for unit, weight in ((reading.length_unit, False), (reading.weight_unit, True)):
        if unit is None:
            continue
        for number, dog in enumerate(state.dogs):
            measures = {
                measure: with_unit(known, unit)
                if is_weight(measure) is weight and not known.taken.unit_stated and is_possible(known, unit)
                else known
                for measure, known in dog.measures.items()
            }
            state.dogs[number] = replace(dog, measures=measures)


def _add_dog(state: Folding, told: DogReading, event: MessageEvent, asked: tuple[Asked, ...]) -> int:
    """Add what a message says of a dog, and give the dog's index."""
    if told.known is not None and 0 <= told.known < len(state.dogs):
        number = told.known
    else:
        number = len(state.dogs)
        state.dogs.append(EnquiryDog())
    dog = state.dogs[number]
    measures = {measure: known for measure, known in dog.measures.items() if measure not in told.withdrawn}
    for measure, why in told.confirmed:
        if measure in measures:
            measures[measure] = _confirm(measures[measure], why)
    open_here = {entry.measure: entry.why for entry in asked if entry.dog == number}
    for fact in told.facts:
        older = measures.pop(fact.measure, None)  # popped, so that the measure told last stands last
        source = Source(message=event.id, at=fact.at)
        later = older is not None and _is_later(state, older, event)
        measures[fact.measure] = merge(older, fact, source=source, asked=open_here, later=later)
        if fact.unit_stated:
            if is_weight(fact.measure):
                state.weight_unit = fact.unit
            else:
                state.length_unit = fact.unit
    for measure, why in told.confirmed:
        if any(fact.measure is measure for fact in told.facts):
            measures[measure] = _confirm(measures[measure], why)
    state.dogs[number] = EnquiryDog(
        name=told.name or dog.name,
        breeds=told.breeds or dog.breeds,
        sex=told.sex or dog.sex,
        age_months=told.age_months if told.age_months is not None else dog.age_months,
        posture=told.posture or dog.posture,
        space=told.space or dog.space,
        measures=measures,
    )
    return number


def _confirm(known: Known, why: Why) -> Known:
    taken = known.taken
    conflicting = () if why is Why.CONFLICT else taken.conflicting
    return replace(
        known,
        taken=replace(
            taken,
            conflicting=conflicting,
            hints=taken.hints - {why},
            vague=taken.vague and why is not Why.VAGUE,
            confirmed=taken.confirmed | {why},
        ),
    )


AGAIN_AFTER_DAYS = 7
"""A value told this many days after an older one is a new measurement, not a contradiction (a maker's judgement)."""


def _is_later(state: Folding, older: Known, event: MessageEvent) -> bool:
    then = state.times.get(older.source.message or "")
    return then is not None and event.sent_at is not None and (event.sent_at - then).days >= AGAIN_AFTER_DAYS


def _add_correction(state: Folding, event: CorrectionEvent) -> None:
    """What the maker sets counts until she sets it again, and is not doubted."""
    while len(state.dogs) <= event.dog:
        state.dogs.append(EnquiryDog())
    dog = state.dogs[event.dog]
    taken: Taken = replace(event.taken, confirmed=frozenset(Why))
    known = Known(
        taken=taken,
        source=Source(message=None, at=None, by_maker=True),
        unit="lb" if is_weight(event.measure) else "in",
        written=(taken.amount.low, taken.amount.high),
    )
    state.dogs[event.dog] = replace(dog, measures={**dog.measures, event.measure: known})
    state.unanswered = Topic.SIZING
