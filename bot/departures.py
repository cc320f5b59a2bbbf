"""Sends what was approved, part by part and in order, and never twice by itself. The only module that sends.

A part is claimed, and the claim committed, before it is handed to a channel. So a crash leaves it `going`, which the
next start turns into `unsure`; so does a time-out after it was handed over. Only the maker, or the channel's own key,
settles that. What has surely not gone is tried again, later and later.
"""

import asyncio
import random
from collections.abc import Callable, Mapping
from datetime import datetime, timedelta
from functools import partial

from bot.channels.base import CustomerChannel
from bot.errors import NotGoneError, RefusedError, UnsureError
from bot.keeping import BY_HAND, UNREAD, WROTE_AGAIN, hold
from bot.log import note, trouble
from bot.message import Author, ChannelName, Incoming, Outgoing
from bot.retry import MOST_ATTEMPTS, wait_s
from bot.states import DepartureEvent, DepartureState
from bot.store.database import Connection, Database
from bot.store.drafts import draft_by_id, drafts_of
from bot.store.enquiries import find_enquiry, next_seq
from bot.store.messages import (
    MessageRow,
    ReadingState,
    add_message,
    find_message,
    messages_of,
    move_message,
    set_external_id,
)
from bot.store.parts import Part, due_parts, move_part, part_by_id, parts_in, parts_of_draft
from replies.draft import DraftKind

CRASHED = "tapeline stopped while it was being sent"
EARLIER_FAILED = "an earlier part of this text failed"
AT_ONCE = 8
"""How many customers are sent to at the same time."""


def claim(connection: Connection, part: Part, *, at: datetime) -> Part | None:
    """Take a part to be sent: it is going, and its place among the enquiry's messages is fixed.

    Returns   None where it is no longer queued; then nothing has moved
    """
    now = part_by_id(connection, part.id)
    if now is None or now.state is not DepartureState.QUEUED:
        return None
    message = _place(connection, now, at=at)
    values = {"claimed_at": at, "attempts": now.attempts + 1, "message_id": message, "error": None}
    move_part(connection, now, DepartureEvent.CLAIM, **values)
    return part_by_id(connection, part.id)


def _place(connection: Connection, part: Part, *, at: datetime) -> int:
    """What a customer writes after a text was handed over comes after it, even where the answer to us comes late."""
    seq = next_seq(connection, part.enquiry_id)
    if part.message_id is not None:
        move_message(connection, part.message_id, enquiry_id=part.enquiry_id, seq=seq)
        return part.message_id
    last = _last_from_customer(connection, part)
    ours = Incoming(
        channel=part.channel,
        account=last.account if last else "",
        external_id=f"departure {part.key}",
        address=part.address,
        text=part.text,
        author=Author.TAPELINE,
    )
    return add_message(connection, ours, enquiry_id=part.enquiry_id, seq=seq, at=at, state=ReadingState.READ)


def arrived(connection: Connection, part: Part, external_id: str | None) -> None:
    """Note that a part has gone.

    external_id   the channel's own id of the message; None: it has none
    """
    move_part(connection, part, DepartureEvent.ARRIVE, external_id=external_id, error=None)
    _name(connection, part, external_id)


def found(connection: Connection, part: Part, external_id: str | None) -> None:
    """Note that a part of which nobody knew has gone."""
    move_part(connection, part, DepartureEvent.FOUND_GONE, external_id=external_id, error=None)
    _name(connection, part, external_id)


def _name(connection: Connection, part: Part, external_id: str | None) -> None:
    """Give the message its own id, so that an answer to it finds its enquiry."""
    if external_id is None or part.message_id is None:
        return
    last = _last_from_customer(connection, part)
    account = last.account if last else ""
    if find_message(connection, part.channel, account, external_id=external_id) is None:
        set_external_id(connection, part.message_id, external_id)


def bounced(connection: Connection, part: Part, why: str, *, next_at: datetime) -> None:
    """Note that a part has surely not gone: it is queued again, or given up after too many attempts.

    It is held where somebody wrote while it was being tried.
    """
    if part.attempts >= MOST_ATTEMPTS:
        refused(connection, part, f"given up after {part.attempts} attempts: {why}")
        return
    move_part(connection, part, DepartureEvent.BOUNCE, error=why, not_before=next_at)
    if written := _written_meanwhile(connection, part):
        hold(connection, parts_of_draft(connection, part.draft_id), written)


def _written_meanwhile(connection: Connection, part: Part) -> str:
    """Say why a text should not go on by itself after it was tried; "": nothing was written that matters to it."""
    messages = messages_of(connection, part.enquiry_id)
    tried_at = max((row.seq for row in messages if row.id == part.message_id), default=0)
    if any(row.author is Author.MAKER and row.seq > tried_at for row in messages):
        return BY_HAND
    if any(row.reading_state is ReadingState.KEPT for row in messages):
        return UNREAD
    return WROTE_AGAIN if drafts_of(connection, part.enquiry_id)[-1].id != part.draft_id else ""


def refused(connection: Connection, part: Part, why: str) -> None:
    """Note that a part will never go; what follows it in the same text is held."""
    move_part(connection, part, DepartureEvent.REFUSE, error=why)
    for later in parts_of_draft(connection, part.draft_id):
        if later.state is DepartureState.QUEUED:
            move_part(connection, later, DepartureEvent.HOLD, error=EARLIER_FAILED)


