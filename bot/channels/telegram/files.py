"""Fetches what came with a message, so that it is kept and the maker sees it. Nothing is opened or guessed at."""

import asyncio
from collections.abc import Iterable

from telegram.error import BadRequest, Forbidden, InvalidToken, TelegramError

from bot.channels.attached import LARGEST, NOT_FETCHED, TOO_LARGE, named, without_bytes
from bot.channels.telegram.client import Client, kind
from bot.channels.telegram.updates import File
from bot.errors import ChannelError
from bot.log import trouble
from bot.message import Attachment

TRIES = 3
PAUSE_S = 1.0


async def fetch(client: Client, files: Iterable[File]) -> tuple[Attachment, ...]:
    """Fetch the files of a message. One that cannot be had is kept by its name, with the reason in it, and no bytes.

    Raises   ChannelError when the server cannot be reached: the message then comes again
    """
    return tuple([await _one(client, file) for file in files])


def unfetched(files: Iterable[File]) -> tuple[Attachment, ...]:
    """Keep files by their names alone."""
    return tuple(without_bytes(file.name, file.type, NOT_FETCHED) for file in files)


async def _one(client: Client, file: File) -> Attachment:
    if file.file_id is None:
        return named(file.name, file.type, b"")
    if file.size is not None and file.size > LARGEST:
        return without_bytes(file.name, file.type, TOO_LARGE)
    for attempt in range(1, TRIES + 1):
        try:
            found = await client.get_file(file.file_id)
            content = bytes(await found.download_as_bytearray())
        except (BadRequest, Forbidden, InvalidToken) as error:
            trouble(f"a file could not be fetched from Telegram ({kind(error)})")
            return without_bytes(file.name, file.type, NOT_FETCHED)
        except TelegramError as error:
            if attempt == TRIES:
                raise ChannelError(f"a file could not be fetched from Telegram ({kind(error)})") from None
            await asyncio.sleep(PAUSE_S * attempt)
        else:
            return named(file.name, file.type, content)
    raise AssertionError("the last attempt either gives or raises")
