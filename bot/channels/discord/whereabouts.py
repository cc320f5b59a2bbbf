"""Which place something was written in, which places are known, and how far each has been read. Kept in the store."""

import asyncio
from collections.abc import Collection

import discord

from bot.channels.discord.client import Account
from bot.channels.discord.places import Kind, Place, place_of
from bot.errors import RefusedError
from bot.message import ChannelName
from bot.store.cursors import cursors_of, read_cursor, write_cursor
from bot.store.database import Database


class Whereabouts:
    """The places in which customers write. channels: those where they may, beside direct messages."""

    def __init__(self, database: Database, account: Account, channels: Collection[int]) -> None:
        self._database = database
        self._account = account
        self._channels = frozenset(channels)
        self._places: dict[int, Place] = {}
        self._elsewhere: set[int] = set()

    async def known(self) -> list[Place]:
        """Give every place that is known, that with the newest message first, and threads that customers began."""
        self._elsewhere.clear()
        await asyncio.to_thread(self._load)
        for channel in self._channels:
            self._places.setdefault(channel, Place(kind=Kind.CHANNEL, id=channel))
            await self._find_threads(channel)
        cursors = await asyncio.to_thread(self._cursors)
        return sorted(self._places.values(), key=lambda place: -int(cursors.get(place.folder, 0)))

    def _load(self) -> None:
        for folder in self._cursors():
            place = place_of(folder)
            if place is not None and (place.kind is Kind.DM or (place.parent or place.id) in self._channels):
                self._places[place.id] = place

    def _cursors(self) -> dict[str, str]:
        with self._database.read() as connection:
            return cursors_of(connection, ChannelName.DISCORD, "")

    async def _find_threads(self, channel: int) -> None:
        client = await self._account.client()
        try:
            found = await self._account.tried(lambda: client.fetch_channel(channel))
            guild = found.guild if isinstance(found, discord.abc.GuildChannel) else None
            threads = await self._account.tried(guild.active_threads) if guild else []
        except RefusedError:
            return  # the channel is gone, or closed to the bot: `check` tells it
        for thread in threads:
            self._thread(thread, client)

    def _thread(self, thread: discord.Thread, client: discord.Client) -> Place | None:
        """A thread that a customer began herself is hers; what the bot began stands in the store."""
        ours = client.user is not None and thread.owner_id == client.user.id
        if thread.id in self._places or ours or thread.parent_id not in self._channels:
            return self._places.get(thread.id)
        place = Place(kind=Kind.THREAD, id=thread.id, parent=thread.parent_id, customer=thread.owner_id)
        self._places[thread.id] = place
        return place

    def of_id(self, channel: int) -> Place | None:
        """Give a place by its number; None: it is not known."""
        return self._places.get(channel)

    async def of(self, message: discord.Message) -> Place | None:
        """Give the place in which a message was written; None: it is nowhere that customers write."""
        number = message.channel.id
        if number not in self._places:
            await asyncio.to_thread(self._load)  # a thread may have been opened meanwhile
        if number in self._places or number in self._elsewhere:
            return self._places.get(number)
        if isinstance(message.channel, discord.DMChannel):
            self._places[number] = Place(kind=Kind.DM, id=number)
        else:
            await self._look(message.channel)
        return self._places.get(number)

    async def _look(self, channel: "discord.abc.MessageableChannel") -> None:
        client = await self._account.client()
        found: object = channel
        if isinstance(channel, discord.PartialMessageable):
            try:
                found = await self._account.tried(lambda: client.fetch_channel(channel.id))
            except RefusedError:
                found = None
        if not isinstance(found, discord.Thread) or self._thread(found, client) is None:
            self._elsewhere.add(channel.id)

    async def cursor(self, place: Place) -> int | None:
        """Give the last message that was read in a place; None: nothing was."""
        return await asyncio.to_thread(self._cursor, place)

    def _cursor(self, place: Place) -> int | None:
        with self._database.read() as connection:
            value = read_cursor(connection, ChannelName.DISCORD, "", folder=place.folder)
        return None if value is None else int(value)

    async def note(self, place: Place, message: int) -> None:
        """Note how far a place has been read."""
        await asyncio.to_thread(self._note, place, message)

    def _note(self, place: Place, message: int) -> None:
        with self._database.write() as connection:
            write_cursor(connection, ChannelName.DISCORD, "", str(message), folder=place.folder)
