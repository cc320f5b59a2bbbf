"""Where the maker is shown drafts: in the private chat that each configured account has with the bot."""

import asyncio
from collections.abc import Sequence
from contextlib import suppress
from functools import partial

from telegram import BotCommand, BotCommandScopeChat

from bot.approval.buttons import UNDER_A_DRAFT, Action
from bot.approval.decision import Number, parse_number
from bot.approval.summary import Summary
from bot.channels.every_maker import to_every
from bot.channels.shown import Shown
from bot.channels.telegram.client import Client
from bot.channels.telegram.display import keyboard, pieces_of, retired
from bot.channels.telegram.sending import send_file, send_pieces, tried
from bot.channels.telegram.text import Piece, in_pieces
from bot.errors import ChannelError, RefusedError
from bot.keeping import sound_text
from bot.message import ChannelName
from bot.store.database import Database

COMMANDS = (
    BotCommand("waiting", "what waits for you"),
    BotCommand("cancel", "take back the last Change or Correct"),
    BotCommand("help", "how it goes"),
)


class MakerChats:
    """The private chats of the makers with the bot."""

    surface = ChannelName.TELEGRAM

    def __init__(self, database: Database, client: Client, makers: Sequence[int]) -> None:
        self._shown = Shown(database, self.surface)
        self._client = client
        self._makers = tuple(makers)
        self._turn = asyncio.Lock()

    async def offer_commands(self) -> None:
        """Let Telegram list the commands in the makers' chats, and in nobody else's. A maker who has not opened hers
        yet goes without until the next start."""
        for maker in self._makers:
            with suppress(ChannelError):
                await tried(partial(self._client.set_my_commands, COMMANDS, scope=BotCommandScopeChat(maker)))

    async def show(self, summary: Summary) -> Sequence[str]:
        """Show a draft to every maker who has not seen it. See `MakerSurface.show`."""
        await self.show_where_new(summary)
        return await asyncio.to_thread(self._shown.where, parse_number(summary.number))

    async def show_where_new(self, summary: Summary) -> list[int]:
        """Show a draft to every maker who has not seen it, and give who they are.

        Raises   ChannelError where none of them could be reached
        """
        async with self._turn:
            known = await asyncio.to_thread(self._shown.where, parse_number(summary.number))
            seen = {int(reference.split(":")[0]) for reference in known}
            new = [maker for maker in self._makers if maker not in seen]
            await to_every(new, lambda maker: self.show_to(maker, summary), channel=ChannelName.TELEGRAM)
        return new

    async def show_to(self, maker: int, summary: Summary) -> None:
        """Show a draft to one maker, the customer's pictures before it.

        Raises   ChannelError
        """
        await self._show_files(maker, summary.enquiry)
        number = parse_number(summary.number)
        message = await send_pieces(self._client, maker, pieces_of(summary), keyboard(number, UNDER_A_DRAFT))
        await asyncio.to_thread(self._shown.note, number, f"{maker}:{message}:{number}")

    async def _show_files(self, maker: int, enquiry: int) -> None:
        files, upto = await asyncio.to_thread(self._shown.new_files, enquiry, maker)
        for file in files:
            try:
                await send_file(self._client, maker, file)
            except RefusedError as error:
                await self.say(
                    maker, f"{file.name} came with enquiry {enquiry}, but Telegram does not take it: {error}"
                )
        if files:
            await asyncio.to_thread(self._shown.note_files, enquiry, maker, upto=upto)

    async def retire(self, reference: str, note: str) -> None:
        """Take the buttons off a draft. See `MakerSurface.retire`."""
        chat, message, number = reference.split(":")
        markup = retired(parse_number(number), note)
        try:
            await tried(lambda: self._client.edit_message_reply_markup(int(chat), int(message), reply_markup=markup))
        except RefusedError:
            return  # it is gone, or says so already

    async def tell(self, text: str, *, number: Number | None = None, actions: Sequence[Action] = ()) -> None:
        """Tell every maker something. See `MakerSurface.tell`."""
        await to_every(
            self._makers,
            lambda maker: self.say(maker, text, number=number, actions=actions),
            channel=ChannelName.TELEGRAM,
        )

    async def say(self, maker: int, text: str, *, number: Number | None = None, actions: Sequence[Action] = ()) -> None:
        """Tell one maker something.

        Raises   ChannelError
        """
        pieces = in_pieces(sound_text(text), []) or [Piece(text="(no text)")]
        await send_pieces(self._client, maker, pieces, keyboard(number, actions) if number else None)
