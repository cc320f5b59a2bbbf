"""The body of a question. It is given doubts and measures alone, so that no size can stand in it."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from replies.enquiry import Enquiry, EnquiryDog
from replies.reading.context import Asked
from replies.writing.naming import callings
from replies.writing.said import as_said, values_said
from replies.writing.wording import Wording, render
from sizing.doubt import Doubt
from sizing.measures import FIVE, Measure
from sizing.reasons import Why

CLOSE = 3.0
"""Two reasons for one measure whose odds are within this of one another are put into one question."""
_MANY = 3
"""From so many numbers on the tape is out for a while, and how the dog rides can be asked beside it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Part:
    """What a question says of one dog."""

    enquiry: Enquiry
    wording: Wording
    number: int
    calling: str
    asks: tuple[Asked, ...]
    doubts: tuple[Doubt, ...]

    @property
    def dog(self) -> EnquiryDog:
        return self.enquiry.dogs[self.number] if self.number < len(self.enquiry.dogs) else EnquiryDog()

    @property
    def taken(self) -> tuple[Measure, ...]:
        """The numbers to take with a tape or scales, in the order in which they are asked for."""
        return tuple(
            asked.measure
            for asked in self.asks
            if asked.why is not Why.UNIT and (asked.measure in FIVE or asked.why is not None)
        )

    def reasons(self, measure: Measure) -> list[Doubt]:
        """The doubts about a measure, the likeliest first."""
        return [doubt for doubt in self.doubts if doubt.measure is measure]

    def is_outright(self, measure: Measure) -> bool:
        """Whether the customer's own words, not the numbers, raise the doubt."""
        return any(doubt.odds == math.inf for doubt in self.reasons(measure)[:1])

    def text(self, name: str, **values: object) -> str:
        return render(self.wording, name, {"dog": self.calling, **values})

    def label(self, measure: Measure) -> str:
        return self.text("label.jinja", measure=measure.value)

    def number_said(self, measure: Measure) -> str:
        return self.text("measured.jinja", measure=measure.value, number=as_said(self.dog.measures[measure]))


def question_body(
    enquiry: Enquiry, asks: Sequence[Asked], doubts: Sequence[Sequence[Doubt]], *, place: str, wording: Wording
) -> str:
    """Write what is asked.

    asks     as `what_to_ask` gives it
    doubts   of each dog of the enquiry
    place    a marked place for the maker; "" for none
    Raises   WordingError
    """
    parts = [
        _Part(
            enquiry=enquiry,
            wording=wording,
            number=number,
            calling=calling,
            asks=tuple(asked for asked in asks if asked.dog == number),
            doubts=tuple(doubts[number]) if number < len(doubts) else (),
        )
        for number, calling in enumerate(callings(enquiry.dogs))
    ]
    several = len(parts) > 1
    taken = {measure for part in parts for measure in part.taken}
    calling = "the dog" if several else parts[0].calling
    values = {
        "fresh": not any(dog.measures for dog in enquiry.dogs),
        "weighed": {measure for dog in enquiry.dogs for measure in dog.measures} == {Measure.WEIGHT} and bool(taken),
        "several": several,
        "dogs": [_dog_values(part) for part in parts],
        "how": [_how(wording, measure, calling) for measure in Measure if measure in taken],
        "passing": next((passing for part in parts if (passing := _passing(part))), ""),
        "lengths": bool(taken - {Measure.WEIGHT}),
        "weights": Measure.WEIGHT in taken,
        "place": place,
    }
    return render(wording, "question.jinja", values)


def _dog_values(part: _Part) -> dict[str, Any]:
    known = part.dog.measures
    doubted = [asked for asked in part.asks if asked.why is not None and asked.measure in part.taken]
    again = [measure for measure in part.taken if measure in known and measure not in {one.measure for one in doubted}]
    open_here = {asked.measure for asked in part.asks} | {doubt.measure for doubt in part.doubts}
    return {
        "dog": part.calling,
        "ready": not part.asks,
        "known": [part.number_said(measure) for measure in FIVE if measure in known and measure not in open_here],
        "doubts": _doubt_sentences(part, doubted),
        "units": _unit_question(part),
        "ask": [part.label(measure) for measure in part.taken],
        "missing": len(part.taken) - len(doubted) - len(again),
        "doubted": len(doubted),
        "again": len(again),
    }


