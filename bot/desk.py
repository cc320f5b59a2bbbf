"""The one way of a message, step by step. Start here.

    keep (committed, then acknowledged) -> settle -> draft (read, fold, assess, word; stored) -> the maker decides
    -> departure

What an enquiry is, is computed from what was kept, never patched. Whatever breaks off while reading or drafting, the
messages are kept already and the maker gets them with the fault named. Every step may be taken again after a crash.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from bot import keeping
from bot.approval import decision
from bot.approval.decision import AUTOMATIC, Decider, Number
from bot.channels.all_channels import LIMITS
from bot.errors import DeclinedError
from bot.fingerprint import fingerprint
from bot.history import History, events_of, load_history
from bot.keeping import Kept
from bot.message import ChannelName, Edit, Incoming
from bot.release import Policy, Release, release
from bot.result import Because, from_json_if_sound
from bot.settings import Settings
from bot.store.cursors import write_cursor
from bot.store.database import Connection, Database
from bot.store.drafts import DraftRow, decisions_of, waiting_drafts
from bot.store.enquiries import close_enquiry, quiet_since
from bot.store.messages import unread
from bot.storing import store_draft
from bot.workbench import Drafted, draft_for
from bot.workshop import Workshop
from replies.draft import DraftKind

MOST_TRIES = 20
"""How often an enquiry is worked out anew because it moved on meanwhile."""


def utc_now() -> datetime:
    """Give the time."""
    return datetime.now(UTC)


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """How far a channel has been read, committed with what was read. folder "": the channel has only one."""

    channel: ChannelName
    value: str
    account: str = ""
    folder: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """An enquiry as it stands: what was kept of it, and what that comes to.

    history.waiting   the draft that waits for the maker; None: none does
    """

    history: History
    drafted: Drafted


class Desk:
    """One shop's desk. Several may work beside one another, in threads and in processes.

    clock   gives the time, with its zone
    """

    def __init__(
        self, settings: Settings, workshop: Workshop, database: Database, *, clock: Callable[[], datetime] = utc_now
    ) -> None:
        self.settings = settings
        self.workshop = workshop
        self.database = database
        self.clock = clock
        self.fingerprint = fingerprint(settings, workshop)

    def keep(self, incoming: Incoming, *, place: Place | None = None) -> Kept | None:
        """Keep a message, once. It is committed when this returns; only then may a channel acknowledge it.

        place     how far the channel has been read with it
        Returns   None for a message of the maker's to somebody who never wrote: nothing is kept
        """
        reopen_days = self.settings.own.messages.reopen_days
        with self.database.write() as connection:
            kept = keeping.keep(connection, incoming, at=self.clock(), reopen_days=reopen_days)
            _move_cursor(connection, place)
        return kept

    def edit(self, edit: Edit, *, place: Place | None = None) -> Kept | None:
        """Keep the new text of a message, or that it was deleted. None for one that was never kept."""
        with self.database.write() as connection:
            kept = keeping.keep_edit(connection, edit, at=self.clock())
            _move_cursor(connection, place)
        return kept

    def settled(self) -> list[int]:
        """Give the enquiries with unread messages whose customers have paused for as long as the settings say."""
        patience = timedelta(seconds=self.settings.own.messages.settle_s)
        now = self.clock()
        with self.database.read() as connection:
            waiting = unread(connection)
        return [enquiry for enquiry, channel, at in waiting if not LIMITS[channel].settles or at + patience <= now]

    def draft(self, enquiry: int, because: Because = Because.WROTE) -> DraftRow | None:
        """Work out an enquiry as it stands, and store the draft that is due.

        Returns   the draft that waits for the maker now; None: none does, for there is nothing to send or it went by
                  itself
        Raises    NotThereError when there is no such enquiry
        """
        for _ in range(MOST_TRIES):
            standing = self.worked_out(enquiry)
            with self.database.write() as connection:
                if load_history(connection, enquiry) != standing.history:
                    continue  # somebody wrote or decided meanwhile
                row = store_draft(
                    connection, standing.history, standing.drafted, because=because, fingerprint=self.fingerprint
                )
                went = row is not None and self._release(connection, row, standing.drafted)
            return None if went else row
        raise DeclinedError(f"enquiry {enquiry} does not come to rest; try again in a moment")

    def worked_out(self, enquiry: int) -> Standing:
        """Give an enquiry as it stands, and store nothing."""
        with self.database.read() as connection:
            history = load_history(connection, enquiry)
        today = self.clock().astimezone(self.settings.zone).date()
        return Standing(history=history, drafted=draft_for(events_of(history), self.workshop, today))

    def catch_up(self) -> list[int]:
        """Draft whatever is due now: at each start, and whenever a channel has kept something.

        Returns   the enquiries that were worked out
        """
        due = self.settled()
        for enquiry in due:
            self.draft(enquiry)
        return due

    def refresh(self) -> list[int]:
        """Draft anew what waits but was drafted with other settings, wording or engine. Gives those enquiries."""
        with self.database.read() as connection:
            old = [row.enquiry_id for row in waiting_drafts(connection) if row.fingerprint != self.fingerprint]
        for enquiry in old:
            self.draft(enquiry, Because.SETTINGS)
        return old

    def standing(self, enquiry: int) -> Standing:
        """Bring an enquiry up to date, and give it as it stands.

        Raises   NotThereError when there is no such enquiry
        """
        self.bring_up_to_date(enquiry)
        return self.worked_out(enquiry)

    def bring_up_to_date(self, enquiry: int) -> None:
        """Read what came in meanwhile, and draft anew what was drafted with other settings or is damaged."""
        with self.database.read() as connection:
            history = load_history(connection, enquiry)
        waiting = history.waiting
        if waiting and from_json_if_sound(waiting.result_json) is None:
            self.draft(enquiry, Because.DAMAGED)
        elif history.unread or (waiting and waiting.revision != history.enquiry.revision):
            self.draft(enquiry)
        elif waiting and waiting.fingerprint != self.fingerprint:
            self.draft(enquiry, Because.SETTINGS)

    def _release(self, connection: Connection, row: DraftRow, drafted: Drafted) -> bool:
        """Let a question go by itself where the maker said so."""
        result = from_json_if_sound(row.result_json)
        if result is None or result.changed_by is not None or row.kind is not DraftKind.QUESTION:
            return False
        history = load_history(connection, row.enquiry_id)
        policy = Policy(
            questions=self.settings.asks_by_itself(history.enquiry.customer.channel),
            in_a_row=_automatic_in_a_row(connection, row.enquiry_id),
            quiet_hours=self.settings.quiet_hours,
        )
        now = self.clock()
        if release(drafted.draft, policy, now.astimezone(self.settings.zone)) is not Release.NOW:
            return False
        by = Decider(maker="tapeline", surface=AUTOMATIC)
        number = Number(enquiry=row.enquiry_id, version=row.version)
        return decision.approve(connection, number, by, fingerprint=self.fingerprint, at=now).done

    def release_due(self) -> list[int]:
        """Let questions go that waited for the end of the quiet hours. Gives their enquiries."""
        with self.database.read() as connection:
            questions = [row for row in waiting_drafts(connection) if row.kind is DraftKind.QUESTION]
        went = []
        for row in questions:
            standing = self.worked_out(row.enquiry_id)
            with self.database.write() as connection:
                if load_history(connection, row.enquiry_id) == standing.history and standing.history.waiting:
                    went += [row.enquiry_id] * self._release(connection, standing.history.waiting, standing.drafted)
        return went

    def close_quiet(self) -> list[int]:
        """Close the enquiries without a word for as long as the settings say, unless the maker still has to act there.

        Returns   their numbers
        """
        before = self.clock() - timedelta(days=self.settings.own.messages.quiet_days)
        closed = []
        with self.database.write() as connection:
            for enquiry in quiet_since(connection, before):
                history = load_history(connection, enquiry)
                if history.waiting is None and not history.unread and not history.unsettled:
                    close_enquiry(connection, enquiry, at=self.clock())
                    closed.append(enquiry)
        return closed


def _move_cursor(connection: Connection, place: Place | None) -> None:
    if place is not None:
        write_cursor(connection, place.channel, place.account, place.value, folder=place.folder)


def _automatic_in_a_row(connection: Connection, enquiry: int) -> int:
    """How many questions have gone by themselves since the maker last decided anything here."""
    count = 0
    for one in reversed(decisions_of(connection, enquiry)):
        if one.surface != AUTOMATIC:
            break
        count += 1
    return count
