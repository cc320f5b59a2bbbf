"""Answers a maker who pressed a button, wrote into a form or gave a command. What is for her alone only she sees.

Discord takes the first answer within three seconds. So a press is acknowledged before anything is done, except where
the first answer has to be a form.
"""

import asyncio
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import discord

from bot.approval.buttons import Action
from bot.approval.decision import Number
from bot.approval.summary import Summary
from bot.channels.discord.client import Account
from bot.channels.discord.display import buttons, retired, text_messages
from bot.channels.discord.maker_forms import changing, correcting
from bot.channels.discord.surface import MakerChannel
from bot.errors import ChannelError
from bot.log import trouble

ACKNOWLEDGED_ALREADY = 40060
"""The error code of a second acknowledgement: the first arrived, though its answer was lost."""
Interaction = discord.Interaction[Any]


@dataclass(slots=True, kw_only=True)
class InteractionReply:
    """Answers one interaction. See `Reply`. makers: where drafts are shown; None: nowhere."""

    account: Account
    makers: MakerChannel | None
    interaction: Interaction
    _acknowledged: bool = False
    _answered: bool = False
    _turn: asyncio.Lock = field(default_factory=asyncio.Lock)

    async def acknowledge(self) -> bool:
        """Say that it came. False: too late, she was told that it failed, and nothing may be done any more."""
        async with self._turn:
            if not self._acknowledged:
                try:
                    await self.account.tried(self._acknowledge)
                except ChannelError:
                    trouble("something a maker did on Discord came too late to be answered")
                    return False
                self._acknowledged = True
        return True

    async def _acknowledge(self) -> None:
        try:
            await self.interaction.response.defer(ephemeral=True)
        except discord.HTTPException as error:
            if error.code != ACKNOWLEDGED_ALREADY:
                raise

    async def brief(self, text: str, *, alert: bool = False) -> None:
        """Say a few words that she alone sees."""
        if text:
            await self.say(text)
        else:
            await self.acknowledge()

    async def say(self, text: str, *, number: Number | None = None, actions: Sequence[Action] = ()) -> None:
        """Tell her something that she alone sees."""
        if not await self.acknowledge():
            return
        *first, last = text_messages(text)
        for part in first:
            await self._send(part, None)
        await self._send(last, buttons(number, actions) if number else None)

    async def _send(self, text: str, view: discord.ui.View | None) -> None:
        more: dict[str, Any] = {} if view is None else {"view": view}
        await self.account.tried(lambda: self.interaction.followup.send(text, ephemeral=True, **more))
        self._answered = True

    async def finish(self) -> None:
        """Take back that an answer is coming, where a command needed none."""
        if not self._answered:
            await self.account.tried(self.interaction.delete_original_response)

    async def retire(self, number: Number, note: str) -> None:
        """Take the buttons off the message that she pressed."""
        if self.interaction.message is None or not await self.acknowledge():
            return
        view = retired(number, note)
        try:
            await self.account.tried(lambda: self.interaction.edit_original_response(view=view))
        except ChannelError:
            trouble("buttons on Discord could not be taken off")

    async def show(self, summary: Summary) -> None:
        """Show a draft where the makers see drafts, once more where it was shown before."""
        if self.makers is None:
            await self.say(f"{summary.number} waits. There is no channel to show it in: set discord.maker_channel.")
        elif not await self.makers.show_where_new(summary):
            await self.makers.show_again(summary)

    async def ask(self, action: Action, summary: Summary) -> None:
        """Open the form in which she writes what she is asked for."""
        form = correcting(summary) if action is Action.CORRECT else changing(summary)
        if form is None:
            await self.say(f"This text is longer than a form takes. In a terminal: tapeline change {summary.number}")
            return
        self._acknowledged = True
        await self.account.tried(lambda: self.interaction.response.send_modal(form))
