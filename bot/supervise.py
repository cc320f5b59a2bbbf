"""Keeps a task of the running shop going: what breaks off is started again, later and later, and stops nothing else."""

import asyncio
import random
import time
from collections.abc import Awaitable, Callable

from bot.errors import BotError, MendError, NotGoneError
from bot.log import trouble
from bot.retry import wait_s

STEADY_S = 60.0
"""Seconds without trouble after which the waits begin anew."""
LONGEST_S = 120.0
TOLD_AT = 3
"""Failures in a row after which the maker hears of it; of what she must mend she hears at once."""

Told = Callable[[str], Awaitable[None]]


async def supervise(name: str, work: Callable[[], Awaitable[None]], told: Told) -> None:
    """Run `work` again and again until cancelled.

    name   for the log and the maker; ours, such as "telegram"
    told   hears once, in words, that something does not get going; what it raises is left unheard
    """
    failures = 0
    while True:
        started = time.monotonic()
        try:
            await work()
            return
        except Exception as error:
            failures = 1 if time.monotonic() - started > STEADY_S else failures + 1
            trouble(f"{name} broke off ({_for_the_log(error)})", failures=failures)
            if failures == (1 if isinstance(error, MendError) else TOLD_AT):
                await _tell(told, f"{name}: {_words(error)}")
            await asyncio.sleep(_wait(failures, error))


async def _tell(told: Told, text: str) -> None:
    try:
        await told(text)
    except Exception as error:
        trouble(f"nobody could be told of it ({type(error).__name__})")


def _for_the_log(error: Exception) -> str:
    """What the maker must mend is said there, too: she may have no other way to hear of it."""
    return str(error) if isinstance(error, MendError) else type(error).__name__


def _words(error: Exception) -> str:
    return str(error) if isinstance(error, BotError) else f"a fault of tapeline's own ({type(error).__name__})"


def _wait(failures: int, error: Exception) -> float:
    asked = error.retry_after_s if isinstance(error, NotGoneError) else None
    return min(wait_s(failures, random.random(), asked_s=asked), max(LONGEST_S, asked or 0))  # noqa: S311 - jitter
