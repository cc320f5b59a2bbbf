"""Takes updates from a Bot API server, by polling or by a webhook, and lets go of each only when it is dealt with.

The server forgets an update once a higher offset is asked for, or once the webhook answered 200. Neither happens here
before `deal` has returned, and `deal` returns after the message was committed. What was dealt with twice because of a
crash in between is known by its id and changes nothing.
"""

import asyncio
import hmac
import secrets
from collections.abc import Awaitable, Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from aiohttp import web
from telegram import Update
from telegram.error import Conflict, InvalidToken, RetryAfter, TelegramError

from bot.channels.telegram.client import Client, kind, seconds
from bot.channels.telegram.updates import KINDS
from bot.errors import ChannelError, MendError, NotGoneError
from bot.log import trouble

POLL_S = 50
LARGEST_UPDATE = 4 * 1024 * 1024
HEADER = "X-Telegram-Bot-Api-Secret-Token"

Deal = Callable[[Update], Awaitable[None]]
"""Deals with one update; returns when whatever it brought was committed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Webhook:
    """Where updates are to be sent. url: as the server reaches it; host, port: where we listen for it."""

    url: str
    host: str
    port: int

    @property
    def path(self) -> str:
        """Give the path of the address, which the listener serves."""
        return "/" + self.url.partition("://")[2].partition("/")[2]


async def poll(client: Client, deal: Deal) -> None:
    """Take updates by asking for them, until cancelled.

    Raises   MendError: another program asks with the same token, or the token is not valid
             ChannelError: no connection
             whatever `deal` raises; the update that it raised for comes again
    """
    with in_words():
        await client.delete_webhook()
    offset: int | None = None
    while True:
        with in_words():
            updates = await client.raw_updates(offset=offset, wait_s=POLL_S, kinds=KINDS)
        for raw in updates:
            await _deal_with(raw, client, deal)
            offset = int(raw["update_id"]) + 1


async def listen(client: Client, deal: Deal, webhook: Webhook) -> None:
    """Take updates by being sent them, until cancelled: one at a time, in the order in which the server sends them.

    Raises   MendError: the address cannot be listened on, or the token is not valid; ChannelError: no connection
    """
    secret = secrets.token_urlsafe(32)
    turn = asyncio.Lock()

    async def take(request: web.Request) -> web.Response:
        given = request.headers.get(HEADER, "")
        if not hmac.compare_digest(given.encode(), secret.encode()):
            return web.Response(status=403)
        raw = await request.json()
        async with turn:
            await _deal_with(raw, client, deal)
        return web.Response()

    runner = await _serve(webhook, take)
    try:
        with in_words():
            await client.set_webhook(webhook.url, secret_token=secret, max_connections=1, allowed_updates=KINDS)
        await asyncio.Event().wait()
    finally:
        await runner.cleanup()


async def _serve(webhook: Webhook, take: Callable[[web.Request], Awaitable[web.Response]]) -> web.AppRunner:
    app = web.Application(client_max_size=LARGEST_UPDATE)
    app.router.add_post(webhook.path, take)
    runner = web.AppRunner(app, access_log=None, shutdown_timeout=5.0)
    await runner.setup()
    try:
        await web.TCPSite(runner, webhook.host, webhook.port).start()
    except OSError as error:
        await runner.cleanup()
        raise MendError(f"{webhook.host}:{webhook.port} cannot be listened on ({error.strerror})") from error
    return runner


async def _deal_with(raw: Mapping[str, Any], client: Client, deal: Deal) -> None:
    number = raw.get("update_id") if isinstance(raw.get("update_id"), int) else None
    try:
        update = Update.de_json(dict(raw), client)
    except Exception as error:
        # One update that the library cannot read must not keep back all that come after it.
        trouble(f"a Telegram update cannot be read ({type(error).__name__}) and was passed over", update=number)
        return
    await deal(update)


@contextmanager
def in_words() -> Iterator[None]:
    """Turn the library's errors into whose turn it is. No message holds the token."""
    try:
        yield
    except Conflict as error:
        raise MendError("another program takes Telegram's messages with the same token; stop one of the two") from error
    except InvalidToken as error:
        raise MendError("Telegram does not accept the bot's token; put a valid one into the shop's secrets") from error
    except RetryAfter as error:
        raise NotGoneError("Telegram asks to wait", retry_after_s=seconds(error)) from None
    except TelegramError as error:
        raise ChannelError(f"Telegram cannot be reached ({kind(error)})") from None
