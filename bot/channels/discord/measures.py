"""A form that a customer filled in becomes a message, which goes the one way of all messages."""

import asyncio
from collections.abc import Collection, Mapping
from dataclasses import dataclass

from bot.channels.discord.client import Account
from bot.channels.discord.form import filled_in, form_words
from bot.channels.discord.places import Kind, Place, address, form_id, place_of
from bot.channels.discord.reply import Interaction
from bot.channels.discord.text import literal
from bot.channels.discord.threads import Threads
from bot.desk import Desk
from bot.message import ChannelName, Incoming
from bot.store.cursors import cursors_of

PATIENCE_S = 1.5
"""Seconds that the store may take before Discord is told that an answer is coming."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Origin:
    """Where a form was filled in. address: where its answer goes; thread: None: it has none yet, or is in private."""

    address: str
    thread: str | None
    told: str


class Measures:
    """Keeps filled-in forms."""

    def __init__(self, desk: Desk, account: Account, threads: Threads) -> None:
        self._desk = desk
        self._account = account
        self._threads = threads
        self._channels: Collection[int] = frozenset(desk.settings.own.discord.channels)

    async def take(self, interaction: Interaction, fields: Mapping[str, str]) -> None:
        """Keep a form and say so. It is committed before anything is said.

        Raises   MendError: the store cannot be used; ChannelError: the customer could not be answered
        """
        text = filled_in(fields)
        if not text:
            await self._answer(interaction, form_words().empty)
            return
        origin = await asyncio.to_thread(self._origin, interaction)
        incoming = Incoming(
            channel=ChannelName.DISCORD,
            external_id=form_id(interaction.channel_id or 0, interaction.id),
            address=origin.address,
            display_name=interaction.user.display_name,
            text=text,
            sent_at=interaction.created_at,
            thread_key=origin.thread,
        )
        keeping = asyncio.create_task(asyncio.to_thread(self._desk.keep, incoming))
        done, _ = await asyncio.wait({keeping}, timeout=PATIENCE_S)
        if not done:
            await self._account.tried(lambda: interaction.response.defer(ephemeral=True, thinking=True))
        kept = await keeping
        if kept is not None and "@" in origin.address:
            await self._threads.open_for(kept.enquiry)
        await self._answer(interaction, f"{form_words().taken}\n{text}\n\n{origin.told}")

    def _origin(self, interaction: Interaction) -> _Origin:
        words, user, channel = form_words(), interaction.user.id, interaction.channel_id or 0
        if interaction.guild_id is None:
            return _Origin(address=address(user), thread=None, told=words.answer_here)
        thread = self._thread(interaction, channel)
        if thread is not None and thread.customer == user:
            return _Origin(address=address(user, thread.parent), thread=str(thread.id), told=words.answer_here)
        parent = thread.parent if thread is not None else channel
        if parent in self._channels:
            return _Origin(address=address(user, parent), thread=None, told=words.answer_in_thread)
        return _Origin(address=address(user), thread=None, told=words.answer_in_private)

    def _thread(self, interaction: Interaction, channel: int) -> Place | None:
        """The thread in which it was filled in; None: it was in none of ours."""
        with self._desk.database.read() as connection:
            folders = cursors_of(connection, ChannelName.DISCORD, "")
        places = (place_of(folder) for folder in folders)
        return next((one for one in places if one and one.kind is Kind.THREAD and one.id == channel), None)

    async def _answer(self, interaction: Interaction, text: str) -> None:
        told = literal(text)
        if interaction.response.is_done():
            await self._account.tried(lambda: interaction.followup.send(told, ephemeral=True))
        else:
            await self._account.tried(lambda: interaction.response.send_message(told, ephemeral=True))
