"""The sign in a channel where customers write: it says so, and carries the button of the form.

It is put up once. A maker who does not want it deletes it, and it stays away.
"""

import asyncio

import discord

from bot.channels.discord.client import Account
from bot.channels.discord.form import form_button, form_words
from bot.channels.discord.text import literal
from bot.errors import RefusedError
from bot.log import trouble
from bot.message import ChannelName
from bot.store.cursors import read_cursor, write_cursor
from bot.store.database import Database


async def put_up(database: Database, account: Account, channel: int) -> None:
    """Put up the sign where it never was.

    Raises   ChannelError
    """
    if await asyncio.to_thread(_was_put_up, database, channel):
        return
    client = await account.client()
    place = client.get_partial_messageable(channel)
    try:
        sent = await account.tried(lambda: _send(place))
    except RefusedError:
        trouble("the sign could not be put up in a channel on Discord")
        return
    await asyncio.to_thread(_note, database, channel, sent.id)


async def _send(place: discord.PartialMessageable) -> discord.Message:
    return await place.send(
        literal(form_words().sign), view=form_button(), nonce=f"sign {place.id}"[:25], suppress_embeds=True
    )


def _was_put_up(database: Database, channel: int) -> bool:
    with database.read() as connection:
        return read_cursor(connection, ChannelName.DISCORD, "", folder=_folder(channel)) is not None


def _note(database: Database, channel: int, message: int) -> None:
    with database.write() as connection:
        write_cursor(connection, ChannelName.DISCORD, "", str(message), folder=_folder(channel))


def _folder(channel: int) -> str:
    return f"sign in {channel}"
