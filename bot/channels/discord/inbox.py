"""Takes what Discord tells, in the order in which it tells it, and reads on in every known place after a break.

Discord's gateway asks for no acknowledgement: what it told while nobody listened is gone. So each place has a cursor in
the store, moved in the transaction that keeps a message. In every new session each known place is first read on from
its cursor, through the other door; only then does what the gateway tells of it count. Whatever comes twice by that is
known by its number and changes nothing. A place that nobody knew, such as that of a stranger's first message, is read
from some days back when something comes from it.
"""

import asyncio
import time
from collections.abc import AsyncIterator, Awaitable, Callable
from dataclasses import dataclass, replace
from datetime import timedelta

import discord

from bot.channels.discord.client import Account
from bot.channels.discord.echoes import Echoes
from bot.channels.discord.files import fetch
from bot.channels.discord.messages import deletion, edit, meaning
from bot.channels.discord.people import People
from bot.channels.discord.places import Kind, Place, number_at
from bot.channels.discord.sign import put_up
from bot.channels.discord.threads import Threads
from bot.channels.discord.whereabouts import Whereabouts
from bot.desk import Desk
from bot.desk import Place as ReadUpTo
from bot.errors import BotError, RefusedError
from bot.log import note, trouble
from bot.message import ChannelName, Edit

