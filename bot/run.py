"""The running shop: every channel, drafting, sending and showing, in one process and side by side.

Each part is supervised on its own. All of them meet in the store alone, so the other commands work beside it, and a
crash anywhere leaves nothing half done but what the store says is going.
"""

import asyncio
import contextlib
import signal
import time
from collections.abc import Awaitable, Callable, Iterator, Sequence
from pathlib import Path

from filelock import FileLock, Timeout

from bot.channels.base import MakerSurface, OpenChannel
from bot.departures import Sender, recover
from bot.desk import Desk
from bot.errors import DeclinedError, MendError
from bot.log import note, trouble
from bot.showing import Showing
from bot.supervise import supervise

TICK_S = 0.5
"""Seconds between two looks into the store for what is due."""
SELDOM_S = 60.0
LOOK_UP_S = 60.0
"""Seconds between two searches for texts of which nobody knows whether they went."""
AGAIN_AFTER_S = 60.0
"""Seconds for which an enquiry is left alone when drafting broke off in it."""
GRACE_S = 15.0
"""Seconds that a text which is being sent has to finish when the shop is stopped."""
CANCEL_AGAIN_S = 1.0
LOCK = "tapeline.lock"


async def run(
    desk: Desk, channels: Sequence[OpenChannel], *, stop: asyncio.Event | None = None, tick_s: float = TICK_S
) -> None:
    """Run a shop until it is told to stop, by `stop`, SIGTERM or SIGINT.

    Raises   MendError when no channel has an account, or when another tapeline runs this shop
    """
    if not channels:
        raise MendError("no channel has an account yet: put a token into the shop's folder secrets")
    stop = stop or asyncio.Event()
    with _alone(desk.settings.folder), _stopped_by_signals(stop):
        unsure = await asyncio.to_thread(recover, desk.database)
        note("the shop runs", channels=len(channels), unsure=unsure)
        try:
            await _Shop(desk, channels, tick_s=tick_s).work(stop)
        finally:
            for channel in channels:
                await channel.close()
            note("the shop has stopped")


class _Shop:
    """The parts of a running shop."""

    def __init__(self, desk: Desk, channels: Sequence[OpenChannel], *, tick_s: float) -> None:
        self._desk = desk
        self._channels = channels
        self._tick_s = tick_s
        self._surfaces = [channel.maker for channel in channels if channel.maker is not None]
        self._stopping = asyncio.Event()
        self._left_alone: dict[int, float] = {}

    async def work(self, stop: asyncio.Event) -> None:
        receiving = [
            asyncio.create_task(supervise(channel.customers.name, channel.customers.receive, self._tell))
            for channel in self._channels
        ]
        inside = [
            asyncio.create_task(supervise("drafting", self._draft, self._tell)),
            *(asyncio.create_task(supervise("showing", self._shows(one), self._tell)) for one in self._surfaces),
        ]
        sending = [asyncio.create_task(supervise("sending", self._sends(one), self._tell)) for one in self._channels]
        try:
            await stop.wait()
        finally:
            self._stopping.set()
            await _cancel([*receiving, *inside])
            await asyncio.wait(sending, timeout=GRACE_S)
            await _cancel(sending)

    async def _draft(self) -> None:
        await asyncio.to_thread(self._desk.refresh)
        seldom = 0.0
        while True:
            await asyncio.to_thread(self._draft_what_settled)
            if time.monotonic() - seldom > SELDOM_S:
                seldom = time.monotonic()
                await asyncio.to_thread(self._desk.release_due)
                await asyncio.to_thread(self._desk.close_quiet)
            await asyncio.sleep(self._tick_s)

    def _draft_what_settled(self) -> None:
        """One enquiry in which something breaks off keeps back none of the others."""
        for enquiry in self._desk.settled():
            if self._left_alone.get(enquiry, 0.0) > time.monotonic():
                continue
            try:
                self._desk.draft(enquiry)
            except MendError:
                raise
            except Exception as error:
                kind = "is not at rest" if isinstance(error, DeclinedError) else f"broke off ({type(error).__name__})"
                trouble(f"drafting {kind}", enquiry=enquiry)
                self._left_alone[enquiry] = time.monotonic() + AGAIN_AFTER_S

    def _shows(self, surface: MakerSurface) -> Callable[[], Awaitable[None]]:
        """A surface that hangs holds up no other."""
        showing = Showing(self._desk, surface)

        async def show() -> None:
            while True:
                await showing.step()
                await asyncio.sleep(self._tick_s)

        return show

    def _sends(self, channel: OpenChannel) -> "_Send":
        return _Send(self._desk, channel, self._stopping, self._tick_s)

    async def _tell(self, text: str) -> None:
        """Tell the makers wherever they can be reached."""
        await asyncio.gather(*(surface.tell(text) for surface in self._surfaces), return_exceptions=True)


class _Send:
    """Sends what is due on one channel until the shop stops: a channel that hangs holds up no other."""

    def __init__(self, desk: Desk, channel: OpenChannel, stopping: asyncio.Event, tick_s: float) -> None:
        self._sender = Sender(desk.database, {channel.customers.name: channel.customers}, clock=desk.clock)
        self._stopping = stopping
        self._tick_s = tick_s

    async def __call__(self) -> None:
        looked = -LOOK_UP_S
        while not self._stopping.is_set():
            if time.monotonic() - looked > LOOK_UP_S:
                looked = time.monotonic()
                await self._sender.look_up()
            await self._sender.send_due()
            with contextlib.suppress(TimeoutError):
                await asyncio.wait_for(self._stopping.wait(), self._tick_s)


async def _cancel(tasks: Sequence["asyncio.Task[None]"]) -> None:
    pending = set(tasks)
    while pending:
        for task in pending:
            task.cancel()
        # Up to Python 3.11 a cancellation is lost where it meets an answer that just came (asyncio.wait_for).
        _, pending = await asyncio.wait(pending, timeout=CANCEL_AGAIN_S)


@contextlib.contextmanager
def _alone(folder: Path) -> Iterator[None]:
    lock = FileLock(folder / LOCK)
    try:
        lock.acquire(timeout=0)
    except Timeout:
        raise MendError(f"another tapeline runs the shop in {folder} already; stop that one first") from None
    try:
        yield
    finally:
        lock.release()


@contextlib.contextmanager
def _stopped_by_signals(stop: asyncio.Event) -> Iterator[None]:
    loop = asyncio.get_running_loop()
    signals = []
    for number in (signal.SIGTERM, signal.SIGINT):
        # Neither in a thread nor on every system can signals be taken; there a cancellation ends the shop.
        with contextlib.suppress(RuntimeError, ValueError):
            loop.add_signal_handler(number, stop.set)
            signals.append(number)
    try:
        yield
    finally:
        for number in signals:
            loop.remove_signal_handler(number)
