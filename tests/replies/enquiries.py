"""Invented enquiries for tests: what customers told, drafted by the real engine and the real wording."""

from collections.abc import Iterable, Mapping
from datetime import date

from replies.draft import Draft
from replies.drafting import draft
from replies.enquiry import Enquiry, EnquiryDog, Known, MessageEvent, Source
from replies.reading.context import Channel
from replies.reading.facts import Passage, Topic
from replies.writing.wording import Signature, Wording, make_wording
from sizing.assess import assess
from sizing.chart import Shop, builtin_shop
from sizing.measures import Amount, Measure, Taken
from sizing.reasons import Why
from sizing.units import WEIGHT_UNITS, to_inches, to_pounds

ON = date(2026, 3, 2)
SIGNATURE = Signature(maker_name="Maren", shop_name="Lantern Row workshop")
WORDING = make_wording(SIGNATURE)


def told(
    low: float,
    unit: str = "in",
    *,
    high: float | None = None,
    words: str | None = None,
    stated: bool = True,
    hedged: bool = False,
    vague: bool = False,
    conflicting: Iterable[float] = (),
    hints: Iterable[Why] = (),
    by_maker: bool = False,
) -> Known:
    """A measure as a customer told it; `conflicting` in the same unit."""
    convert = to_pounds if unit in WEIGHT_UNITS else to_inches
    top = low if high is None else high
    taken = Taken(
        amount=Amount(low=convert(low, unit), high=convert(top, unit)),
        unit_stated=stated,
        hedged=hedged,
        vague=vague,
        conflicting=tuple(Amount.exactly(convert(value, unit)) for value in conflicting),
        hints=frozenset(hints),
    )
    at = Passage(start=0, end=len(words), words=words) if words is not None else None
    source = Source(message=None if by_maker else "1", at=at, by_maker=by_maker)
    return Known(taken=taken, source=source, unit=unit, written=(low, top))


def dog(name: str | None = None, *, units: str = "in lb", **measures: float | Known) -> EnquiryDog:
    """A dog with the measures that are named; plain numbers are in `units`."""
    length_unit, weight_unit = units.split()
    known = {
        Measure(key): value
        if isinstance(value, Known)
        else told(value, weight_unit if key == "weight" else length_unit)
        for key, value in measures.items()
    }
    return EnquiryDog(name=name, measures=known)


def enquiry(
    *dogs: EnquiryDog,
    topic: Topic = Topic.SIZING,
    units: str = "in lb",
    other: str = "",
    channel: Channel = Channel.CHAT,
    **more: object,
) -> Enquiry:
    """An enquiry with one unanswered message."""
    length_unit, weight_unit = units.split()
    values: Mapping[str, object] = {
        "topic": topic,
        "unanswered": topic,
        "also_other": bool(other) and topic is Topic.SIZING,
        "other": (("1", Passage(start=0, end=len(other), words=other)),) if other else (),
        "last": MessageEvent(id="1", text="", channel=channel),
        **more,
    }
    return Enquiry(dogs=dogs, length_unit=length_unit, weight_unit=weight_unit, **values)  # type: ignore[arg-type]


def drafted(given: Enquiry, *, shop: Shop | None = None, wording: Wording = WORDING) -> Draft:
    """The draft for an enquiry, its dogs assessed by the engine."""
    shop = shop or builtin_shop()
    return draft(given, [assess(one.for_sizing(), shop, ON) for one in given.dogs], shop, wording, ON)
