"""Finds a text of which nobody knows whether it went: by its key, which comes back, or among what stands there."""

import asyncio
from collections import OrderedDict

import discord

from bot.channels.discord.client import Account
from bot.channels.discord.places import external_id
from bot.channels.discord.text import literal
from bot.message import ChannelName, Outgoing
from bot.store.database import Database
from bot.store.messages import find_message

KEPT = 500
LOOKED_THROUGH = 100
"""Messages of a place that are looked through."""


class Echoes:
    """What came back of our own texts."""

    def __init__(self, database: Database, account: Account) -> None:
        self._database = database
        self._account = account
        self._heard: OrderedDict[str, str] = OrderedDict()

    def heard(self, message: discord.Message) -> None:
        """Take down a message that came back with its key."""
        if message.nonce is not None:
            self._heard[str(message.nonce)] = external_id(message.channel.id, message.id)
            while len(self._heard) > KEPT:
                self._heard.popitem(last=False)

    def of(self, text: Outgoing) -> str | None:
        """Give the id of a text that came back."""
        return self._heard.get(text.key)

    async def search(self, text: Outgoing, place: int) -> str | None:
        """Look for a text in a place: with its key, or a message of ours with these very words which is no other text.

        Raises   ChannelError, MendError
        """
        client = await self._account.client()
        channel = client.get_partial_messageable(place)
        mine = client.user.id if client.user else 0
        found = await self._account.tried(lambda: _newest(channel))
        same = [one for one in found if one.author.id == mine and _is_the_same(one, text)]
        for one in same:
            written = external_id(place, one.id)
            if not await asyncio.to_thread(self._is_known, text, written):
                return written
        return None

    def _is_known(self, text: Outgoing, written: str) -> bool:
        with self._database.read() as connection:
            return find_message(connection, ChannelName.DISCORD, text.account, external_id=written) is not None


async def _newest(channel: discord.PartialMessageable) -> list[discord.Message]:
    return [message async for message in channel.history(limit=LOOKED_THROUGH)]


def _is_the_same(message: discord.Message, text: Outgoing) -> bool:
    return str(message.nonce) == text.key or message.content.split() == literal(text.text).split()
