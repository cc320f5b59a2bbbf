"""Reads the watched folders from where they were read last, mail by mail, and waits for more.

How far a folder has been read is its UIDVALIDITY and the number of the last mail. Where the UIDVALIDITY is another one
(the mailbox was rebuilt, the folder made anew) everything in the folder is looked at again, and what is known by its
Message-ID is passed over. What came long before the account was first read is left alone, however the mailbox numbers
it. Mails that the server cannot give any more were moved away or deleted by somebody.
"""

import asyncio
from collections.abc import AsyncIterator, Callable, Iterable
from concurrent.futures import ThreadPoolExecutor
from contextlib import asynccontextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import ParamSpec, TypeVar

from bot.channels.email.account import Account
from bot.channels.email.dealing import Dealing
from bot.channels.email.letter import OURS, read_head, read_letter
from bot.channels.email.mailbox import Glance, Mailbox
from bot.desk import Desk, Place
from bot.errors import BotError
from bot.log import trouble
from bot.message import ChannelName
from bot.store.cursors import read_cursor, write_cursor

EMAIL = ChannelName.EMAIL
AT_ONCE = 50
SINCE = "read since"
MOST_COPIES = 200
CLOSE_S = 2.0
"""Seconds for a polite end of a connection."""

P = ParamSpec("P")
T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Found:
    """A mail that is not dealt with yet."""

    glance: Glance
    arrived: datetime


class Inbox:
    """The watched folders of one account."""

    def __init__(self, desk: Desk, account: Account, dealing: Dealing) -> None:
        self._desk = desk
        self._account = account
        self._dealing = dealing
        self._own = desk.settings.own.email
        self._copies: list[tuple[str, bytes]] = []

    def copy(self, key: str, raw: bytes) -> None:
        """Have a mail that went out put among what was sent, at the next look. Nothing hangs on it."""
        if self._own.sent_folder:
            self._copies = [*self._copies, (key, raw)][-MOST_COPIES:]

    async def watch(self) -> None:
        """Read what came, and wait for more, until cancelled.

        Raises   MendError, ChannelError; whatever broke off is read again
        """
        async with self._connected() as (box, call):
            while True:
                for folder in [*self._own.folders[1:], *filter(None, [self._own.sent_folder])]:
                    await self._read(folder, box, call)
                await self._put_copies(box, call)
                last = await self._read(self._own.folders[0], box, call)
                await call(box.wait, self._own.folders[0], last, longest_s=self._own.look_s)

    @asynccontextmanager
    async def _connected(self) -> AsyncIterator[tuple[Mailbox, "_Call"]]:
        """Connect in a thread of its own, which ends with the connection."""
        box, pool = Mailbox(self._account.imap), ThreadPoolExecutor(1, thread_name_prefix="mailbox")
        try:
            await _Call(pool)(box.open)
            yield box, _Call(pool)
        finally:
            box.stop()
            closed = asyncio.wrap_future(pool.submit(box.close))
            await asyncio.wait([closed], timeout=CLOSE_S)
            box.cut()
            pool.shutdown(wait=False)

    async def _read(self, folder: str, box: Mailbox, call: "_Call") -> int:
        """Read what came in a folder, and give the number of the last mail."""
        validity = await call(box.select, folder)
        since, last = await asyncio.to_thread(self._begin, folder, validity)
        uids = await call(box.after, last)
        for start in range(0, len(uids), AT_ONCE):
            batch = uids[start : start + AT_ONCE]
            glances = await call(box.glance, batch)
            found = await asyncio.to_thread(self._new, (glances[uid] for uid in batch if uid in glances), since)
            for one in found:
                raw = await call(box.fetch, one.glance, largest=self._largest)
                if raw is not None:
                    await self._deal(raw, one, self._place(folder, validity, one.glance.uid))
            await asyncio.to_thread(self._move_on, self._place(folder, validity, batch[-1]))
        return uids[-1] if uids else last

    @property
    def _largest(self) -> int:
        return int(self._own.largest_mb * 1_000_000)

    def _begin(self, folder: str, validity: int) -> tuple[datetime, int]:
        """Give from when on mails are read, and the number of the last one that was."""
        with self._desk.database.read() as connection:
            since = read_cursor(connection, EMAIL, self._own.address, folder=SINCE)
            known = read_cursor(connection, EMAIL, self._mailbox, folder=folder) or ""
        if since is None:
            since = (self._desk.clock() - timedelta(days=self._own.first_days)).isoformat()
            with self._desk.database.write() as connection:
                write_cursor(connection, EMAIL, self._own.address, since, folder=SINCE)
        of, _, last = known.partition(":")
        return datetime.fromisoformat(since), int(last) if of == str(validity) else 0

    @property
    def _mailbox(self) -> str:
        """The account together with its server: another server numbers its mails on its own."""
        return f"{self._own.address} at {self._own.imap}"

    def _place(self, folder: str, validity: int, uid: int) -> Place:
        return Place(channel=EMAIL, account=self._mailbox, folder=folder, value=f"{validity}:{uid}")

    def _new(self, glances: Iterable[Glance], since: datetime) -> list[_Found]:
        """Leave out what is known, and what came before anybody asked for it."""
        found = []
        for glance in glances:
            head = read_head(glance.raw)
            arrived = head.arrived or glance.stored_at
            if arrived >= since and not self._dealing.is_known(head):
                found.append(_Found(glance=glance, arrived=arrived))
        return found

    async def _deal(self, raw: bytes, one: _Found, place: Place) -> None:
        size = one.glance.size
        letter = await asyncio.to_thread(lambda: read_letter(raw, size=size))
        try:
            if place.folder == self._own.sent_folder:
                await asyncio.to_thread(lambda: self._dealing.deal_with_sent(letter, arrived=one.arrived, place=place))
            else:
                await self._dealing.deal(letter, arrived=one.arrived, place=place)
        except BotError:
            raise
        except Exception as error:
            # One mail that we stumble over must not keep back all that come after it.
            trouble(f"what a mail asks for broke off ({type(error).__name__}); it is kept for the maker")
            await asyncio.to_thread(self._dealing.keep_as_it_is, letter, place)

    def _move_on(self, place: Place) -> None:
        with self._desk.database.write() as connection:
            write_cursor(connection, place.channel, place.account, place.value, folder=place.folder)

    async def _put_copies(self, box: Mailbox, call: "_Call") -> None:
        """Put what went out among what was sent, but for what the server has put there by itself."""
        folder = self._own.sent_folder
        if not self._copies:
            return
        await call(box.select, folder)
        while self._copies:
            key, raw = self._copies[0]
            if not await call(box.holds, OURS, key):
                await call(box.put, folder, raw)
            self._copies = self._copies[1:]


class _Call:
    """Calls something that blocks, in the mailbox's own thread."""

    def __init__(self, pool: ThreadPoolExecutor) -> None:
        self._pool = pool

    async def __call__(self, function: Callable[P, T], *args: P.args, **kwargs: P.kwargs) -> T:
        return await asyncio.get_running_loop().run_in_executor(self._pool, lambda: function(*args, **kwargs))
