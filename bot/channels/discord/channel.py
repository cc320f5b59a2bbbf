"""Discord as a channel: takes what customers write, delivers what was approved, shows the maker what waits."""

import asyncio
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

import discord

from bot.channels.base import OpenChannel
from bot.channels.discord.client import CONTENT_REFUSED, Account, Client, in_words
from bot.channels.discord.echoes import Echoes
from bot.channels.discord.fate import told_apart
from bot.channels.discord.form import form_button
from bot.channels.discord.inbox import Inbox
from bot.channels.discord.interactions import COMMANDS, Interactions
from bot.channels.discord.measures import Measures
from bot.channels.discord.places import Kind, Place, external_id, split_address, split_id
from bot.channels.discord.rights import NEEDED_BY_CUSTOMERS, NEEDED_BY_MAKERS, look_at
from bot.channels.discord.surface import MakerChannel
from bot.channels.discord.text import literal
from bot.channels.discord.threads import Threads
from bot.desk import Desk
from bot.errors import ChannelError, MendError, NotGoneError, RefusedError
from bot.keeping import sound_text
from bot.message import ChannelName, Outgoing
from bot.settings import read_secret
from bot.store.cursors import read_cursor
from bot.store.messages import find_message

CUT_OFF_S = 90.0
"""Seconds without a session after which the maker hears that Discord cannot be reached."""
LOOK_S = 5.0


class Discord:
    """Customers and makers on Discord. Close it."""

    name = ChannelName.DISCORD

    def __init__(self, desk: Desk, account: Account) -> None:
        self._desk = desk
        self._account = account
        self._own = desk.settings.own.discord
        self._threads = Threads(desk.database, account)
        self._echoes = Echoes(desk.database, account)
        channel = self._own.maker_channel
        self.makers = MakerChannel(desk.database, account, channel) if channel else None
        measures = Measures(desk, account, self._threads)
        self._interactions = Interactions(desk, account, self.makers, measures)
        self._inbox = Inbox(desk, account, self._threads, self._echoes, self._tell)
        self._session: asyncio.Task[None] | None = None

    async def close(self) -> None:
        """Close all connections."""
        await self._hang_up()
        await self._account.close()

    # Receiving

    async def receive(self) -> None:
        """Take messages until cancelled. See `CustomerChannel.receive`.

        Where taking them breaks off, the session goes on: what is told meanwhile is taken later.
        """
        session = await self._in_session()
        taking = [asyncio.create_task(one) for one in (self._inbox.work(), _watch(self._inbox))]
        try:
            done, _ = await asyncio.wait([session, *taking], return_when=asyncio.FIRST_COMPLETED)
        except asyncio.CancelledError:
            await self._hang_up()
            raise
        finally:
            await _end(taking)
        for one in done:
            one.result()

    async def _in_session(self) -> "asyncio.Task[None]":
        """Give the task that keeps a session with the gateway open."""
        client = await self._account.client()
        if self._session is None or self._session.done():
            application = client.application_id or 0
            await self._account.tried(
                lambda: client.http.bulk_upsert_global_commands(application, payload=list(COMMANDS))
            )
            _listen(client, self._inbox, self._interactions)
            self._session = asyncio.create_task(_connect(client))
        return self._session

    async def _hang_up(self) -> None:
        if self._session is not None:
            await _end([self._session])
            self._session = None

    async def _tell(self, text: str) -> None:
        if self.makers is not None:
            await self.makers.tell(text)

    # Delivering

    async def deliver(self, text: Outgoing) -> str:
        """Send one part of an approved text. See `CustomerChannel.deliver`."""
        with _nothing_handed_over():
            client = await self._account.client()
            place = await self._place(client, text)
        try:
            return await self._send(client, place, text)
        except _NoSuchPlaceError:
            with _nothing_handed_over():
                place = await self._new_thread(text)
        return await self._send(client, place, text)

    async def _send(self, client: Client, place: int, text: Outgoing) -> str:
        more: dict[str, Any] = {"view": form_button()} if text.asks else {}
        channel, message = split_id(text.reply_to)
        if channel == place and message:
            more["reference"] = discord.MessageReference(
                message_id=message, channel_id=channel, fail_if_not_exists=False
            )
        with told_apart():
            try:
                async with asyncio.timeout(self._account.answer_s):
                    sent = await client.get_partial_messageable(place).send(
                        literal(sound_text(text.text)),
                        nonce=text.key,
                        suppress_embeds=True,
                        **more,
                    )
            except discord.NotFound as error:
                if error.code == _UNKNOWN_CHANNEL:
                    raise _NoSuchPlaceError from None
                raise
        return external_id(place, sent.id)

    async def _place(self, client: Client, text: Outgoing) -> int:
        """Give the conversation or thread in which a text has to be sent."""
        customer, parent = split_address(text.address)
        channel, message = split_id(text.reply_to)
        if not parent:
            if await asyncio.to_thread(self._is_conversation, channel):
                return channel
            return (await self._account.tried(lambda: client.create_dm(discord.Object(customer)))).id
        if text.thread_key:
            return int(text.thread_key)
        if channel != parent:
            return channel
        return message or await self._new_thread(text)

    def _is_conversation(self, channel: int) -> bool:
        """Tell whether a channel is one in which a customer wrote in private."""
        with self._desk.database.read() as connection:
            folder = Place(kind=Kind.DM, id=channel).folder
            return read_cursor(connection, ChannelName.DISCORD, "", folder=folder) is not None

    async def _new_thread(self, text: Outgoing) -> int:
        """Open a thread for an enquiry that has none, or whose thread is gone."""
        enquiry = await asyncio.to_thread(self._enquiry_of, text)
        if enquiry is None:
            raise RefusedError("nobody knows any more to which thread on Discord this belongs")
        return await self._threads.open(enquiry)

    def _enquiry_of(self, text: Outgoing) -> int | None:
        with self._desk.database.read() as connection:
            found = find_message(connection, ChannelName.DISCORD, text.account, external_id=text.reply_to or "")
        return found.enquiry_id if found else None

    async def find(self, text: Outgoing) -> str | None:
        """Look for a text by its key, else by its words. See `CustomerChannel.find`."""
        if (heard := self._echoes.of(text)) is not None:
            return heard
        client = await self._account.client()
        return await self._echoes.search(text, await self._place(client, text))

    # Trying

    async def check(self) -> str:
        """Try the account and the channels without sending anything. See `CustomerChannel.check`."""
        client = await self._account.client()
        flags = client.application.flags if client.application else discord.ApplicationFlags()
        if self._own.channels and not (flags.gateway_message_content or flags.gateway_message_content_limited):
            raise MendError(CONTENT_REFUSED)
        written_in = ["direct messages"]
        for channel in self._own.channels:
            rights = await look_at(self._account, channel)
            rights.refuse_without(NEEDED_BY_CUSTOMERS)
            written_in.append(f"#{rights.name}")
        return f"{client.user} answers; customers write in {', '.join(written_in)}; {await self._check_makers()}"

    async def _check_makers(self) -> str:
        own = self._own
        if not own.maker_channel:
            return "drafts are shown in the terminal alone (discord.maker_channel is 0)"
        if not own.makers and not own.maker_roles:
            return "nobody may decide here (discord.makers and discord.maker_roles are empty)"
        rights = await look_at(self._account, own.maker_channel)
        rights.refuse_without(NEEDED_BY_MAKERS)
        rights.refuse_public()
        roles = f" and {len(own.maker_roles)} roles" if own.maker_roles else ""
        return f"drafts are shown in #{rights.name}, where {len(own.makers)} members{roles} may decide"


