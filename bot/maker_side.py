"""The maker's side of the desk: what she can do about an enquiry, from a terminal or from any channel.

Each of these is one transaction. Where a draft no longer stands, nothing moves: the reason comes back in words, with
the draft that stands now.
"""

from collections.abc import Callable
from dataclasses import replace

from bot import keeping
from bot.approval import decision
from bot.approval.correction import Correction, read_correction
from bot.approval.decision import Decided, Decider, Number
from bot.departures import arrived, claim
from bot.desk import Desk
from bot.errors import DeclinedError, NotThereError
from bot.history import History, load_history
from bot.message import ChannelName
from bot.result import Because
from bot.states import DepartureEvent, DepartureState, DraftState
from bot.store.database import Connection
from bot.store.drafts import DraftRow, add_decision, find_draft
from bot.store.enquiries import close_enquiry, move_on, next_seq
from bot.store.messages import CorrectionRow, add_correction
from bot.store.parts import Part, move_part, parts_of_draft


def approve(desk: Desk, number: Number, by: Decider, *, sure: bool = False) -> Decided:
    """Approve a draft; it goes out, or of a pasted enquiry it is there to copy.

    sure      the second yes, where the text lacks a place or its caution
    Raises    NotThereError when there is no such draft
    """
    return _decide(
        desk,
        number,
        lambda connection: decision.approve(
            connection, number, by, fingerprint=desk.fingerprint, at=desk.clock(), sure=sure
        ),
    )


def change(desk: Desk, number: Number, text: str, by: Decider) -> Decided:
    """Put the maker's own text in the place of a draft. It is the next version, and waits for her yes.

    Raises    NotThereError when there is no such draft
    """
    return _decide(
        desk,
        number,
        lambda connection: decision.change(
            connection, number, keeping.sound_text(text), by, fingerprint=desk.fingerprint, at=desk.clock()
        ),
    )


def set_aside(desk: Desk, number: Number, by: Decider) -> Decided:
    """Set a draft aside: it is not sent.

    Raises    NotThereError when there is no such draft
    """
    return _decide(
        desk,
        number,
        lambda connection: decision.set_aside(connection, number, by, fingerprint=desk.fingerprint, at=desk.clock()),
    )


def _decide(desk: Desk, number: Number, decide: Callable[[Connection], Decided]) -> Decided:
    """Decide on what stands now: what came in meanwhile is read first, and a refusal shows the draft that stands."""
    with desk.database.read() as connection:
        known = decision.exists(connection, number)
    if known:
        desk.bring_up_to_date(number.enquiry)
    with desk.database.write() as connection:
        decided = decide(connection)
    if decided.done:
        return decided
    desk.bring_up_to_date(number.enquiry)
    with desk.database.read() as connection:
        return replace(decided, draft=load_history(connection, number.enquiry).waiting)


def correct(desk: Desk, enquiry: int, text: str, by: Decider) -> DraftRow | None:
    """Set measures, such as "width 5.5", and draft anew.

    Returns   the draft that waits now; None: none does
    Raises    CorrectionError, NotThereError
    """
    drafted = desk.worked_out(enquiry).drafted
    shop = desk.workshop.shop
    corrections = read_correction(
        text,
        [dog.name for dog in drafted.enquiry.dogs],
        length_unit=shop.length_unit,
        weight_unit=shop.weight_unit,
    )
    with desk.database.write() as connection:
        for one in corrections:
            _add_correction(desk, connection, enquiry, one, by)
        move_on(connection, enquiry)
    return desk.draft(enquiry, Because.CORRECTED)


def _add_correction(desk: Desk, connection: Connection, enquiry: int, one: Correction, by: Decider) -> None:
    row = CorrectionRow(
        seq=next_seq(connection, enquiry),
        dog=one.dog,
        measure=one.measure,
        amount=one.amount,
        maker=by.maker,
        at=desk.clock(),
    )
    add_correction(connection, enquiry, row)


