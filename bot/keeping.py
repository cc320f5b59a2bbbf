"""Keeps what comes in before anybody reads it: a message once, its edits as revisions.

A text that was approved and has not begun to go is held as soon as the customer writes again.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime

from bot.joining import enquiry_for
from bot.message import Attachment, Author, Edit, Incoming
from bot.states import DepartureEvent, DepartureState, DraftEvent
from bot.store.database import Connection
from bot.store.drafts import move_draft, waiting_draft
from bot.store.enquiries import move_on, next_seq
from bot.store.messages import MessageRow, ReadingState, add_message, find_message, revise_message
from bot.store.parts import Part, move_part, parts_of_enquiry
from bot.store.people import find_customer

UNREAD = "the customer wrote again; not read yet"
WROTE_AGAIN = "the customer wrote again"
BY_HAND = "you wrote to the customer yourself"

_BEGUN = frozenset({DepartureState.GOING, DepartureState.GONE, DepartureState.UNSURE, DepartureState.FAILED})


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """What became of a message that came in.

    new   False: it had been kept before, and nothing has changed
    """

    enquiry: int
    new: bool


def keep(connection: Connection, incoming: Incoming, *, at: datetime, reopen_days: int) -> Kept | None:
    """Keep a message, once.

    Returns   None for a message of the maker's to somebody who never wrote: that is no enquiry
    """
    incoming = _sound(incoming)
    known = find_message(connection, incoming.channel, incoming.account, external_id=incoming.external_id)
    if known is not None:
        return Kept(enquiry=known.enquiry_id, new=False)
    by_maker = incoming.author is Author.MAKER
    if by_maker and find_customer(connection, incoming.channel, incoming.address) is None:
        return None
    enquiry = enquiry_for(connection, incoming, at=at, reopen_days=reopen_days)
    state = ReadingState.KEPT if incoming.author is Author.CUSTOMER else ReadingState.READ
    seq = next_seq(connection, enquiry)
    add_message(connection, incoming, enquiry_id=enquiry, seq=seq, at=at, state=state)
    _moved(connection, enquiry, by_maker=by_maker)
    return Kept(enquiry=enquiry, new=True)


def keep_edit(connection: Connection, edit: Edit, *, at: datetime) -> Kept | None:
    """Keep the new text of a message, or that it was deleted.

    Returns   None for a message that was never kept
    """
    known = find_message(connection, edit.channel, edit.account, external_id=edit.external_id)
    if known is None:
        return None
    text = None if edit.text is None else sound_text(edit.text)
    if _says_the_same(known, text):
        return Kept(enquiry=known.enquiry_id, new=False)
    unread = known.author is Author.CUSTOMER
    revise_message(connection, known.id, text, at=at, state=ReadingState.KEPT if unread else ReadingState.READ)
    if unread:
        _moved(connection, known.enquiry_id, by_maker=False)
    return Kept(enquiry=known.enquiry_id, new=True)


def hold(connection: Connection, parts: Iterable[Part], why: str) -> None:
    """Hold what was approved and has not begun to go; half a text is not left standing, so its rest goes on."""
    parts = list(parts)
    begun = {part.draft_id for part in parts if part.state in _BEGUN}
    for part in parts:
        if part.state is DepartureState.QUEUED and part.draft_id not in begun:
            move_part(connection, part, DepartureEvent.HOLD, error=why)


def _moved(connection: Connection, enquiry: int, *, by_maker: bool) -> None:
    move_on(connection, enquiry)
    hold(connection, parts_of_enquiry(connection, enquiry), BY_HAND if by_maker else UNREAD)
    waiting = waiting_draft(connection, enquiry) if by_maker else None
    if waiting is not None:
        move_draft(connection, waiting, DraftEvent.REPLACE)


def _says_the_same(known: MessageRow, text: str | None) -> bool:
    return known.deleted if text is None else (known.text == text and not known.deleted)


def _sound(incoming: Incoming) -> Incoming:
    """What no store can hold becomes a replacement character; each stays one character, so that places still fit."""
    return replace(
        incoming,
        text=sound_text(incoming.text),
        subject=sound_text(incoming.subject),
        display_name=sound_text(incoming.display_name),
        address=sound_text(incoming.address),
        external_id=sound_text(incoming.external_id),
        attachments=tuple(_sound_file(one) for one in incoming.attachments),
    )


def _sound_file(file: Attachment) -> Attachment:
    return replace(file, name=sound_text(file.name), type=sound_text(file.type))


def sound_text(text: str) -> str:
    """Give a text as every store and channel can hold it: no half characters, no null."""
    whole = text.encode("utf-16", "surrogatepass").decode("utf-16", "replace")  # joins the two halves of a character
    return whole.replace("\0", "\N{REPLACEMENT CHARACTER}")