PAGE = 100
"""Messages that Discord gives at once (API reference, get channel messages)."""
OUT_OF_ORDER = timedelta(minutes=1)
"""A message that came so much after a later one is still found."""
LOOK_YOURSELF = "Please look into the newest direct messages and threads yourself."
LOOKED_AT_AGAIN = timedelta(days=1)
"""What was written so long before the last message may have been changed while nobody listened."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Session:
    """A new session began: what was told before it may be missing."""


_Told = _Session | discord.Message | Edit


class Inbox:
    """Takes what is told. What broke off is taken up again; what was told meanwhile waits in here.

    told   hears in words of what cannot be taken at all
    """

    def __init__(
        self,
        desk: Desk,
        account: Account,
        threads: Threads,
        echoes: Echoes,
        told: Callable[[str], Awaitable[None]],
    ) -> None:
        settings = desk.settings.own.discord
        self._desk = desk
        self._account = account
        self._threads = threads
        self._echoes = echoes
        self._people = People(account, settings)
        self._channels = settings.channels
        self._whereabouts = Whereabouts(desk.database, account, settings.channels)
        self._tell = told
        self._told: asyncio.Queue[_Told] = asyncio.Queue()
        self._now: _Told | None = None
        """What is being taken; it stays here until it is done with."""
        self._read_up_to: dict[int, int] = {}
        """Of each place that is in step with the gateway, the last message."""
        self._me = 0
        self._cut_off_since: float | None = time.monotonic()

    # What the library calls: each only takes down what it is told

    @property
    def cut_off_s(self) -> float:
        """Give for how many seconds there has been no session."""
        return 0.0 if self._cut_off_since is None else time.monotonic() - self._cut_off_since

    async def on_disconnect(self) -> None:
        """Take down that the session broke off; what happens now is told later, or read on."""
        self._cut_off_since = self._cut_off_since or time.monotonic()

    async def on_resumed(self) -> None:
        """Take down that the session goes on, and nothing is missing."""
        self._cut_off_since = None

    async def on_connect(self) -> None:
        """Take down that a new session began."""
        self._cut_off_since = None
        self._told.put_nowait(_Session())

    async def on_message(self, message: discord.Message) -> None:
        """Take down what somebody wrote."""
        self._told.put_nowait(message)

    async def on_raw_message_edit(self, changed: discord.RawMessageUpdateEvent) -> None:
        """Take down that somebody changed what she wrote."""
        if (what := edit(changed.message)) is not None:
            self._told.put_nowait(what)

    async def on_raw_message_delete(self, gone: discord.RawMessageDeleteEvent) -> None:
        """Take down that somebody deleted what she wrote."""
        self._told.put_nowait(deletion(gone.channel_id, gone.message_id))

    async def on_raw_bulk_message_delete(self, gone: discord.RawBulkMessageDeleteEvent) -> None:
        """Take down that somebody deleted many messages."""
        for message in sorted(gone.message_ids):
            self._told.put_nowait(deletion(gone.channel_id, message))

    # Taking

    async def work(self) -> None:
        """Take what was told, one after the other, until cancelled.

        Raises   ChannelError, MendError: what was being taken is taken again when this is called again
        """
        me = (await self._account.client()).user
        self._me = me.id if me else 0
        while True:
            if self._now is None:
                self._now = await self._told.get()
            try:
                await self._deal(self._now)
            except BotError:
                raise
            except Exception as error:  # whatever it is, it must not keep back all that comes after it
                await self._pass_over(error)
            self._now = None

    async def _deal(self, told: _Told) -> None:
        match told:
            case _Session():
                await self._begin()
            case Edit():
                await self._change(told)
            case _:
                await self._take(told)

    async def _pass_over(self, error: Exception) -> None:
        trouble(f"something that was written on Discord cannot be read ({type(error).__name__})")
        try:
            await self._tell(f"Something that was written on Discord cannot be read. {LOOK_YOURSELF}")
        except BotError:
            trouble("the makers could not be told of it")

    async def _begin(self) -> None:
        self._read_up_to.clear()
        places = await self._whereabouts.known()
        for place in places:
            try:
                await self._read_on(place)
            except BotError:
                raise
            except Exception as error:
                await self._pass_over(error)
        for channel in self._channels:
            await put_up(self._desk.database, self._account, channel)
        note("what was written on Discord meanwhile is read", places=len(places))

    async def _take(self, message: discord.Message) -> None:
        if message.author.id == self._me:
            self._echoes.heard(message)
            return
        place = await self._whereabouts.of(message)
        if place is None:
            return
        await self._be_in_step(place)
        await self._keep(message, place)

    async def _change(self, what: Edit) -> None:
        place = self._whereabouts.of_id(int(what.external_id.partition(":")[0]))
        if place is not None:
            await self._be_in_step(place)
        await asyncio.to_thread(self._desk.edit, what)

    async def _keep(self, message: discord.Message, place: Place) -> None:
        """Keep a message; it is committed when this returns, and the cursor with it."""
        by_maker = await self._people.is_maker(message.author, place)
        what = meaning(message, place, makers={message.author.id} if by_maker else ())
        if what is None:
            return
        files = await fetch(self._account, what.files)
        upto = None
        if message.id > self._read_up_to.get(place.id, 0):
            upto = ReadUpTo(channel=ChannelName.DISCORD, value=str(message.id), folder=place.folder)
        incoming = replace(what.message, attachments=files)
        kept = await asyncio.to_thread(lambda: self._desk.keep(incoming, place=upto))
        if place.id in self._read_up_to:
            self._read_up_to[place.id] = max(message.id, self._read_up_to[place.id])
        if kept is not None and kept.new and place.kind is Kind.CHANNEL:
            await self._threads.open_for(kept.enquiry, begun_by=message.id)

    # Reading on

    async def _be_in_step(self, place: Place) -> None:
        if place.id not in self._read_up_to:
            await self._read_on(place)

    async def _read_on(self, place: Place) -> None:
        """Read what was written in a place since its cursor. A place that is closed to the bot is left."""
        try:
            cursor = await self._cursor(place)
            seen = cursor
            async for message in self._since(place, cursor - _span(LOOKED_AT_AGAIN)):
                await self._read_again(message, place, cursor)
                seen = max(seen, message.id)
        except RefusedError:
            trouble("a place on Discord cannot be read any more")
            self._read_up_to[place.id] = 0
            return
        await self._whereabouts.note(place, seen)
        self._read_up_to[place.id] = seen

    async def _read_again(self, message: discord.Message, place: Place, cursor: int) -> None:
        """Keep what is new, and what was changed."""
        if message.id > cursor - _span(OUT_OF_ORDER):
            await self._keep(message, place)
        if message.id <= cursor and (what := edit(message)) is not None:
            await asyncio.to_thread(self._desk.edit, what)

    async def _cursor(self, place: Place) -> int:
        """Give how far a place was read, before the first time, from where on it is."""
        known = await self._whereabouts.cursor(place)
        if known is not None:
            return known
        if place.kind is Kind.CHANNEL:
            return await self._newest(place)  # what was written before the channel was ours is not for us
        days = timedelta(days=self._desk.settings.own.messages.quiet_days)
        return max(place.id - 1 if place.kind is Kind.THREAD else 0, number_at(self._desk.clock() - days))

    async def _newest(self, place: Place) -> int:
        client = await self._account.client()
        channel = client.get_partial_messageable(place.id)
        page = await self._account.tried(lambda: _last(channel))
        return page[0].id if page else place.id

    async def _since(self, place: Place, after: int) -> AsyncIterator[discord.Message]:
        client = await self._account.client()
        channel = client.get_partial_messageable(place.id)
        while True:
            page = await self._account.tried(lambda: _page(channel, after))  # noqa: B023 - called before `after` moves
            for message in page:
                yield message
            if len(page) < PAGE:
                return
            after = page[-1].id


async def _page(channel: discord.PartialMessageable, after: int) -> list[discord.Message]:
    start = discord.Object(max(0, after))
    return [message async for message in channel.history(limit=PAGE, after=start, oldest_first=True)]


async def _last(channel: discord.PartialMessageable) -> list[discord.Message]:
    return [message async for message in channel.history(limit=1)]


def _span(time: timedelta) -> int:
    """Give by how much numbers grow in this time."""
    return int(time.total_seconds() * 1000) << 22
