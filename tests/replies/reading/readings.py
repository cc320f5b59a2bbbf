"""What is read in a message, written short: {"length": "12 in", "width": "5"}, and what was set aside."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from replies.reading.context import Asked, Channel, Context, KnownDog
from replies.reading.facts import DogReading, Fact, Manner, Reading
from replies.reading.read import read
from replies.reading.words import load_words
from sizing.measures import Amount, Measure
from sizing.reasons import Why


def reading(text: str, **context: Any) -> Reading:
    return read(text, context_of(**context), load_words())


def context_of(
    channel: str = "chat",
    asked: Iterable[str] = (),
    dogs: Iterable[KnownDog] = (),
    shop: str = "in lb",
    *,
    first: bool = True,
) -> Context:
    """Asked is written "width", "width/girth" where a doubt was asked about, "2 width" for the second dog."""
    length_unit, weight_unit = shop.split()
    return Context(
        channel=Channel(channel),
        asked=tuple(map(_asked, asked)),
        dogs=tuple(dogs),
        length_unit=length_unit,
        weight_unit=weight_unit,
        first=first,
    )


def _asked(words: str) -> Asked:
    dog, _, rest = words.rpartition(" ")
    measure, _, why = rest.partition("/")
    return Asked(measure=Measure(measure), dog=int(dog or 1) - 1, why=Why(why) if why else None)


def known(name: str | None = None, units: str | None = None, **measures: float) -> KnownDog:
    """A dog as it stands: inches and pounds."""
    length_unit, weight_unit = units.split() if units else (None, None)
    amounts: Mapping[Measure, Amount] = {Measure(key): Amount.exactly(value) for key, value in measures.items()}
    return KnownDog(name=name, measures=amounts, length_unit=length_unit, weight_unit=weight_unit)


def dogs(text: str, **context: Any) -> list[dict[str, str]]:
    """Each dog with its name, if it has one, and its measures."""
    before = context_of(**context).dogs
    return [
        {**_named(dog, before), **{fact.measure.value: written(fact) for fact in dog.facts}}
        for dog in reading(text, **context).dogs
    ]


def _named(dog: DogReading, before: Sequence[KnownDog]) -> dict[str, str]:
    name = dog.name or (before[dog.known].name if dog.known is not None else None)
    return {"name": name} if name else {}


def measures(text: str, **context: Any) -> dict[str, str]:
    """The measures of the only dog, {} for none."""
    found = dogs(text, **context)
    assert len(found) <= 1
    return {key: value for dog in found for key, value in dog.items() if key != "name"}


def written(fact: Fact) -> str:
    low, high = fact.written.low, fact.written.high
    value = f"{low:.5g}" if low == high else f"{low:.5g}-{high:.5g}"
    unit = [fact.unit] if fact.unit_stated else []
    told = [
        *(["about"] if fact.hedged and not fact.vague else []),
        *(["vague"] if fact.vague else []),
        *sorted(fact.hints),
        *(["conflict"] if fact.conflicting else []),
        *([fact.manner.value] if fact.manner in (Manner.CORRECTION, Manner.AGAIN) else []),
    ]
    return " ".join([value, *unit, *told])


def aside(text: str, **context: Any) -> dict[str, str]:
    """The numbers that were set aside, each with the reason."""
    return {one.at.words: one.why.value for one in reading(text, **context).aside}
