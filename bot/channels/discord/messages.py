"""What a message on Discord means to the workshop. Pure: objects in, objects out, no network."""

from collections.abc import Collection
from dataclasses import dataclass

import discord

from bot.channels.discord.places import Kind, Place, address, external_id
from bot.channels.discord.text import readable
from bot.message import Author, ChannelName, Edit, Incoming

WRITTEN = frozenset({discord.MessageType.default, discord.MessageType.reply})
"""The kinds of message that somebody wrote; all others are notices of the service."""


@dataclass(frozen=True, slots=True, kw_only=True)
class File:
    """A file that came with a message and is still on the server. url "": only Discord can show it."""

    url: str
    name: str
    type: str
    size: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrote:
    """A message of a customer, or one that a maker wrote to her by hand, before its files were fetched."""

    message: Incoming
    files: tuple[File, ...] = ()


def meaning(message: discord.Message, place: Place, *, makers: Collection[int] = ()) -> Wrote | None:
    """Say what a message means; None: there is nothing to keep.

    A bot's own messages and other bots' are nobody's. In a channel makers speak to everybody; in a thread they answer
    its customer, and what third people say there is not hers.

    makers   the numbers of those among the writers who may decide
    """
    author = message.author
    if author.bot or message.webhook_id is not None or message.type not in WRITTEN:
        return None
    by_maker = author.id in makers and place.kind is not Kind.DM
    if place.kind is Kind.CHANNEL and by_maker:
        return None
    if place.kind is Kind.THREAD and author.id != place.customer and not by_maker:
        return None
    return Wrote(message=_incoming(message, place, by_maker=by_maker), files=_files(message))


def _incoming(message: discord.Message, place: Place, *, by_maker: bool) -> Incoming:
    customer = place.customer if place.kind is Kind.THREAD else message.author.id
    thread = {Kind.DM: None, Kind.CHANNEL: message.id, Kind.THREAD: place.id}[place.kind]
    parent = {Kind.DM: 0, Kind.CHANNEL: place.id, Kind.THREAD: place.parent}[place.kind]
    answered = message.reference
    return Incoming(
        channel=ChannelName.DISCORD,
        external_id=external_id(place.id, message.id),
        address=address(customer, parent),
        display_name="" if by_maker else message.author.display_name,
        text=text_of(message),
        sent_at=message.created_at,
        thread_key=str(thread) if thread else None,
        reply_to=external_id(answered.channel_id, answered.message_id) if answered and answered.message_id else None,
        author=Author.MAKER if by_maker else Author.CUSTOMER,
    )


def edit(message: discord.Message) -> Edit | None:
    """Say what a changed message says now; None: nobody but a person's own words are read."""
    if message.author.bot or message.webhook_id is not None:
        return None
    return Edit(
        channel=ChannelName.DISCORD,
        external_id=external_id(message.channel.id, message.id),
        text=text_of(message),
    )


def deletion(channel: int, message: int) -> Edit:
    """Say that a message was deleted."""
    return Edit(channel=ChannelName.DISCORD, external_id=external_id(channel, message), text=None)


def text_of(message: discord.Message) -> str:
    """Give the words of a message, those of one that was forwarded with it included."""
    names = {user.id: user.display_name for user in message.mentions}
    said = [message.content, *(snapshot.content for snapshot in message.message_snapshots)]
    return "\n\n".join(readable(one, names) for one in said if one)


def _files(message: discord.Message) -> tuple[File, ...]:
    attached = [*message.attachments, *(one for snapshot in message.message_snapshots for one in snapshot.attachments)]
    files = [
        File(
            url=one.url,
            name=one.filename,
            type=(one.content_type or "application/octet-stream").partition(";")[0],
            size=one.size,
        )
        for one in attached
    ]
    named = [f"sticker: {one.name}" for one in message.stickers]
    if message.poll is not None:
        named.append(f"poll: {message.poll.question}")
    return (*files, *(File(url="", name=f"{name} (look in Discord)", type="text/plain", size=0) for name in named))