def draft_again(desk: Desk, enquiry: int) -> DraftRow | None:
    """Draft anew what was set aside, or open a closed enquiry again.

    Returns   the draft that waits now; None: there is nothing to send
    """
    return desk.draft(enquiry, Because.ASKED_FOR)


def close(desk: Desk, enquiry: int, by: Decider) -> None:
    """Close an enquiry: its draft is set aside, and what has not begun to go is dropped.

    Raises   NotThereError when there is no such enquiry
    """
    with desk.database.write() as connection:
        history = load_history(connection, enquiry)
        _close(desk, connection, history, by)


def _close(desk: Desk, connection: Connection, history: History, by: Decider) -> None:
    if history.waiting is not None:
        decision.put_aside(connection, history.waiting)
    if history.drafts:
        add_decision(
            connection,
            history.drafts[-1].id,
            maker=by.maker,
            surface=by.surface,
            action="close",
            at=desk.clock(),
        )
    decision.drop_what_waits(connection, history.enquiry.id)
    close_enquiry(connection, history.enquiry.id, at=desk.clock())


def copied(desk: Desk, number: Number, by: Decider) -> tuple[Part, ...]:
    """Note that the maker has copied an approved text of a pasted enquiry: with that it has gone.

    Returns   its parts as they stand now; of one that was copied before, the same
    Raises    NotThereError when there is no such draft; DeclinedError when it is not approved, held, or goes by itself
    """
    with desk.database.write() as connection:
        row = _approved(connection, number)
        for part in parts_of_draft(connection, row.id):
            if part.channel is not ChannelName.PASTE:
                raise DeclinedError(f"{number} goes out on {part.channel} by itself; there is nothing to copy")
            if part.state in (DepartureState.HELD, DepartureState.DROPPED):
                raise DeclinedError(f"{number} is {part.state}: {part.error or 'another text stands in its place'}")
            if part.state is DepartureState.QUEUED and (claimed := claim(connection, part, at=desk.clock())):
                arrived(connection, claimed, None)
        add_decision(connection, row.id, maker=by.maker, surface=by.surface, action="copied", at=desk.clock())
        return tuple(parts_of_draft(connection, row.id))


def let_go(desk: Desk, number: Number, by: Decider) -> int:
    """Let an approved text go that was held because the customer wrote again. Gives how many parts go on."""
    return _settle(desk, number, by, DepartureState.HELD, DepartureEvent.RELEASE, action="let_go")


def drop(desk: Desk, number: Number, by: Decider) -> int:
    """Drop an approved text that was held. Gives how many parts were dropped."""
    return _settle(desk, number, by, DepartureState.HELD, DepartureEvent.DROP, action="drop")


def went(desk: Desk, number: Number, by: Decider) -> int:
    """Say that a text of which nobody knew has gone. Gives how many parts that settles."""
    return _settle(desk, number, by, DepartureState.UNSURE, DepartureEvent.FOUND_GONE, action="went")


def send_again(desk: Desk, number: Number, by: Decider) -> int:
    """Say that a text of which nobody knew did not go, and send it again. Gives how many parts go again."""
    return _settle(desk, number, by, DepartureState.UNSURE, DepartureEvent.SEND_AGAIN, action="send_again")


def _settle(
    desk: Desk, number: Number, by: Decider, state: DepartureState, event: DepartureEvent, *, action: str
) -> int:
    with desk.database.write() as connection:
        row = _approved(connection, number)
        parts = [part for part in parts_of_draft(connection, row.id) if part.state is state]
        for part in parts:
            move_part(connection, part, event, not_before=desk.clock())
        if parts:
            add_decision(connection, row.id, maker=by.maker, surface=by.surface, action=action, at=desk.clock())
    return len(parts)


def _approved(connection: Connection, number: Number) -> DraftRow:
    row = find_draft(connection, number.enquiry, number.version)
    if row is None:
        raise NotThereError(f"there is no draft {number}")
    if row.state is not DraftState.APPROVED:
        raise DeclinedError(f"{number} is {row.state.replace('_', ' ')}, not approved")
    return row