def came_back(connection: Connection, part: Part, why: str) -> bool:
    """Note that a part that went, or may have gone, came back undelivered. False for one that is at no such place."""
    if part.state not in (DepartureState.GONE, DepartureState.UNSURE):
        return False
    move_part(connection, part, DepartureEvent.COME_BACK, error=why)
    return True


def lost(connection: Connection, part: Part, why: str) -> None:
    """Note that nobody knows whether a part went."""
    move_part(connection, part, DepartureEvent.LOSE, error=why)


def recover(database: Database) -> int:
    """Call once at the start of the only sender: what was going when it stopped is unsure. Gives how many there are."""
    with database.write() as connection:
        going = parts_in(connection, [DepartureState.GOING])
        for part in going:
            lost(connection, part, CRASHED)
    return len(going)


def outgoing(connection: Connection, part: Part) -> Outgoing:
    """Give a part as its channel takes it."""
    last = _last_from_customer(connection, part)
    enquiry = find_enquiry(connection, part.enquiry_id)
    draft = draft_by_id(connection, part.draft_id)
    return Outgoing(
        channel=part.channel,
        account=last.account if last else "",
        address=part.address,
        text=part.text,
        key=part.key,
        reply_to=part.reply_to,
        thread_key=enquiry.thread_key if enquiry else None,
        subject=last.subject if last else "",
        asks=draft is not None and draft.kind is DraftKind.QUESTION,
    )


def _last_from_customer(connection: Connection, part: Part) -> MessageRow | None:
    theirs = [
        row
        for row in messages_of(connection, part.enquiry_id)
        if row.author is Author.CUSTOMER and row.channel is part.channel
    ]
    return theirs[-1] if theirs else None


class Sender:
    """Sends what is due. There is one in a shop at a time.

    told   called after each part with its state now, so that the maker hears of trouble
    """

    def __init__(
        self,
        database: Database,
        channels: Mapping[ChannelName, CustomerChannel],
        *,
        clock: Callable[[], datetime],
        told: Callable[[Part], None] = lambda part: None,
    ) -> None:
        self._database = database
        self._channels = channels
        self._clock = clock
        self._told = told
        self._room = asyncio.Semaphore(AT_ONCE)

    async def send_due(self) -> int:
        """Send every part that may go now; one customer's trouble stops no other's text.

        Returns   how many were tried
        """
        with self._database.read() as connection:
            due = due_parts(connection, list(self._channels), at=self._clock())
        await asyncio.gather(*(self._send(part) for part in due))
        return len(due)

    async def _send(self, part: Part) -> None:
        async with self._room:
            # Not in a thread: a cancellation must not come between what happens and noting it.
            with self._database.write() as connection:
                claimed = claim(connection, part, at=self._clock())
                text = outgoing(connection, claimed) if claimed else None
            if claimed is None or text is None:
                return
            await self._hand_over(claimed, text)

    async def _hand_over(self, part: Part, text: Outgoing) -> None:
        try:
            external_id = await self._channels[part.channel].deliver(text)
        except NotGoneError as error:
            wait = wait_s(part.attempts, random.random(), asked_s=error.retry_after_s)  # noqa: S311 - jitter, no secret
            self._note(part, partial(bounced, why=str(error), next_at=self._clock() + timedelta(seconds=wait)))
        except RefusedError as error:
            self._note(part, partial(refused, why=str(error)))
        except asyncio.CancelledError:
            self._note(part, partial(lost, why=CRASHED))
            raise
        except UnsureError as error:
            await self._lose(part, text, str(error))
        except Exception as error:  # whatever it was, the text may have gone
            await self._lose(part, text, f"a fault of tapeline's own ({type(error).__name__})")
        else:
            self._note(part, partial(arrived, external_id=external_id))

    async def _lose(self, part: Part, text: Outgoing, why: str) -> None:
        """Note that nobody knows whether a part went, unless the channel can tell that it did."""
        external_id: str | None = None
        try:
            external_id = await self._find(text)
        finally:  # also where a cancellation breaks the search off
            change = partial(lost, why=why) if external_id is None else partial(arrived, external_id=external_id)
            self._note(part, change)

    async def look_up(self) -> int:
        """Ask the channels about every text of which nobody knows whether it went. Gives how many that settles."""
        with self._database.read() as connection:
            unsure = [part for part in parts_in(connection, [DepartureState.UNSURE]) if part.channel in self._channels]
            texts = [outgoing(connection, part) for part in unsure]
        settled = 0
        for part, text in zip(unsure, texts, strict=True):
            external_id = await self._find(text)
            if external_id is not None:
                settled += self._settle(part, external_id)
        return settled

    async def _find(self, text: Outgoing) -> str | None:
        try:
            return await self._channels[text.channel].find(text)
        except Exception as error:  # the maker is asked instead
            trouble(f"a text could not be looked for ({type(error).__name__})")
            return None

    def _settle(self, part: Part, external_id: str) -> bool:
        with self._database.write() as connection:
            now = part_by_id(connection, part.id)
            if now is None or (now.state, now.attempts) != (part.state, part.attempts):
                return False  # the maker was quicker
            found(connection, now, external_id)
        note("departure found", draft=part.draft_id, part=part.part)
        return True

    def _note(self, part: Part, change: Callable[[Connection, Part], None]) -> None:
        with self._database.write() as connection:
            change(connection, part)
            after = part_by_id(connection, part.id) or part
        note("departure", draft=after.draft_id, part=after.part, state=after.state, attempts=after.attempts)
        self._told(after)
