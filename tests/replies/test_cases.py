"""Messages as customers write them, with what is to be read in them.

The cases are data, in cases/*.toml. Each holds one message, or a conversation in turns, and what is known after the
last message: values in the customer's own unit, where she told one.
"""

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from replies.enquiry import Enquiry, Known, MessageEvent, SentEvent
from replies.fold import fold
from replies.reading.context import Asked, Channel
from replies.reading.words import load_words
from sizing.chart import builtin_shop
from sizing.measures import Amount, Measure
from sizing.reasons import Why
from sizing.units import from_inches, from_pounds, is_weight

CASES = Path(__file__).parent / "cases"


def read_cases() -> Iterator[Any]:
    for path in sorted(CASES.glob("*.toml")):
        for number, case in enumerate(tomllib.loads(path.read_text(encoding="utf-8"))["case"], start=1):
            yield pytest.param(case, id=f"{path.stem}-{number:03}")


ALL = list(read_cases())


def events_of(case: dict[str, Any]) -> list[MessageEvent | SentEvent]:
    channel = Channel(case.get("channel", "chat"))
    before = tuple(map(Measure, case["asked"])) if "asked" in case else None
    events: list[MessageEvent | SentEvent] = []
    for number, turn in enumerate(case.get("turns") or [f"customer: {case['text']}"]):
        who, _, words = turn.partition(": ")
        if who == "asked":
            events.append(SentEvent(asks=tuple(map(asked, filter(None, words.split(", "))))))
        else:
            events.append(MessageEvent(id=str(number), text=words, channel=channel, asked=before))
    return events


def heard(case: dict[str, Any]) -> Enquiry:
    return fold(events_of(case), builtin_shop(), load_words())


def asked(words: str) -> Asked:
    """Read "2 width/girth": the width of the second dog, which may be a girth."""
    dog, measure = words.split(" ")
    measure, _, why = measure.partition("/")
    return Asked(dog=int(dog) - 1, measure=Measure(measure), why=Why(why) if why else None)


def told(measure: Measure, known: Known) -> str:
    """A value in the customer's own unit, if any, with what makes it doubtful: "37 or 39 cm, vague"."""
    taken = known.taken
    others = [written(measure, amount, known.unit) for amount in taken.conflicting]
    own = span(*known.written)
    text = " or ".join([own, *(other for other in others if other != own)])
    unit = [known.unit] if taken.unit_stated else []
    doubts = [*(["vague"] if taken.vague else []), *sorted(hint.value for hint in taken.hints)]
    return ", ".join([" ".join([text, *unit]), *doubts])


def written(measure: Measure, amount: Amount, unit: str) -> str:
    back = from_pounds if is_weight(measure) else from_inches
    return span(back(amount.low, unit), back(amount.high, unit))


def span(low: float, high: float) -> str:
    return f"{low:.5g}" if low == high else f"{low:.5g}-{high:.5g}"


def known_of(enquiry: Enquiry) -> list[dict[str, str]]:
    return [
        {
            **({"name": dog.name} if dog.name else {}),
            **{measure.value: told(measure, dog.measures[measure]) for measure in Measure if measure in dog.measures},
        }
        for dog in enquiry.dogs
    ]


@pytest.mark.parametrize("case", ALL)
def test_a_message_is_read_as_it_was_meant(case: dict[str, Any]) -> None:
    enquiry = heard(case)

    assert known_of(enquiry) == case.get("dogs", [])
    assert enquiry.topic.value == case.get("topic", "sizing")
    assert enquiry.also_other == case.get("also_other", False)


@pytest.mark.parametrize("case", ALL)
def test_values_and_numbers_set_aside_stand_in_the_message_as_it_came(case: dict[str, Any]) -> None:
    texts = {event.id: event.text for event in events_of(case) if isinstance(event, MessageEvent)}

    for key, reading in heard(case).readings.items():
        facts = [fact for dog in reading.dogs for fact in dog.facts]
        passages = [*(fact.at for fact in facts), *(aside.at for aside in reading.aside), *reading.other]
        passages += [fact.label for fact in facts if fact.label]
        assert [at.words for at in passages] == [texts[key][at.start : at.end] for at in passages]
