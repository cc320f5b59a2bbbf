"""What waits for the maker, the oldest first: drafts to decide, texts to copy, and texts that need a word from her."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum

from bot.message import ChannelName
from bot.states import DepartureState
from bot.store.database import Connection, Database
from bot.store.drafts import drafts_of, waiting_drafts
from bot.store.enquiries import EnquiryRow, EnquiryState, find_enquiry, last_heard
from bot.store.messages import unread
from bot.store.parts import Part, parts_in
from replies.draft import DraftKind


class Needs(StrEnum):
    """What the maker has to do."""

    DECIDE = "decide"
    """A draft waits for her decision."""
    COPY = "copy"
    """An approved text of a pasted enquiry is there to copy."""
    HELD = "held"
    """An approved text was held: let it go, or drop it."""
    UNSURE = "unsure"
    """Nobody knows whether a text went: look, and say so."""
    FAILED = "failed"
    """A text will never go: reach the customer another way."""
    UNREAD = "unread"
    """Messages came in and will be read in a moment."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """One thing that waits.

    number   of the draft, such as 7.3; "" where there is none yet
    kind     of the draft; None where there is none yet
    why      more about it, in words; "": nothing more
    since    when the customer last wrote; None: never
    """

    needs: Needs
    enquiry: int
    number: str
    kind: DraftKind | None
    customer: str = field(repr=False)
    channel: ChannelName
    why: str
    since: datetime | None


_STATES = {
    DepartureState.HELD: Needs.HELD,
    DepartureState.UNSURE: Needs.UNSURE,
    DepartureState.FAILED: Needs.FAILED,
}


def what_waits(database: Database) -> list[Waiting]:
    """Give everything that waits for the maker, one line a draft."""
    with database.read() as connection:
        found = [*_drafts(connection), *_departures(connection), *_unread(connection)]
    unique = {(one.needs, one.enquiry, one.number): one for one in reversed(found)}
    return sorted(unique.values(), key=lambda one: (one.since is None, one.since, one.enquiry, one.number))


def _drafts(connection: Connection) -> Iterator[Waiting]:
    for row in waiting_drafts(connection):
        yield _line(connection, Needs.DECIDE, row.enquiry_id, number=row.number, kind=row.kind)


def _departures(connection: Connection) -> Iterator[Waiting]:
    for part in parts_in(connection, [DepartureState.QUEUED, *_STATES]):
        needs = _needs(connection, part)
        if needs is not None:
            number = f"{part.enquiry_id}.{part.version}"
            kind = next(row.kind for row in drafts_of(connection, part.enquiry_id) if row.id == part.draft_id)
            yield _line(connection, needs, part.enquiry_id, number=number, kind=kind, why=part.error or "")


def _needs(connection: Connection, part: Part) -> Needs | None:
    if part.state is DepartureState.QUEUED:
        return Needs.COPY if part.channel is ChannelName.PASTE else None
    if part.state is DepartureState.FAILED and _is_over(connection, part):
        return None
    return _STATES[part.state]


def _is_over(connection: Connection, part: Part) -> bool:
    """A failure is news until the enquiry is closed or something newer was drafted in it."""
    enquiry = find_enquiry(connection, part.enquiry_id)
    closed = enquiry is None or enquiry.state is EnquiryState.CLOSED
    return closed or drafts_of(connection, part.enquiry_id)[-1].id != part.draft_id


def _unread(connection: Connection) -> Iterator[Waiting]:
    for enquiry, _, _ in unread(connection):
        yield _line(connection, Needs.UNREAD, enquiry)


def _line(
    connection: Connection,
    needs: Needs,
    enquiry_id: int,
    *,
    number: str = "",
    kind: DraftKind | None = None,
    why: str = "",
) -> Waiting:
    enquiry = find_enquiry(connection, enquiry_id)
    assert isinstance(enquiry, EnquiryRow)  # noqa: S101 - drafts and messages belong to one
    return Waiting(
        needs=needs,
        enquiry=enquiry_id,
        number=number,
        kind=kind,
        customer=enquiry.customer.display_name,
        channel=enquiry.customer.channel,
        why=why,
        since=last_heard(connection, enquiry_id),
    )
