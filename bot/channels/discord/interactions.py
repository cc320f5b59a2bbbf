"""Takes presses of buttons, filled-in forms and commands: customers' measures, makers' decisions.

Their codes say all there is to know of them, so that what was sent before a restart works after it. Nothing in here
waits for messages to be read, for whoever pressed waits three seconds at most.
"""

from collections.abc import Collection, Mapping
from typing import Any

import discord

from bot.approval.buttons import Action, Press, read_code
from bot.approval.decision import Decider, decider
from bot.channels.discord.client import Account
from bot.channels.discord.form import COMMAND, FORM, form, form_words
from bot.channels.discord.maker_forms import text_in, written_in
from bot.channels.discord.measures import Measures
from bot.channels.discord.people import roles_of
from bot.channels.discord.reply import Interaction, InteractionReply
from bot.channels.discord.surface import MakerChannel
from bot.channels.presses import STRANGER, UNKNOWN, Presses
from bot.desk import Desk
from bot.errors import ChannelError, MendError
from bot.log import trouble
from bot.message import ChannelName

WAITING = "waiting"
COMMANDS = (
    {"name": COMMAND, "description": form_words().command, "type": 1, "contexts": [0, 1], "integration_types": [0]},
    {
        "name": WAITING,
        "description": "For the maker: show what waits for a decision",
        "type": 1,
        "contexts": [0],
        "integration_types": [0],
        "default_member_permissions": str(discord.Permissions(manage_messages=True).value),
    },
)
_NEEDS_A_FORM = (Action.CHANGE, Action.CORRECT)


class Interactions:
    """Takes them, each on its own: one that goes wrong keeps back no other."""

    def __init__(self, desk: Desk, account: Account, makers: MakerChannel | None, measures: Measures) -> None:
        self._desk = desk
        self._account = account
        self._makers = makers
        self._measures = measures
        self._presses = Presses(desk)

    async def on_interaction(self, interaction: Interaction) -> None:
        """Take one."""
        try:
            await self._take(interaction)
        except MendError as error:
            trouble("an interaction on Discord could not be dealt with: the store cannot be used")
            await self._say(interaction, str(error) if self._decider(interaction) else form_words().failed)
        except ChannelError:
            trouble("an interaction on Discord could not be answered")
        except Exception as error:
            trouble(f"an interaction on Discord broke off ({type(error).__name__})")
            await self._say(interaction, form_words().failed)

    async def _take(self, interaction: Interaction) -> None:
        data: Mapping[str, Any] = interaction.data or {}
        name, code = data.get("name"), str(data.get("custom_id", ""))
        match interaction.type:
            case discord.InteractionType.application_command if name == COMMAND:
                await self._open_form(interaction)
            case discord.InteractionType.application_command:
                await self._by_maker(interaction, None)
            case discord.InteractionType.component if code == FORM:
                await self._open_form(interaction)
            case discord.InteractionType.modal_submit if code == FORM:
                await self._measures.take(interaction, written_in(interaction.data))
            case discord.InteractionType.component | discord.InteractionType.modal_submit:
                await self._by_maker(interaction, read_code(code))
            case _:
                return

    async def _open_form(self, interaction: Interaction) -> None:
        await self._account.tried(lambda: interaction.response.send_modal(form()))

    # Makers

    def _decider(self, interaction: Interaction) -> Decider | None:
        roles: Collection[int] = roles_of(interaction.user)
        return decider(self._desk.settings, ChannelName.DISCORD, interaction.user.id, roles=roles)

    async def _by_maker(self, interaction: Interaction, wanted: Press | None) -> None:
        reply = InteractionReply(account=self._account, makers=self._makers, interaction=interaction)
        by = self._decider(interaction)
        command = interaction.type is discord.InteractionType.application_command
        if by is None or (wanted is None and not command):
            await reply.brief(STRANGER if by is None else UNKNOWN)
        elif wanted is None:
            await self._presses.safely(reply, lambda: self._show_waiting(reply))
        elif interaction.type is discord.InteractionType.modal_submit:
            await self._presses.safely(reply, lambda: self._written(interaction, wanted, by, reply))
        elif wanted.action in _NEEDS_A_FORM or await reply.acknowledge():
            await self._presses.safely(reply, lambda: self._presses.do(wanted, by, reply))

    async def _show_waiting(self, reply: InteractionReply) -> None:
        if await reply.acknowledge():
            await self._presses.show_waiting(reply)
            await reply.finish()

    async def _written(self, interaction: Interaction, wanted: Press, by: Decider, reply: InteractionReply) -> None:
        """Take what a maker wrote into a form."""
        if not await reply.acknowledge():
            return
        text = text_in(written_in(interaction.data))
        if wanted.action is Action.CORRECT:
            await self._presses.correct(wanted.number, text, by)
        else:
            await self._presses.change(wanted.number, text, by, reply)
        await self._presses.show(wanted.number.enquiry, reply)

    async def _say(self, interaction: Interaction, text: str) -> None:
        try:
            await InteractionReply(account=self._account, makers=self._makers, interaction=interaction).say(text)
        except ChannelError:
            trouble("an interaction on Discord could not be answered")
