"""Fetches what came with a message, so that it is kept and the maker sees it. Nothing is opened or guessed at."""

from collections.abc import Iterable

from bot.channels.attached import LARGEST, NOT_FETCHED, TOO_LARGE, named, without_bytes
from bot.channels.discord.client import Account
from bot.channels.discord.messages import File
from bot.errors import ChannelError, MendError
from bot.log import trouble
from bot.message import Attachment


async def fetch(account: Account, files: Iterable[File]) -> tuple[Attachment, ...]:
    """Fetch the files of a message. One that cannot be had is kept by its name, with the reason in it, and no bytes.

    Nothing is raised for it: a message must not wait for its pictures, which the maker can see on Discord, too.
    """
    return tuple([await _one(account, file) for file in files])


async def _one(account: Account, file: File) -> Attachment:
    if not file.url:
        return named(file.name, file.type, b"")
    if file.size > LARGEST:
        return without_bytes(file.name, file.type, TOO_LARGE)
    client = await account.client()
    try:
        content = await account.tried(lambda: client.http.get_from_cdn(file.url))
    except (ChannelError, MendError):
        trouble("a file could not be fetched from Discord")
        return without_bytes(file.name, file.type, NOT_FETCHED)
    return named(file.name, file.type, content)