def _how(wording: Wording, measure: Measure, calling: str) -> dict[str, str]:
    values = {"measure": measure.value, "dog": calling}
    names = {"label": "label.jinja", "reason": "reason.jinja", "how_to": "how_to.jinja"}
    return {key: render(wording, name, values) for key, name in names.items()}


def _doubt_sentences(part: _Part, doubted: Sequence[Asked]) -> list[str]:
    """One sentence a doubt; numbers that changed places are one doubt, and so are all guesses together."""
    groups: dict[object, list[Asked]] = {}
    for asked in doubted:
        together = asked.why in (Why.SWAP, Why.VAGUE)
        groups.setdefault(asked.why if together else asked.measure, []).append(asked)
    return [_doubt_sentence(part, group) for group in groups.values()]


def _doubt_sentence(part: _Part, group: Sequence[Asked]) -> str:
    first = group[0]
    why = first.why or Why.SIZE
    known = part.dog.measures[first.measure]
    return part.text(
        f"doubts/{why.value}.jinja",
        label=part.label(first.measure),
        said=as_said(known),
        outright=part.is_outright(first.measure),
        labels=[part.label(asked.measure) for asked in group],
        numbers=[part.number_said(asked.measure) for asked in group],
        values=list(values_said(part.enquiry, part.number, first.measure)) if why is Why.CONFLICT else [],
        also=_also(part, group),
    )


def _also(part: _Part, group: Sequence[Asked]) -> str:
    """A second reason that is nearly as likely is put beside the first, so that one question covers both."""
    for asked in group:
        reasons = part.reasons(asked.measure)
        if len(reasons) > 1 and reasons[1].why is not Why.VAGUE and reasons[0].odds <= CLOSE * reasons[1].odds:
            return part.text(
                "doubts/also.jinja",
                why=reasons[1].why.value,
                label=part.label(asked.measure),
                other_unit=_other_unit(part, asked.measure),
            )
    return ""


def _other_unit(part: _Part, measure: Measure) -> str:
    unit = part.dog.measures[measure].unit
    if measure is Measure.WEIGHT:
        return "kilos" if unit in ("lb", "oz", "st") else "pounds"
    return "centimetres" if unit in ("in", "ft") else "inches"


def _unit_question(part: _Part) -> str:
    asks = [asked for asked in part.asks if asked.why is Why.UNIT]
    if not asks:
        return ""
    open_units = [asked.measure for asked in asks]
    weights = Measure.WEIGHT in open_units
    return part.text(
        "doubts/unit.jinja",
        numbers=[part.number_said(measure) for measure in open_units],
        lengths=len(open_units) > weights,
        weights=weights,
        also=_also(part, asks) if len(asks) == 1 else "",
    )


def _passing(part: _Part) -> str:
    """A question beside the numbers: the girth, else the breed, else how the dog rides."""
    return next((part.text(f"passing/{name}.jinja") for name, helps in _PASSING if helps(part)), "")


def _asks_girth(part: _Part) -> bool:
    return any(asked.measure is Measure.GIRTH and asked.why is None for asked in part.asks)


def _breed_helps(part: _Part) -> bool:
    doubted = [asked.measure for asked in part.asks if asked.why not in (None, Why.UNIT)]
    return not part.dog.breeds and not all(part.is_outright(measure) for measure in doubted)


def _posture_helps(part: _Part) -> bool:
    return part.dog.posture is None and len(part.taken) >= _MANY and not part.doubts


_PASSING: tuple[tuple[str, Callable[[_Part], bool]], ...] = (
    ("girth", _asks_girth),
    ("breed", _breed_helps),
    ("posture", _posture_helps),
)