class _NoSuchPlaceError(Exception):
    """The thread of an enquiry was never opened, or is gone."""


_UNKNOWN_CHANNEL = 10003


@contextmanager
def _nothing_handed_over() -> Iterator[None]:
    """What goes wrong before a text is handed over leaves it surely not gone."""
    try:
        yield
    except (RefusedError, NotGoneError):
        raise
    except (ChannelError, MendError) as error:
        raise NotGoneError(str(error)) from error


def _listen(client: Client, inbox: Inbox, interactions: Interactions) -> None:
    for told in (
        inbox.on_connect,
        inbox.on_resumed,
        inbox.on_disconnect,
        inbox.on_message,
        inbox.on_raw_message_edit,
        inbox.on_raw_message_delete,
        inbox.on_raw_bulk_message_delete,
        interactions.on_interaction,
    ):
        client.event(told)


async def _connect(client: Client) -> None:
    """Keep a session open; the library resumes or renews it by itself."""
    try:
        with in_words():
            await client.connect(reconnect=True)
    finally:
        if client.ws is not None and client.ws.open:
            await client.ws.close(code=1000)


async def _end(tasks: Sequence["asyncio.Task[None]"]) -> None:
    for task in tasks:
        task.cancel()
    await asyncio.gather(*tasks, return_exceptions=True)


async def _watch(inbox: Inbox) -> None:
    """Raise ChannelError where no session could be opened for long: the library only tries again in silence."""
    while True:
        await asyncio.sleep(LOOK_S)
        if inbox.cut_off_s > CUT_OFF_S:
            raise ChannelError(f"Discord could not be reached for {inbox.cut_off_s:.0f} seconds")


def open_channel(desk: Desk) -> OpenChannel | None:
    """Give the channel where its account is known: its token stands in the shop's secrets; None: it does not.

    Raises   SettingsError for a token that others can read
    """
    token = read_secret(desk.settings.folder, "discord_token")
    if token is None:
        return None
    own = desk.settings.own.discord
    account = Account(
        token.get_secret_value(), server=own.server, gateway=own.gateway, reads_channels=bool(own.channels)
    )
    channel = Discord(desk, account)
    surface = channel.makers if own.makers or own.maker_roles else None
    return OpenChannel(customers=channel, maker=surface, close=channel.close)
