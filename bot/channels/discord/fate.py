"""What became of a text that was being sent: told from what each attempt of the library got as far as.

The library tries some calls several times by itself, and only its last error comes out. So every attempt is watched on
its connection: whether anything was handed over, and how it was answered.
"""

import asyncio
import json
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from types import SimpleNamespace

import aiohttp
import discord

from bot.errors import NotGoneError, RefusedError, UnsureError

FAULTS = (
    aiohttp.ClientError,
    OSError,
    asyncio.TimeoutError,
    json.JSONDecodeError,  # an answer that broke off
    discord.HTTPException,
    discord.RateLimited,
)
"""What the library raises where a call did not work out."""


@dataclass(slots=True)
class Attempt:
    """One attempt of a call. status: how it was answered; None: not at all."""

    handed_over: bool = False
    status: int | None = None

    @property
    def surely_not_gone(self) -> bool:
        """Tell whether nothing was sent, or the server said that it did not take it."""
        return not self.handed_over or (self.status is not None and 400 <= self.status < 500)


_watched: ContextVar[list[Attempt] | None] = ContextVar("attempts", default=None)


def watch() -> aiohttp.TraceConfig:
    """Give what has to be put into the library's sessions."""
    trace = aiohttp.TraceConfig()
    trace.on_request_start.append(_started)
    trace.on_request_headers_sent.append(_handed_over)
    trace.on_request_end.append(_answered)
    return trace


async def _started(_: aiohttp.ClientSession, call: SimpleNamespace, __: aiohttp.TraceRequestStartParams) -> None:
    attempts = _watched.get()
    call.attempt = Attempt()
    if attempts is not None:
        attempts.append(call.attempt)


async def _handed_over(
    _: aiohttp.ClientSession, call: SimpleNamespace, __: aiohttp.TraceRequestHeadersSentParams
) -> None:
    call.attempt.handed_over = True


async def _answered(_: aiohttp.ClientSession, call: SimpleNamespace, end: aiohttp.TraceRequestEndParams) -> None:
    call.attempt.status = end.response.status


@contextmanager
def told_apart() -> Iterator[None]:
    """Turn the library's errors into what became of the text that was being sent.

    Raises   NotGoneError, RefusedError, UnsureError; no message of theirs holds the key or the text
    """
    attempts: list[Attempt] = []
    before = _watched.set(attempts)
    try:
        yield
    except FAULTS as error:
        if not all(attempt.surely_not_gone for attempt in attempts):
            raise UnsureError(f"Discord was handed the text and did not say whether it went ({kind(error)})") from None
        raise _not_gone(error) from None
    finally:
        _watched.reset(before)


def _not_gone(error: Exception) -> NotGoneError | RefusedError:
    if isinstance(error, discord.RateLimited):
        return NotGoneError("Discord asks to wait", retry_after_s=error.retry_after)
    if not isinstance(error, discord.HTTPException):
        return NotGoneError(f"no connection to Discord ({kind(error)})")
    if error.status == 429:
        return NotGoneError("Discord asks to wait")
    if error.status == 401:
        return NotGoneError("Discord does not accept the bot's token; put a valid one into the shop's secrets")
    return RefusedError(f"Discord refused it: {words(error)}")


def kind(error: BaseException) -> str:
    """Give the kind of failure, without the library's words, which may hold an address."""
    status = f" {error.status}" if isinstance(error, discord.HTTPException) else ""
    return f"{type(error).__name__}{status}"


def words(error: discord.HTTPException) -> str:
    """Give the server's own words for a refusal, in one line."""
    return " ".join(error.text.split())[:200] or f"answer {error.status}"
