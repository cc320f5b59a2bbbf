"""Where the makers are shown drafts: in a private channel that they share."""

import asyncio
import io
import secrets
from collections.abc import Sequence
from functools import partial
from typing import Any

import discord

from bot.approval.buttons import UNDER_A_DRAFT, Action
from bot.approval.decision import Number, parse_number
from bot.approval.summary import Summary
from bot.channels.discord.client import Account
from bot.channels.discord.display import buttons, retired, summary_messages, text_messages
from bot.channels.discord.rights import NEEDED_BY_MAKERS, look_at
from bot.channels.shown import Shown
from bot.errors import RefusedError
from bot.message import Attachment, ChannelName
from bot.store.database import Database


class MakerChannel:
    """The channel that the makers share."""

    surface = ChannelName.DISCORD

    def __init__(self, database: Database, account: Account, channel: int) -> None:
        self._shown = Shown(database, self.surface)
        self._account = account
        self._channel = channel
        self._looked_at = False
        self._turn = asyncio.Lock()

    async def show(self, summary: Summary) -> Sequence[str]:
        """Show a draft, unless it has been. See `MakerSurface.show`."""
        await self.show_where_new(summary)
        return await asyncio.to_thread(self._shown.where, parse_number(summary.number))

    async def show_where_new(self, summary: Summary) -> bool:
        """Show a draft unless it has been. False: it had been.

        Raises   ChannelError; MendError: everybody could see it
        """
        async with self._turn:
            if await asyncio.to_thread(self._shown.where, parse_number(summary.number)):
                return False
            await self.show_again(summary, key=f"d{summary.number}")
        return True

    async def show_again(self, summary: Summary, *, key: str = "") -> None:
        """Show a draft, the customer's pictures before it.

        key      of a draft that is shown for the first time: Discord then shows it once, even where it is told twice
        Raises   ChannelError; MendError: everybody could see it
        """
        await self._show_files(summary.enquiry)
        number = parse_number(summary.number)
        message = await self._say(summary_messages(summary), buttons(number, UNDER_A_DRAFT), key=key)
        await asyncio.to_thread(self._shown.note, number, f"{self._channel}:{message}:{number}")

    async def _show_files(self, enquiry: int) -> None:
        files, upto = await asyncio.to_thread(self._shown.new_files, enquiry, self._channel)
        for file in files:
            try:
                await self._send_file(file)
            except RefusedError as error:
                await self.tell(f"{file.name} came with enquiry {enquiry}, but Discord does not take it: {error}")
        if files:
            await asyncio.to_thread(self._shown.note_files, enquiry, self._channel, upto=upto)

    async def _send_file(self, file: Attachment) -> None:
        channel = await self._open()
        await self._account.tried(lambda: channel.send(file=discord.File(io.BytesIO(file.bytes), filename=file.name)))

    async def retire(self, reference: str, note: str) -> None:
        """Take the buttons off a draft. See `MakerSurface.retire`."""
        channel, message, number = reference.split(":")
        client = await self._account.client()
        shown = client.get_partial_messageable(int(channel)).get_partial_message(int(message))
        view = retired(parse_number(number), note)
        try:
            await self._account.tried(lambda: shown.edit(view=view))
        except RefusedError:
            return  # it is gone

    async def tell(self, text: str, *, number: Number | None = None, actions: Sequence[Action] = ()) -> None:
        """Tell the makers something. See `MakerSurface.tell`."""
        await self._say(text_messages(text), buttons(number, actions) if number else None)

    async def _say(self, texts: Sequence[str], view: discord.ui.View | None, *, key: str = "") -> int:
        """Send a text, its buttons under the last part; gives the number of the message that carries them."""
        channel = await self._open()
        key, message = key or secrets.token_hex(8), 0
        for place, text in enumerate(texts, start=1):
            more: dict[str, Any] = {"view": view} if view is not None and place == len(texts) else {}
            nonce = f"{key}/{place}"  # the same at each attempt, so that it is shown once
            sent = await self._account.tried(partial(channel.send, text, nonce=nonce, suppress_embeds=True, **more))
            message = sent.id
        return message

    async def _open(self) -> discord.PartialMessageable:
        """Give the channel; what customers wrote is shown nowhere where everybody reads it."""
        if not self._looked_at:
            rights = await look_at(self._account, self._channel)
            rights.refuse_public()
            rights.refuse_without(NEEDED_BY_MAKERS)
            self._looked_at = True
        return (await self._account.client()).get_partial_messageable(self._channel)
