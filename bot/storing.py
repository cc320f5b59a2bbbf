"""Stores what reading and drafting came to: which messages are read, and whether a new version of the draft is due.

"Thanks!" makes nothing due: a waiting draft stays, an approved one that was held for it goes on, a closed enquiry stays
closed.
"""

from collections.abc import Sequence
from dataclasses import replace

from bot.history import History, events_of
from bot.keeping import UNREAD, WROTE_AGAIN
from bot.message import Author
from bot.result import Because, basis_of, from_json_if_sound, result_of, to_json
from bot.states import DepartureEvent, DepartureState, DraftEvent, DraftState
from bot.store.database import Connection
from bot.store.drafts import DraftRow, add_draft, move_draft, restamp_draft
from bot.store.enquiries import EnquiryState, reopen_enquiry
from bot.store.messages import MessageRow, ReadingState, set_reading_state
from bot.store.parts import move_part, note_error
from bot.workbench import Drafted, is_due, says_something
from replies.draft import Draft, DraftKind


def store_draft(
    connection: Connection, history: History, drafted: Drafted, *, because: Because, fingerprint: str
) -> DraftRow | None:
    """Store what an enquiry comes to; `history` is what it was worked out from and still stands.

    Returns   the draft that waits now; None: none does
    """
    news = [row for row in history.unread if _is_news(row, drafted)]
    _mark_read(connection, history, drafted)
    _settle_held(connection, history, bool(news))
    if history.enquiry.state is EnquiryState.CLOSED:
        if not news and because in (Because.WROTE, Because.SETTINGS):
            return None
        reopen_enquiry(connection, history.enquiry.id)
    drafted = replace(drafted, draft=_with_files_shown(drafted.draft, news))
    if history.waiting is None and not _is_due(history, news, drafted, because):
        return None
    if drafted.draft.kind is DraftKind.NONE:
        if history.waiting is not None:
            move_draft(connection, history.waiting, DraftEvent.REPLACE)
        return None
    if history.waiting is not None and _still_holds(history.waiting, drafted, fingerprint):
        return _restamped(connection, history, history.waiting)
    return _next_version(connection, history, drafted, because=because, fingerprint=fingerprint)


def _is_news(row: MessageRow, drafted: Drafted) -> bool:
    if row.author is not Author.CUSTOMER or row.deleted:
        return False
    reading = drafted.enquiry.readings.get(str(row.id))
    return reading is None or says_something(reading) or bool(row.files)


def _mark_read(connection: Connection, history: History, drafted: Drafted) -> None:
    read = {row.id for row in history.unread if row.deleted or str(row.id) in drafted.enquiry.readings}
    left = {row.id for row in history.unread} - read
    set_reading_state(connection, read, ReadingState.READ)
    set_reading_state(connection, left, ReadingState.FAILED)


def _settle_held(connection: Connection, history: History, news: bool) -> None:
    """What was held until the new messages are read: it stays held for news, and goes on after a mere "thanks"."""
    for part in history.parts:
        if part.state is DepartureState.HELD and part.error == UNREAD:
            if news:
                note_error(connection, part.id, WROTE_AGAIN)
            else:
                move_part(connection, part, DepartureEvent.RELEASE, error=None)


def _with_files_shown(draft: Draft, news: Sequence[MessageRow]) -> Draft:
    """A picture without a word is nothing to read, but the maker must see it."""
    files = any(row.files for row in news)
    return Draft(kind=DraftKind.HANDOVER) if draft.kind is DraftKind.NONE and files else draft


def _is_due(history: History, news: Sequence[MessageRow], drafted: Drafted, because: Because) -> bool:
    if because in (Because.CORRECTED, Because.ASKED_FOR):
        return True
    if because is Because.REGROUPED:
        return is_due(events_of(history), drafted.enquiry)
    if all(row.n > 1 for row in news):
        return bool(news) and _basis_sent_last(history) != basis_of(drafted.draft)
    return True


def _basis_sent_last(history: History) -> str | None:
    """The mark of the text that was approved last: an edit that changes nothing in it needs no new answer."""
    approved = [row for row in history.drafts if row.state is DraftState.APPROVED]
    result = from_json_if_sound(approved[-1].result_json) if approved else None
    return result.basis if result else None


def _still_holds(waiting: DraftRow, drafted: Drafted, fingerprint: str) -> bool:
    result = from_json_if_sound(waiting.result_json)
    same = result is not None and result.basis == basis_of(drafted.draft) and result.fault == drafted.fault
    return same and waiting.fingerprint == fingerprint


def _restamped(connection: Connection, history: History, waiting: DraftRow) -> DraftRow:
    restamp_draft(connection, waiting.id, revision=history.enquiry.revision)
    return replace(waiting, revision=history.enquiry.revision)


def _next_version(
    connection: Connection, history: History, drafted: Drafted, *, because: Because, fingerprint: str
) -> DraftRow:
    if history.waiting is not None:
        move_draft(connection, history.waiting, DraftEvent.REPLACE)
    return add_draft(
        connection,
        history.enquiry.id,
        revision=history.enquiry.revision,
        fingerprint=fingerprint,
        kind=drafted.draft.kind,
        text=drafted.draft.text,
        result_json=to_json(result_of(drafted, because)),
    )
