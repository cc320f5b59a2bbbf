"""A shop in a process of its own that kills itself, as a power cut would, before or after a named step."""

import asyncio
import functools
import inspect
import os
import signal
from collections.abc import Callable
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import Any

from bot import retry
from bot.build import open_channels, open_desk
from bot.channels.telegram import sending
from bot.run import run


@dataclass(frozen=True, kw_only=True)
class Step:
    """A function, and whether the process dies before or after its first call that is worth it.

    place   module:attribute
    """

    place: str
    after: bool


def run_shop(folder: Path, step: Step | None) -> None:
    """Run the shop in `folder` until SIGTERM, or until `step`."""
    retry.FIRST_S = 0.05
    sending.PAUSE_S = 0.05
    if step is not None:
        _die_at(step)
    with open_desk(folder) as desk:
        asyncio.run(run(desk, open_channels(desk), tick_s=0.05))


def _die_at(step: Step) -> None:
    module, _, path = step.place.partition(":")
    owner: Any = import_module(module)
    *outer, name = path.split(".")
    for part in outer:
        owner = getattr(owner, part)
    setattr(owner, name, _deadly(getattr(owner, name), step.after))


def _deadly(work: Callable[..., Any], after: bool) -> Callable[..., Any]:
    """Make a function deadly. One that did nothing (nothing was due, nothing came) does not count."""

    @functools.wraps(work)
    def sync(*args: Any, **kwargs: Any) -> Any:
        if not after:
            _die()
        result = work(*args, **kwargs)
        if result not in (None, []) or work.__name__.lstrip("_").startswith("note"):
            _die()
        return result

    @functools.wraps(work)
    async def awaited(*args: Any, **kwargs: Any) -> Any:
        if not after:
            _die()
        result = await work(*args, **kwargs)
        if result != [] or work.__name__ != "raw_updates":
            _die()
        return result

    return awaited if inspect.iscoroutinefunction(work) else sync


def _die() -> None:
    os.kill(os.getpid(), signal.SIGKILL)
