"""Enquiries: which there are, whose, and how often what was written in them has changed."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import Any

from sqlalchemy import Connection, RowMapping, Select, func, insert, select, update

from bot.message import Author, ChannelName
from bot.store.people import Customer
from bot.store.schema import correction, customer, enquiry, message


class EnquiryState(StrEnum):
    """Whether an enquiry is going on."""

    OPEN = "open"
    CLOSED = "closed"


@dataclass(frozen=True, slots=True, kw_only=True)
class EnquiryRow:
    """An enquiry without what is in it.

    revision   grows with everything that is written, corrected, split off or joined
    """

    id: int
    customer: Customer
    thread_key: str | None
    state: EnquiryState
    revision: int
    opened_at: datetime
    closed_at: datetime | None


def _all() -> Select[Any]:
    return select(enquiry, customer.c.channel, customer.c.address, customer.c.display_name).join_from(enquiry, customer)


def _row(row: RowMapping) -> EnquiryRow:
    who = Customer(
        id=row["customer_id"],
        channel=ChannelName(row["channel"]),
        address=row["address"],
        display_name=row["display_name"],
    )
    return EnquiryRow(
        id=row["id"],
        customer=who,
        thread_key=row["thread_key"],
        state=EnquiryState(row["state"]),
        revision=row["revision"],
        opened_at=row["opened_at"],
        closed_at=row["closed_at"],
    )


def find_enquiry(connection: Connection, enquiry_id: int) -> EnquiryRow | None:
    """Find an enquiry by its number."""
    row = connection.execute(_all().where(enquiry.c.id == enquiry_id)).mappings().one_or_none()
    return _row(row) if row else None


def of_thread(connection: Connection, customer_id: int, thread_key: str) -> EnquiryRow | None:
    """Find the newest enquiry of a customer in a thread."""
    wanted = (enquiry.c.customer_id == customer_id) & (enquiry.c.thread_key == thread_key)
    return _newest(connection, _all().where(wanted))


def newest_of(connection: Connection, customer_id: int, state: EnquiryState) -> EnquiryRow | None:
    """Find the newest enquiry of a customer that is in `state`."""
    wanted = (enquiry.c.customer_id == customer_id) & (enquiry.c.state == state)
    return _newest(connection, _all().where(wanted))


def _newest(connection: Connection, query: Select[Any]) -> EnquiryRow | None:
    row = connection.execute(query.order_by(enquiry.c.id.desc()).limit(1)).mappings().one_or_none()
    return _row(row) if row else None


def open_enquiries(connection: Connection) -> list[EnquiryRow]:
    """Give all enquiries that are going on, oldest first."""
    query = _all().where(enquiry.c.state == EnquiryState.OPEN).order_by(enquiry.c.id)
    return [_row(row) for row in connection.execute(query).mappings()]


def add_enquiry(connection: Connection, customer_id: int, thread_key: str | None, *, at: datetime) -> int:
    """Open an enquiry and give its number."""
    values = {"customer_id": customer_id, "thread_key": thread_key, "state": EnquiryState.OPEN, "revision": 0}
    added: int = connection.execute(insert(enquiry).values(**values, opened_at=at).returning(enquiry.c.id)).scalar_one()
    return added


def set_thread_key(connection: Connection, enquiry_id: int, thread_key: str) -> None:
    """Note the thread in which an enquiry goes on."""
    connection.execute(update(enquiry).where(enquiry.c.id == enquiry_id).values(thread_key=thread_key))


def close_enquiry(connection: Connection, enquiry_id: int, *, at: datetime) -> None:
    """Close an enquiry."""
    change = update(enquiry).where(enquiry.c.id == enquiry_id)
    connection.execute(change.values(state=EnquiryState.CLOSED, closed_at=at))


def reopen_enquiry(connection: Connection, enquiry_id: int) -> None:
    """Open a closed enquiry again."""
    change = update(enquiry).where(enquiry.c.id == enquiry_id)
    connection.execute(change.values(state=EnquiryState.OPEN, closed_at=None))


def move_on(connection: Connection, enquiry_id: int) -> int:
    """Count one change of what was written, and give the new revision."""
    change = update(enquiry).where(enquiry.c.id == enquiry_id).values(revision=enquiry.c.revision + 1)
    revision: int = connection.execute(change.returning(enquiry.c.revision)).scalar_one()
    return revision


def next_seq(connection: Connection, enquiry_id: int) -> int:
    """Give the place after everything that is in an enquiry: messages and corrections count together."""
    last = [
        connection.execute(select(func.max(table.c.seq)).where(table.c.enquiry_id == enquiry_id)).scalar()
        for table in (message, correction)
    ]
    return max(seq or 0 for seq in last) + 1


def quiet_since(connection: Connection, before: datetime) -> list[int]:
    """Give the open enquiries in which nobody has written since `before`."""
    heard = select(func.max(message.c.received_at)).where(message.c.enquiry_id == enquiry.c.id).scalar_subquery()
    wanted = (enquiry.c.state == EnquiryState.OPEN) & (heard < before)
    return list(connection.execute(select(enquiry.c.id).where(wanted).order_by(enquiry.c.id)).scalars())


def last_heard(connection: Connection, enquiry_id: int) -> datetime | None:
    """Give when the customer last wrote in an enquiry; None: never."""
    theirs = (message.c.enquiry_id == enquiry_id) & (message.c.author == Author.CUSTOMER)
    found = connection.execute(
        select(message.c.received_at).where(theirs).order_by(message.c.received_at.desc()).limit(1)
    )
    return found.scalar_one_or_none()
