"""Telegram as a channel: takes what customers write, delivers what was approved, shows the maker what waits."""

import asyncio
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from telegram import LinkPreviewOptions, ReplyParameters, Update
from telegram.error import BadRequest, TelegramError

from bot.channels.base import OpenChannel
from bot.channels.telegram.business import Accounts, refuse_without_right
from bot.channels.telegram.client import Client, kind, told_apart
from bot.channels.telegram.files import fetch, unfetched
from bot.channels.telegram.presses import Chatting
from bot.channels.telegram.receive import Webhook, in_words, listen, poll
from bot.channels.telegram.surface import MakerChats
from bot.channels.telegram.updates import (
    Business,
    CustomerChanged,
    CustomerWrote,
    File,
    MakerPressed,
    MakerWrote,
    Nothing,
    business,
    meaning,
    message_number,
    split_address,
)
from bot.desk import Desk
from bot.errors import ChannelError, NotGoneError
from bot.keeping import sound_text
from bot.log import note
from bot.message import Attachment, ChannelName, Outgoing
from bot.settings import read_secret

NO_PREVIEW = LinkPreviewOptions(is_disabled=True)
ROUNDS = 4
"""How often a message comes again because something that came with it cannot be fetched."""


class Telegram:
    """Customers and makers on Telegram. Close it."""

    name = ChannelName.TELEGRAM

    def __init__(self, desk: Desk, client: Client) -> None:
        own = desk.settings.own.telegram
        self._desk = desk
        self._client = client
        self._makers = frozenset(own.makers)
        self._accounts = Accounts(desk.database, own.makers)
        self._webhook = _webhook(own.webhook, own.listens)
        self._me = 0
        self._rounds: Counter[int] = Counter()
        self.chats = MakerChats(desk.database, client, own.makers)
        self._chatting = Chatting(desk, client, self.chats)

    async def close(self) -> None:
        """Close all connections."""
        await self._client.close_connections()

    async def receive(self) -> None:
        """Take messages until cancelled. See `CustomerChannel.receive`."""
        with in_words():
            self._me = (await self._client.get_me()).id
        await asyncio.to_thread(self._accounts.load)
        await self.chats.offer_commands()
        if self._webhook is None:
            await poll(self._client, self._deal)
        else:
            await listen(self._client, self._deal, self._webhook)

    async def deliver(self, text: Outgoing) -> str:
        """Send one part of an approved text. See `CustomerChannel.deliver`."""
        chat, owner = split_address(text.address)
        connection = await self._right_to_answer(owner) if owner is not None else None
        answered = (
            ReplyParameters(message_number(text.reply_to), allow_sending_without_reply=True) if text.reply_to else None
        )
        with told_apart():
            sent = await self._client.send_message(
                chat,
                sound_text(text.text),
                business_connection_id=connection,
                reply_parameters=answered,
                link_preview_options=NO_PREVIEW,
            )
        return f"{chat}:{sent.message_id}"

    async def find(self, text: Outgoing) -> str | None:
        """Telegram tells a bot nothing of what it sent."""
        return None

    async def check(self) -> str:
        """Try the account and each maker's chat without sending anything. See `CustomerChannel.check`."""
        with in_words():
            me = await self._client.get_me()
            silent = [maker for maker in sorted(self._makers) if not await self._knows(maker)]
        if not self._makers:
            return f"@{me.username} answers; nobody may decide here (telegram.makers is empty)"
        told = f"@{me.username} answers; {len(self._makers)} may decide"
        if silent:
            told += (
                f"; not yet reachable: {', '.join(map(str, silent))} (open @{me.username} in Telegram and press Start)"
            )
        return told

    async def _knows(self, chat: int) -> bool:
        try:
            await self._client.get_chat(chat)
        except BadRequest:
            return False
        return True

    async def _right_to_answer(self, owner: int) -> str:
        """Give the connection through which the bot may answer for a business account, asking the server anew where
        what we know says no: the owner may have given the right meanwhile."""
        known = self._accounts.of(owner)
        if not (known.enabled and known.can_reply):
            try:
                known = business(await self._client.get_business_connection(known.id))
            except TelegramError as error:
                raise NotGoneError(f"the business account could not be looked up ({kind(error)})") from None
            await asyncio.to_thread(self._accounts.note, known)
        refuse_without_right(known)
        return known.id

    async def _deal(self, update: Update) -> None:
        """Deal with one update; whatever it brought is committed when this returns."""
        await self._meet(update)
        what = meaning(update, me=self._me, makers=self._makers, owners=self._accounts.owners)
        match what:
            case CustomerWrote():
                files = await self._fetched(update.update_id, what.files)
                await asyncio.to_thread(self._desk.keep, replace(what.message, attachments=files))
            case CustomerChanged():
                for edit in what.edits:
                    await asyncio.to_thread(self._desk.edit, edit)
            case Business():
                served = await asyncio.to_thread(self._accounts.note, what)
                note("a business account is connected" if served else "a business account of no maker is not served")
            case MakerPressed():
                await self._chatting.pressed(what)
            case MakerWrote():
                await self._chatting.wrote(what, await self._fetched(update.update_id, what.files))
            case Nothing():
                note(f"a Telegram update holds nothing to keep: {what.why}", update=update.update_id)

    async def _fetched(self, update: int, files: Sequence[File]) -> tuple[Attachment, ...]:
        """Fetch what came with a message. Where that fails again and again the words are kept without it: no file may
        keep back every message that came after it."""
        try:
            return await fetch(self._client, files)
        except ChannelError:
            self._rounds[update] += 1
            if self._rounds[update] < ROUNDS:
                raise
            return unfetched(files)

    async def _meet(self, update: Update) -> None:
        """Learn of a business connection whose own update came before anybody listened."""
        message = update.business_message or update.edited_business_message
        name = message.business_connection_id if message else None
        if name is None or name in self._accounts.owners:
            return
        with in_words():
            try:
                found = business(await self._client.get_business_connection(name))
            except BadRequest:
                return
        await asyncio.to_thread(self._accounts.note, found)


def _webhook(url: str, listens: tuple[str, int]) -> Webhook | None:
    host, port = listens
    return Webhook(url=url, host=host, port=port) if url else None


def open_channel(desk: Desk) -> OpenChannel | None:
    """Give the channel where its account is known: its token stands in the shop's secrets; None: it does not.

    Raises   SettingsError for a token that others can read
    """
    token = read_secret(desk.settings.folder, "telegram_token")
    if token is None:
        return None
    channel = Telegram(desk, Client(token.get_secret_value(), server=desk.settings.own.telegram.server))
    surface = channel.chats if desk.settings.own.telegram.makers else None
    return OpenChannel(customers=channel, maker=surface, close=channel.close)
