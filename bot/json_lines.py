"""The lines of a rehearsal, in and out: a fixed interface for other programs.

What a line needs (`id`, `text`) must be right; an optional field that cannot be used is left out, and said so. Lengths
are inches and weights pounds, whatever the shop works in.
"""

import json
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from pydantic import TypeAdapter, ValidationError

from bot.json_dog import DogOut, MeasureOut, Out, dog_out
from replies.draft import Draft
from replies.enquiry import Enquiry, EnquiryDog, Known, MessageEvent
from replies.reading.context import Channel
from sizing.assessment import Assessment
from sizing.measures import Measure


class BadLineError(ValueError):
    """A line that cannot be answered. `line_id` is the id that it carried, None where it had none."""

    def __init__(self, message: str, line_id: str | None = None) -> None:
        super().__init__(message)
        self.line_id = line_id


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One message of a rehearsal.

    conversation   None: the line stands alone
    asked          what had just been asked, in order; None: what the conversation knows
    left_out       what could not be used of it, in words for whoever made the file
    """

    id: str
    text: str
    conversation: str | None = None
    channel: Channel = Channel.CHAT
    subject: str = ""
    sent_at: datetime | None = None
    asked: tuple[Measure, ...] | None = None
    left_out: tuple[str, ...] = ()

    def event(self, key: str) -> MessageEvent:
        """Give it as an event of an enquiry, under a key that no other line of the rehearsal has."""
        return MessageEvent(
            id=key, text=self.text, channel=self.channel, sent_at=self.sent_at, subject=self.subject, asked=self.asked
        )


def read_line(raw: bytes) -> Line:
    """Read one line of a rehearsal.

    raw      UTF-8; not blank
    Raises   BadLineError: not JSON, not an object, no id or text, a number that is not finite
    """
    given = _read_object(raw)
    line_id = given.get("id") if isinstance(given.get("id"), str) else None
    for key in ("id", "text"):
        if not isinstance(given.get(key), str):
            fault = "is missing" if given.get(key) is None else "must be a text in quotes"
            raise BadLineError(f'"{key}" {fault}', line_id)
    left_out: list[str] = []
    return Line(
        id=given["id"],
        text=given["text"],
        conversation=_conversation(given.get("conversation"), left_out),
        channel=_channel(given.get("channel"), left_out),
        subject=_subject(given.get("subject"), left_out),
        sent_at=_sent_at(given.get("sent_at"), left_out),
        asked=_asked(given.get("asked"), left_out),
        left_out=tuple(left_out),
    )


def _read_object(raw: bytes) -> dict[str, Any]:
    numbers = _Numbers()
    try:
        given = json.loads(raw.decode("utf-8"), parse_constant=numbers.constant, parse_float=numbers.decimal)
    except UnicodeDecodeError as error:
        raise BadLineError(f"not UTF-8: byte {error.object[error.start]:#04x} at {error.start}") from error
    except (ValueError, RecursionError) as error:
        raise BadLineError(f"not JSON: {error}") from error
    if not isinstance(given, dict):
        raise BadLineError(f"not an object but {_kind(given)}")
    if numbers.bad is not None:
        line_id = given.get("id")
        raise BadLineError(
            f"{numbers.bad} is not a number that can be used", line_id if isinstance(line_id, str) else None
        )
    return given


class _Numbers:
    """Reads the numbers of one line, and remembers the first that is not finite."""

    def __init__(self) -> None:
        self.bad: str | None = None

    def constant(self, written: str) -> float:
        self.bad = self.bad or written
        return math.nan

    def decimal(self, written: str) -> float:
        value = float(written)
        return value if math.isfinite(value) else self.constant(written)


def _kind(value: object) -> str:
    names = {list: "a list", str: "a text", bool: "true or false", type(None): "null"}
    return names.get(type(value), "a number")


def _conversation(value: object, left_out: list[str]) -> str | None:
    if value is None or isinstance(value, str):
        return value
    if isinstance(value, int | float) and not isinstance(value, bool):
        return str(value)
    left_out.append(f'"conversation" is {_kind(value)}, so the line stands alone')
    return None


def _channel(value: object, left_out: list[str]) -> Channel:
    if value is None:
        return Channel.CHAT
    if isinstance(value, str) and value in {channel.value for channel in Channel}:
        return Channel(value)
    left_out.append(f'"channel" {value!r} is none of {", ".join(Channel)}, so it was read as chat')
    return Channel.CHAT


def _subject(value: object, left_out: list[str]) -> str:
    if value is None or isinstance(value, str):
        return value or ""
    left_out.append('"subject" is not a text, so it was left out')
    return ""


_TIME: TypeAdapter[datetime] = TypeAdapter(datetime)


def _sent_at(value: object, left_out: list[str]) -> datetime | None:
    """A time without a zone is taken as UTC."""
    if value is None:
        return None
    try:
        time = _TIME.validate_python(value)
        return time.replace(tzinfo=UTC) if time.tzinfo is None else time.astimezone(UTC)
    except (ValidationError, OverflowError, ValueError):
        left_out.append(f'"sent_at" {value!r} is no time such as 2026-03-01T09:00:00Z, so it was left out')
        return None


def _asked(value: object, left_out: list[str]) -> tuple[Measure, ...] | None:
    if value is None:
        return None
    if not isinstance(value, list):
        left_out.append('"asked" is not a list, so it was left out')
        return None
    known = {measure.value: measure for measure in Measure}
    given = [entry if isinstance(entry, str) else repr(entry) for entry in value]
    names = ", ".join(known)
    left_out += [f'"asked" holds {entry!r}, which is none of {names}' for entry in given if entry not in known]
    return tuple(known[entry] for entry in given if entry in known)


class DraftOut(Out):
    """The draft."""

    kind: str
    text: str


class LineOut(Out):
    """What a rehearsal gives for one line."""

    id: str
    topic: str
    also_other: bool
    dogs: list[DogOut]
    draft: DraftOut


class ErrorOut(Out):
    """What a rehearsal gives for a line that it cannot answer."""

    id: str | None
    error: str


def answer_line(
    line_id: str, enquiry: Enquiry, assessments: Sequence[Assessment], draft: Draft, ids: Mapping[str, str]
) -> LineOut:
    """Give what is to be said to one line.

    assessments   one a dog of the enquiry, in order
    ids           from the enquiry's message ids to those of the lines
    """
    dogs = [_dog_out(dog, one, ids) for dog, one in zip(enquiry.dogs, assessments, strict=True)]
    return LineOut(
        id=line_id,
        topic=enquiry.topic,
        also_other=enquiry.also_other,
        dogs=dogs,
        draft=DraftOut(kind=draft.kind, text=draft.text),
    )


def _dog_out(dog: EnquiryDog, assessment: Assessment, ids: Mapping[str, str]) -> DogOut:
    measures = {measure.value: _measure_out(known, ids) for measure, known in dog.measures.items()}
    return dog_out(dog.name, measures, assessment)


def _measure_out(known: Known, ids: Mapping[str, str]) -> MeasureOut:
    amount, source = known.taken.amount, known.source
    return MeasureOut(
        low=amount.low,
        high=amount.high,
        words=source.at.words if source.at else None,
        span=(source.at.start, source.at.end) if source.at else None,
        message=ids[source.message] if source.message is not None else None,
    )
