"""What is stored with a draft: what it asks and lacks, why it was made, and the numbers that stood behind it."""

import hashlib
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from pydantic import TypeAdapter, ValidationError

from bot.errors import StoreError
from bot.json_lines import answer_line
from bot.workbench import Drafted
from replies.draft import Draft
from replies.reading.context import Asked


class Because(StrEnum):
    """Why a version of a draft was made."""

    WROTE = "wrote"
    CORRECTED = "corrected"
    CHANGED = "changed"
    SETTINGS = "settings"
    ASKED_FOR = "asked_for"
    REGROUPED = "regrouped"
    DAMAGED = "damaged"


IN_WORDS = {
    Because.WROTE: "the customer has written",
    Because.CORRECTED: "a measure was corrected",
    Because.CHANGED: "the text was changed",
    Because.SETTINGS: "your sizes, ease or wording, or tapeline itself, have changed",
    Because.ASKED_FOR: "a new draft was asked for",
    Because.REGROUPED: "messages were split off or joined",
    Because.DAMAGED: "the store is damaged there",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """What is stored with a draft.

    basis       mark of the text as it was drafted, before the maker changed it
    changed_by  the maker who wrote it in her own words; None: it is as drafted
    fault       what broke off while reading or drafting; None: nothing
    dogs        the state of the enquiry as in a rehearsal's line, for the record
    """

    basis: str
    because: Because
    asks: tuple[Asked, ...] = ()
    cautions: tuple[str, ...] = ()
    changed_by: str | None = None
    fault: str | None = None
    dogs: tuple[dict[str, Any], ...] = ()


_ADAPTER = TypeAdapter(Result)


def result_of(drafted: Drafted, because: Because) -> Result:
    """Give what is to be stored with a new draft."""
    ids = {message: message for message in drafted.enquiry.readings}
    try:
        dogs = answer_line("", drafted.enquiry, drafted.assessments, drafted.draft, ids).model_dump(mode="json")["dogs"]
    except ValueError:
        dogs = []  # reading broke off between the dogs and their assessments
    return Result(
        basis=basis_of(drafted.draft),
        because=because,
        asks=drafted.draft.asks,
        cautions=drafted.draft.cautions,
        fault=drafted.fault,
        dogs=tuple(dogs),
    )


def basis_of(draft: Draft) -> str:
    """Mark a text as drafted, so that it is known again."""
    return hashlib.sha256(f"{draft.kind}\n{draft.text}".encode("utf-8", "surrogatepass")).hexdigest()


def to_json(result: Result) -> str:
    """Write down what is stored with a draft."""
    return _ADAPTER.dump_json(result).decode()


def from_json(text: str) -> Result:
    """Read what was stored with a draft.

    Raises   StoreError when it is damaged
    """
    try:
        return _ADAPTER.validate_json(text)
    except ValidationError:  # which would repeat what stands there
        raise StoreError("the store is damaged: what it holds about a draft cannot be read") from None


def from_json_if_sound(text: str) -> Result | None:
    """Read what was stored with a draft; None: it is damaged."""
    try:
        return from_json(text)
    except StoreError:
        return None
