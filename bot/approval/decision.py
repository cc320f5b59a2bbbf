"""A maker's decision about a draft becomes a change of state, in one transaction, if everything still stands.

It names enquiry and version. The draft must still wait, nobody may have written or corrected anything since, and chart,
ease, wording and engine must be those it was made with; otherwise nothing moves and the reason comes back in words.
"""

import re
import secrets
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from bot.approval.lacks import lacks
from bot.channels.all_channels import parts_for
from bot.errors import DeclinedError, NotThereError
from bot.result import IN_WORDS, Because, from_json, from_json_if_sound, to_json
from bot.settings import Settings
from bot.states import DepartureEvent, DepartureState, DraftEvent, DraftState
from bot.store.database import Connection
from bot.store.drafts import DraftRow, add_decision, add_draft, decisions_of, find_draft, move_draft, waiting_draft
from bot.store.enquiries import EnquiryRow, find_enquiry
from bot.store.messages import messages_of
from bot.store.parts import Part, add_parts, move_part, parts_of_draft, parts_of_enquiry

TERMINAL = "terminal"
AUTOMATIC = "automatic"


@dataclass(frozen=True, slots=True, kw_only=True)
class Decider:
    """Who decides, and where: a maker at the terminal, or one of her accounts on a channel."""

    maker: str
    surface: str = TERMINAL


@dataclass(frozen=True, slots=True, kw_only=True)
class Number:
    """The number by which the maker names a draft: enquiry and version, such as 7.3."""

    enquiry: int
    version: int

    def __str__(self) -> str:
        return f"{self.enquiry}.{self.version}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Decided:
    """What came of a decision.

    done     False: nothing has moved, and `reason` says why
    draft    done: the draft that was decided, or the new version where its text was changed; else the one that stands
             now; None: there is none
    lacks    refused for what the text lacks: it takes a second, explicit yes
    parts    approved: what goes out, in order
    """

    done: bool
    reason: str = ""
    draft: DraftRow | None = None
    lacks: tuple[str, ...] = ()
    parts: tuple[Part, ...] = ()


def parse_number(written: str) -> Number:
    """Read a draft's number as the maker writes it.

    Raises   DeclinedError when it is none
    """
    match = re.fullmatch(r"\s*#?(\d{1,9})\.(\d{1,9})\s*", written, re.ASCII)
    if match is None:
        raise DeclinedError(f"{written!r} is no draft: write enquiry and version, such as 7.3")
    return Number(enquiry=int(match[1]), version=int(match[2]))


def decider(settings: Settings, surface: str, account: int | str, *, roles: Collection[int] = ()) -> Decider | None:
    """Give who decides on a channel; None: this account may not.

    account, roles   as the channel itself vouches for them, never a name that the sender chose
    """
    section = getattr(settings.own, surface, None)
    makers: Sequence[int | str] = getattr(section, "makers", ())
    if isinstance(account, str):
        known = account.casefold() in {str(maker).casefold() for maker in makers if isinstance(maker, str)}
    else:
        known = account in makers or any(role in getattr(section, "maker_roles", ()) for role in roles)
    return Decider(maker=str(account), surface=surface) if known else None


def approve(
    connection: Connection, number: Number, by: Decider, *, fingerprint: str, at: datetime, sure: bool = False
) -> Decided:
    """Approve a draft: its text is queued to go, and what an earlier one still held back is dropped.

    sure     the maker has said a second time that it may go with what it lacks
    Raises   NotThereError when there is no such draft
    """
    row, enquiry = _found(connection, number)
    if reason := _moved(connection, row, enquiry, fingerprint):
        return Decided(done=False, reason=reason, draft=row)
    if not row.text.strip():
        reason = f"{number} has no text: write one with change"
        return Decided(done=False, reason=reason, draft=row)
    missing = lacks(row.text, from_json(row.result_json).cautions)
    if missing and not sure:
        reason = f"{number} lacks something: {'; '.join(missing)}"
        return Decided(done=False, reason=reason, draft=row, lacks=missing)
    move_draft(connection, row, DraftEvent.APPROVE)
    action = "approve" if not missing else "approve_lacking"
    add_decision(connection, row.id, maker=by.maker, surface=by.surface, action=action, at=at)
    drop_what_waits(connection, row.enquiry_id)
    _queue(connection, row, enquiry, at=at)
    approved = replace(row, state=DraftState.APPROVED)
    return Decided(done=True, draft=approved, parts=tuple(parts_of_draft(connection, row.id)))


