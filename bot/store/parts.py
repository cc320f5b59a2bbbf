"""Departures in the store: the parts of approved texts, each with its own state."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, RowMapping, Select, insert, select, update

from bot.message import ChannelName
from bot.states import DepartureEvent, DepartureState, next_departure
from bot.store.schema import customer, departure, draft, enquiry


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One part of an approved text on its way.

    part         from 1
    not_before   it is not tried before
    key          unique for all time
    error        what the channel said last; None: nothing
    message_id   the message of the enquiry that it becomes; None until it was claimed
    """

    id: int
    draft_id: int
    enquiry_id: int
    version: int
    channel: ChannelName
    part: int
    address: str = field(repr=False)
    reply_to: str | None
    text: str = field(repr=False)
    state: DepartureState
    attempts: int
    not_before: datetime
    key: str
    claimed_at: datetime | None
    external_id: str | None
    error: str | None
    message_id: int | None


def _all() -> Select[Any]:
    return (
        select(departure, draft.c.enquiry_id, draft.c.version, customer.c.channel)
        .join_from(departure, draft, departure.c.draft_id == draft.c.id)
        .join(enquiry, draft.c.enquiry_id == enquiry.c.id)
        .join(customer, enquiry.c.customer_id == customer.c.id)
    )


def _row(row: RowMapping) -> Part:
    return Part(**dict(row) | {"state": DepartureState(row["state"]), "channel": ChannelName(row["channel"])})


def _rows(connection: Connection, query: Select[Any]) -> list[Part]:
    ordered = query.order_by(departure.c.draft_id, departure.c.part)
    return [_row(row) for row in connection.execute(ordered).mappings()]


def add_parts(
    connection: Connection,
    draft_id: int,
    texts: Sequence[str],
    *,
    keys: Sequence[str],
    address: str,
    reply_to: str | None,
    at: datetime,
) -> None:
    """Queue the parts of an approved text, to go at once and in order."""
    rows = [
        {
            "draft_id": draft_id,
            "part": number,
            "address": address,
            "reply_to": reply_to,
            "text": text,
            "state": DepartureState.QUEUED,
            "attempts": 0,
            "not_before": at,
            "key": key,
        }
        for number, (text, key) in enumerate(zip(texts, keys, strict=True), start=1)
    ]
    connection.execute(insert(departure), rows)


def parts_of_draft(connection: Connection, draft_id: int) -> list[Part]:
    """Give the parts of a draft, in order."""
    return _rows(connection, _all().where(departure.c.draft_id == draft_id))


def parts_of_enquiry(connection: Connection, enquiry_id: int) -> list[Part]:
    """Give all parts of an enquiry's texts, in order."""
    return _rows(connection, _all().where(draft.c.enquiry_id == enquiry_id))


def parts_of_messages(connection: Connection, message_ids: Sequence[int]) -> list[Part]:
    """Give the parts that became these messages, of whichever enquiry's drafts they were."""
    return _rows(connection, _all().where(departure.c.message_id.in_(message_ids)))


def parts_in(connection: Connection, states: Sequence[DepartureState]) -> list[Part]:
    """Give all parts that are in one of `states`, in order."""
    return _rows(connection, _all().where(departure.c.state.in_(states)))


def part_by_id(connection: Connection, part_id: int) -> Part | None:
    """Find a part by its id."""
    found = _rows(connection, _all().where(departure.c.id == part_id))
    return found[0] if found else None


def part_by_key(connection: Connection, key: str) -> Part | None:
    """Find a part by its key."""
    found = _rows(connection, _all().where(departure.c.key == key))
    return found[0] if found else None


def due_parts(connection: Connection, channels: Sequence[ChannelName], *, at: datetime) -> list[Part]:
    """Give the parts that may go now: queued, due, and nothing of the same enquiry on its way before them."""
    earlier, earlier_draft = departure.alias(), draft.alias()
    settled = (DepartureState.GONE, DepartureState.DROPPED, DepartureState.FAILED)
    before = (earlier_draft.c.id < departure.c.draft_id) | (
        (earlier_draft.c.id == departure.c.draft_id) & (earlier.c.part < departure.c.part)
    )
    blocked = (
        select(earlier.c.id)
        .join_from(earlier, earlier_draft, earlier.c.draft_id == earlier_draft.c.id)
        .where(earlier_draft.c.enquiry_id == draft.c.enquiry_id, before, earlier.c.state.not_in(settled))
        .exists()
    )
    wanted = (departure.c.state == DepartureState.QUEUED) & (departure.c.not_before <= at)
    return _rows(connection, _all().where(wanted, customer.c.channel.in_(channels), ~blocked))


def next_due(connection: Connection, channels: Sequence[ChannelName]) -> datetime | None:
    """Give when the next queued part is due; None: none is queued."""
    wanted = (departure.c.state == DepartureState.QUEUED) & customer.c.channel.in_(channels)
    query = _all().with_only_columns(departure.c.not_before).where(wanted).order_by(departure.c.not_before).limit(1)
    return connection.execute(query).scalar_one_or_none()


def move_part(connection: Connection, row: Part, event: DepartureEvent, **values: Any) -> bool:  # noqa: ANN401
    """Take a part to the state that follows `event`, and set further columns with it.

    Returns   False where it no longer stands as `row` says; then nothing has moved
    Raises    NotAllowedError where the table of states has no such change
    """
    after = next_departure(row.state, event)
    change = update(departure).where((departure.c.id == row.id) & (departure.c.state == row.state))
    return connection.execute(change.values(state=after, **values)).rowcount == 1


def note_error(connection: Connection, part_id: int, error: str | None) -> None:
    """Say in words why a part stands where it stands; None: there is nothing to say."""
    connection.execute(update(departure).where(departure.c.id == part_id).values(error=error))
