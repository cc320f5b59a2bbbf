"""Reading, sizing and drafting of an enquiry as it stands: the same for a live enquiry and for a rehearsal. Pure."""

import traceback
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from bot.workshop import Workshop, judge
from replies.draft import Draft, DraftKind
from replies.enquiry import CorrectionEvent, Enquiry, Event, MessageEvent, SentEvent
from replies.errors import RepliesError
from replies.fold import fold
from replies.reading.facts import Reading, Topic
from sizing.assess import assess
from sizing.assessment import Assessment


@dataclass(frozen=True, slots=True, kw_only=True)
class Drafted:
    """An enquiry as it stands, what the engine says of its dogs, and the draft.

    fault   what broke off, in words; the draft is then an empty handover. None: nothing
    """

    enquiry: Enquiry
    assessments: tuple[Assessment, ...]
    draft: Draft
    fault: str | None = None


def draft_for(events: Sequence[Event], workshop: Workshop, on: date) -> Drafted:
    """Work out an enquiry from its events, oldest first.

    on        the day, which the answer bears
    Raises    nothing: whatever breaks off comes back as an empty handover with the fault named
    """
    enquiry = Enquiry(length_unit=workshop.shop.length_unit, weight_unit=workshop.shop.weight_unit)
    try:
        enquiry = fold(events, workshop.shop, workshop.words)
        judged = judge(enquiry, workshop, on)
    except Exception as error:  # whatever it is, the maker gets the messages, and what could be worked out of them
        empty = Draft(kind=DraftKind.HANDOVER)
        return Drafted(enquiry=enquiry, assessments=_assessed(enquiry, workshop, on), draft=empty, fault=_named(error))
    return Drafted(enquiry=enquiry, assessments=judged.assessments, draft=judged.draft)


def _assessed(enquiry: Enquiry, workshop: Workshop, on: date) -> tuple[Assessment, ...]:
    try:
        return tuple(assess(dog.for_sizing(), workshop.shop, on) for dog in enquiry.dogs)
    except Exception:  # the fault that came before is the one that is named
        return ()


def _since_last_sent(events: Sequence[Event]) -> Sequence[Event]:
    places = [place for place, event in enumerate(events) if isinstance(event, SentEvent)]
    return events[places[-1] + 1 :] if places else events


def says_something(reading: Reading) -> bool:
    """Tell whether a message holds anything to answer or to measure by: a "thanks!" does not."""
    told = reading.dogs or reading.other or reading.length_unit or reading.weight_unit
    return reading.topic is not Topic.NONE or bool(told)


def is_due(events: Sequence[Event], enquiry: Enquiry) -> bool:
    """Tell whether anything has come since the last text went out that calls for a draft."""
    for event in _since_last_sent(events):
        if isinstance(event, CorrectionEvent):
            return True
        if isinstance(event, MessageEvent):
            reading = enquiry.readings.get(event.id)
            if reading is None or says_something(reading):
                return True
    return False


def _named(error: Exception) -> str:
    """Name a fault by its kind and place. What a message says may be a customer's words; our own errors say none."""
    if isinstance(error, RepliesError):
        return str(error)
    frames = traceback.extract_tb(error.__traceback__)
    place = f" at {Path(frames[-1].filename).name}:{frames[-1].lineno}" if frames else ""
    return f"a fault of tapeline's own ({type(error).__name__}{place})"
