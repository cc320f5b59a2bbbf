"""Splits an enquiry in two and joins two in one, where the maker knows better which messages belong together."""

from collections.abc import Collection
from dataclasses import dataclass

from bot.approval import decision
from bot.approval.decision import Decider
from bot.desk import Desk
from bot.errors import DeclinedError
from bot.history import History, load_history
from bot.message import Author
from bot.result import Because
from bot.states import DepartureState, DraftEvent
from bot.store.database import Connection
from bot.store.drafts import add_decision, move_draft
from bot.store.enquiries import EnquiryState, add_enquiry, close_enquiry, move_on, next_seq, reopen_enquiry
from bot.store.messages import CorrectionRow, move_message, remove_corrections


@dataclass(frozen=True, slots=True, kw_only=True)
class Regrouped:
    """What came of it.

    enquiry     the new one of a split, the one that is left of a join
    set_again   measures that the maker had set and must set again: the order of the dogs may be another now
    """

    enquiry: int
    set_again: tuple[CorrectionRow, ...]


def split(desk: Desk, enquiry: int, messages: Collection[int], by: Decider) -> Regrouped:
    """Move some of the customer's messages into a new enquiry of hers; both are drafted anew.

    messages   their ids
    Raises     NotThereError for no such enquiry; DeclinedError where nothing would be left in one of the two, or a
               message is not the customer's
    """
    with desk.database.write() as connection:
        history = load_history(connection, enquiry)
        theirs = [row for row in history.messages if row.author is Author.CUSTOMER]
        moving = [row for row in theirs if row.id in messages]
        if len(moving) != len(set(messages)):
            raise DeclinedError(f"only the customer's own messages in enquiry {enquiry} can be split off")
        if not moving or len(moving) == len(theirs):
            raise DeclinedError("at least one message must move, and at least one must stay")
        new = add_enquiry(connection, history.enquiry.customer.id, None, at=desk.clock())
        removed = remove_corrections(connection, enquiry)
        for row in moving:
            move_message(connection, row.id, enquiry_id=new, seq=next_seq(connection, new))
        _note(connection, desk, history, by, "split")
        move_on(connection, enquiry)
        move_on(connection, new)
    desk.draft(enquiry, Because.REGROUPED)
    desk.draft(new)
    return Regrouped(enquiry=new, set_again=tuple(removed))


def join(desk: Desk, enquiry: int, other: int, by: Decider) -> Regrouped:
    """Move everything of `other` into `enquiry`, in the order in which it was written, and close `other`.

    Raises   NotThereError for no such enquiry; DeclinedError for the same one twice, for those of two customers, or
             while a text of either is still to go
    """
    if enquiry == other:
        raise DeclinedError("an enquiry cannot be joined with itself")
    with desk.database.write() as connection:
        into, rest = load_history(connection, enquiry), load_history(connection, other)
        if into.enquiry.customer.id != rest.enquiry.customer.id:
            raise DeclinedError("they are of two customers: the answer could reach the wrong one")
        if any(part.state is not DepartureState.HELD for part in (*into.unsettled, *rest.unsettled)):
            raise DeclinedError("a text is still on its way; wait until it has gone, or settle it")
        removed = [*remove_corrections(connection, enquiry), *remove_corrections(connection, other)]
        _put_together(connection, into, rest)
        decision.drop_what_waits(connection, other)
        if rest.waiting is not None:
            move_draft(connection, rest.waiting, DraftEvent.REPLACE)
        _note(connection, desk, rest, by, "join")
        close_enquiry(connection, other, at=desk.clock())
        if into.enquiry.state is EnquiryState.CLOSED:
            reopen_enquiry(connection, enquiry)
        move_on(connection, enquiry)
        move_on(connection, other)
    desk.draft(enquiry, Because.REGROUPED)
    return Regrouped(enquiry=enquiry, set_again=tuple(removed))


def _put_together(connection: Connection, into: History, rest: History) -> None:
    """Give every message of both its place in time."""
    after = next_seq(connection, into.enquiry.id) + next_seq(connection, rest.enquiry.id)
    rows = sorted((*into.messages, *rest.messages), key=lambda row: (row.received_at, row.seq))
    for seq, row in enumerate(rows, start=after):
        move_message(connection, row.id, enquiry_id=into.enquiry.id, seq=seq)


def _note(connection: Connection, desk: Desk, history: History, by: Decider, action: str) -> None:
    if history.drafts:
        last = history.drafts[-1].id
        add_decision(connection, last, maker=by.maker, surface=by.surface, action=action, at=desk.clock())
