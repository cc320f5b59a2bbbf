"""Sends the maker what concerns her alone. It may come twice after a cut in the network, which harms nobody here.

Never for a customer's text: that goes through `Telegram.deliver`, once.
"""

import asyncio
from collections.abc import Awaitable, Callable, Iterable
from typing import TypeVar

from telegram import InlineKeyboardMarkup, InputFile, LinkPreviewOptions, Message
from telegram.error import BadRequest, Forbidden, InvalidToken, RetryAfter, TelegramError

from bot.channels.telegram.client import Client, kind, seconds
from bot.channels.telegram.text import Piece
from bot.errors import ChannelError, NotGoneError, RefusedError
from bot.log import note
from bot.message import Attachment

TRIES = 3
PAUSE_S = 1.0
LONGEST_WAIT_S = 30.0
LARGEST_PHOTO = 10 * 1024 * 1024
"""Bytes of a picture that may be sent as one (Bot API reference, sending files)."""
NO_PREVIEW = LinkPreviewOptions(is_disabled=True)
PICTURES = frozenset({"image/jpeg", "image/png", "image/webp"})

Result = TypeVar("Result")


async def tried(call: Callable[[], Awaitable[Result]]) -> Result:
    """Make a call, again after a short wait where the network failed or the server asks for one.

    Raises   RefusedError: the server will not do it; ChannelError: it could not be reached
    """
    for attempt in range(1, TRIES + 1):
        try:
            return await call()
        except RetryAfter as error:
            wait = seconds(error)
            if attempt == TRIES or wait > LONGEST_WAIT_S:
                raise NotGoneError("Telegram asks to wait", retry_after_s=wait) from None
            await asyncio.sleep(wait)
        except (BadRequest, Forbidden) as error:
            raise RefusedError(f"Telegram refused it: {error.message}") from None
        except InvalidToken:
            raise ChannelError("Telegram does not accept the bot's token") from None
        except TelegramError as error:
            if attempt == TRIES:
                raise ChannelError(f"Telegram cannot be reached ({kind(error)})") from None
            await asyncio.sleep(PAUSE_S * attempt)
    raise AssertionError("the last attempt either gives or raises")


async def send_pieces(
    client: Client, chat: int, pieces: Iterable[Piece], markup: InlineKeyboardMarkup | None = None
) -> int:
    """Send a text, its buttons under the last piece; gives the number of the message that carries them.

    Raises   ChannelError
    """
    *first, last = pieces
    for piece in first:
        await _send(client, chat, piece, None)
    return (await _send(client, chat, last, markup)).message_id


async def _send(client: Client, chat: int, piece: Piece, markup: InlineKeyboardMarkup | None) -> Message:
    return await tried(
        lambda: client.send_message(
            chat, piece.text, entities=piece.entities, reply_markup=markup, link_preview_options=NO_PREVIEW
        )
    )


async def send_file(client: Client, chat: int, file: Attachment) -> None:
    """Send a file: a picture as one where Telegram takes it so, else as it is.

    Raises   ChannelError
    """
    as_it_is = InputFile(file.bytes, filename=file.name, attach=False)
    if file.type in PICTURES and len(file.bytes) <= LARGEST_PHOTO:
        try:
            await tried(lambda: client.send_photo(chat, as_it_is))
        except RefusedError:
            note("a picture was refused as one and is sent as a file")
        else:
            return
    await tried(lambda: client.send_document(chat, as_it_is))
