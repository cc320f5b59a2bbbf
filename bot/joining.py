"""Which enquiry a message belongs to.

That of the message it answers, else of its thread, else the customer's newest open one, else the newest closed one if
it was not closed too long ago (whether that opens again is seen when the message is read), else a new one.
"""

from datetime import datetime, timedelta

from bot.message import Incoming
from bot.store.database import Connection
from bot.store.enquiries import (
    EnquiryRow,
    EnquiryState,
    add_enquiry,
    find_enquiry,
    last_heard,
    newest_of,
    of_thread,
)
from bot.store.messages import find_message
from bot.store.people import Customer, add_customer, find_customer, rename_customer


def customer_of(connection: Connection, incoming: Incoming) -> Customer:
    """Give who wrote a message (or was written to by the maker), added where nobody knew her yet."""
    known = find_customer(connection, incoming.channel, incoming.address)
    if known is None:
        return add_customer(connection, incoming.channel, incoming.address, display_name=incoming.display_name)
    if incoming.display_name and incoming.display_name != known.display_name:
        rename_customer(connection, known.id, incoming.display_name)
    return known


def enquiry_for(connection: Connection, incoming: Incoming, *, at: datetime, reopen_days: int) -> int:
    """Give the enquiry that a message joins, opened where there is none.

    reopen_days   a closed enquiry takes new messages for so many days after the customer's last
    """
    customer = customer_of(connection, incoming)
    found = (
        _answered(connection, incoming, customer)
        or _in_thread(connection, incoming, customer)
        or newest_of(connection, customer.id, EnquiryState.OPEN)
        or _lately_closed(connection, customer, at - timedelta(days=reopen_days))
    )
    return found.id if found else add_enquiry(connection, customer.id, incoming.thread_key, at=at)


def _answered(connection: Connection, incoming: Incoming, customer: Customer) -> EnquiryRow | None:
    if incoming.reply_to is None:
        return None
    answered = find_message(connection, incoming.channel, incoming.account, external_id=incoming.reply_to)
    found = find_enquiry(connection, answered.enquiry_id) if answered else None
    # An id can be made up: nobody gets into another customer's enquiry by naming one of its messages.
    return found if found and found.customer.id == customer.id else None


def _in_thread(connection: Connection, incoming: Incoming, customer: Customer) -> EnquiryRow | None:
    return of_thread(connection, customer.id, incoming.thread_key) if incoming.thread_key else None


def _lately_closed(connection: Connection, customer: Customer, since: datetime) -> EnquiryRow | None:
    closed = newest_of(connection, customer.id, EnquiryState.CLOSED)
    if closed is None:
        return None
    heard = last_heard(connection, closed.id) or closed.opened_at
    return closed if heard >= since else None