def change(
    connection: Connection, number: Number, text: str, by: Decider, *, fingerprint: str, at: datetime
) -> Decided:
    """Put the maker's own text in the place of a draft: the next version, which waits for her yes."""
    row, enquiry = _found(connection, number)
    if reason := _moved(connection, row, enquiry, fingerprint):
        return Decided(done=False, reason=reason, draft=row)
    if not text.strip():
        return Decided(done=False, reason="the new text is empty; the draft stays as it is", draft=row)
    move_draft(connection, row, DraftEvent.REPLACE)
    add_decision(connection, row.id, maker=by.maker, surface=by.surface, action="change", at=at)
    result = replace(from_json(row.result_json), because=Because.CHANGED, changed_by=by.maker)
    changed = add_draft(
        connection,
        row.enquiry_id,
        revision=row.revision,
        fingerprint=row.fingerprint,
        kind=row.kind,
        text=text.strip(),
        result_json=to_json(result),
    )
    return Decided(done=True, draft=changed, lacks=lacks(changed.text, result.cautions))


def set_aside(connection: Connection, number: Number, by: Decider, *, fingerprint: str, at: datetime) -> Decided:
    """Set a draft aside: it will not be sent."""
    row, enquiry = _found(connection, number)
    if reason := _moved(connection, row, enquiry, fingerprint):
        return Decided(done=False, reason=reason, draft=row)
    move_draft(connection, row, DraftEvent.SET_ASIDE)
    add_decision(connection, row.id, maker=by.maker, surface=by.surface, action="set_aside", at=at)
    return Decided(done=True, draft=replace(row, state=DraftState.SET_ASIDE))


def put_aside(connection: Connection, row: DraftRow) -> None:
    """Take a waiting draft out of the way without a decision about its text."""
    move_draft(connection, row, DraftEvent.SET_ASIDE)


def exists(connection: Connection, number: Number) -> bool:
    """Tell whether there is such a draft."""
    return find_draft(connection, number.enquiry, number.version) is not None


def drop_what_waits(connection: Connection, enquiry_id: int) -> None:
    """Drop what was approved earlier and has not begun to go."""
    for part in parts_of_enquiry(connection, enquiry_id):
        if part.state is DepartureState.QUEUED:
            move_part(connection, part, DepartureEvent.HOLD)
            part = replace(part, state=DepartureState.HELD)
        if part.state is DepartureState.HELD:
            move_part(connection, part, DepartureEvent.DROP)


def _found(connection: Connection, number: Number) -> tuple[DraftRow, EnquiryRow]:
    row, enquiry = find_draft(connection, number.enquiry, number.version), find_enquiry(connection, number.enquiry)
    if enquiry is None:
        raise NotThereError(f"there is no enquiry {number.enquiry}")
    if row is None:
        raise NotThereError(f"enquiry {number.enquiry} has no draft {number}")
    return row, enquiry


def _moved(connection: Connection, row: DraftRow, enquiry: EnquiryRow, fingerprint: str) -> str:
    """Say why a draft can no longer be decided about; "": it can."""
    if row.state is DraftState.REPLACED:
        newer = waiting_draft(connection, row.enquiry_id)
        result = from_json_if_sound(newer.result_json) if newer else None
        why = IN_WORDS[result.because if result else Because.DAMAGED]
        return f"{row.number} is old: {why}; {newer.number} stands in its place" if newer else f"{row.number} is old"
    if row.state is not DraftState.WAITING:
        last = [one for one in decisions_of(connection, row.enquiry_id) if one.draft_id == row.id][-1:]
        done = "approved" if row.state is DraftState.APPROVED else "set aside"
        when = f" by {last[0].maker}, {last[0].at:%Y-%m-%d %H:%M} UTC" if last else ""
        return f"{row.number} was already {done}{when}"
    if from_json_if_sound(row.result_json) is None:
        return f"{row.number} is damaged in the store; it is drafted anew when you look at enquiry {row.enquiry_id}"
    if row.revision != enquiry.revision:
        return f"{row.number} is old: {IN_WORDS[Because.WROTE]} since it was drafted"
    if row.fingerprint != fingerprint:
        return f"{row.number} is old: {IN_WORDS[Because.SETTINGS]} since it was drafted"
    return ""


def _queue(connection: Connection, row: DraftRow, enquiry: EnquiryRow, *, at: datetime) -> None:
    texts = parts_for(enquiry.customer.channel, row.text)
    theirs = [one for one in messages_of(connection, row.enquiry_id) if one.author == "customer"]
    here = [one for one in theirs if one.channel is enquiry.customer.channel]
    add_parts(
        connection,
        row.id,
        texts,
        keys=[secrets.token_hex(12) for _ in texts],
        address=enquiry.customer.address,
        reply_to=here[-1].external_id if here else None,
        at=at,
    )
