"""The connection to a Bot API server: its key shows nowhere, and failures are told by what became of a text.

The library logs addresses, which hold the key, and texts, which are private: its loggers are kept silent. Each call
that carries a text opens a connection of its own: a kept one that the server has closed meanwhile would leave it unsure
whether the text went, while a connection that was never made surely carried nothing.
"""

import logging
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

import httpx
import telegram
from telegram.error import BadRequest, ChatMigrated, Forbidden, InvalidToken, RetryAfter, TelegramError
from telegram.request import HTTPXRequest

from bot.errors import NotGoneError, RefusedError, UnsureError

PUBLIC_SERVER = "https://api.telegram.org"
CONNECT_S = 10.0
ANSWER_S = 30.0
NEVER_HANDED_OVER = (httpx.ConnectError, httpx.ConnectTimeout, httpx.PoolTimeout, httpx.ProxyError)
"""What the HTTP library raises before it has a connection to write to."""


class Client(telegram.Bot):
    """A bot account on one server. Close it."""

    def __init__(self, key: str, *, server: str = PUBLIC_SERVER, answer_s: float = ANSWER_S) -> None:
        _keep_libraries_silent()
        sending = httpx.Limits(max_connections=16, max_keepalive_connections=0)
        super().__init__(
            key,
            base_url=f"{server.rstrip('/')}/bot",
            base_file_url=f"{server.rstrip('/')}/file/bot",
            request=_request(answer_s, {"limits": sending}),
            get_updates_request=_request(answer_s, {}),
        )

    def __repr__(self) -> str:
        return "Client(key withheld)"

    async def raw_updates(self, *, offset: int | None, wait_s: int, kinds: Sequence[str]) -> list[dict[str, Any]]:
        """Ask for updates from `offset` on, waiting up to `wait_s` seconds for the first.

        Unlike the library's own call it gives them unparsed, so that one which cannot be read does not stop the others.
        Raises   telegram.error.TelegramError
        """
        data = {"offset": offset, "timeout": wait_s, "limit": 100, "allowed_updates": list(kinds)}
        updates = await self._post("getUpdates", data, read_timeout=wait_s + ANSWER_S)
        return list(updates)

    async def close_connections(self) -> None:
        """Close all connections."""
        for request in self._request:
            await request.shutdown()


def _request(answer_s: float, more: dict[str, Any]) -> HTTPXRequest:
    return HTTPXRequest(
        connection_pool_size=16,
        connect_timeout=CONNECT_S,
        read_timeout=answer_s,
        write_timeout=answer_s,
        pool_timeout=answer_s,
        httpx_kwargs=more,
    )


def _keep_libraries_silent() -> None:
    for name in ("telegram", "httpx", "httpcore"):
        logging.getLogger(name).setLevel(logging.CRITICAL + 1)


@contextmanager
def told_apart() -> Iterator[None]:
    """Turn the library's errors into what became of the text that was being sent.

    Raises   NotGoneError, RefusedError, UnsureError; no message of theirs holds the key
    """
    try:
        yield
    except RetryAfter as error:
        raise NotGoneError("Telegram asks to wait", retry_after_s=seconds(error)) from None
    except InvalidToken:
        raise NotGoneError(
            "Telegram does not accept the bot's token; put a valid one into the shop's secrets"
        ) from None
    except (BadRequest, Forbidden, ChatMigrated) as error:
        raise RefusedError(f"Telegram refused it: {error.message}") from None
    except TelegramError as error:
        if isinstance(error.__cause__, NEVER_HANDED_OVER):
            raise NotGoneError(f"no connection to Telegram ({type(error.__cause__).__name__})") from None
        raise UnsureError(f"Telegram was handed the text and did not say whether it went ({kind(error)})") from None


def seconds(error: RetryAfter) -> float:
    """Give how long the server asks to wait."""
    wait = error.retry_after
    return float(wait) if isinstance(wait, int | float) else wait.total_seconds()


def kind(error: TelegramError) -> str:
    """Give the kind of failure, without the library's words, which may hold an address."""
    return type(error.__cause__ or error).__name__
