"""The running shop: its parts side by side, one of a kind, ended cleanly."""

import asyncio
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from bot import maker_side, retry
from bot.approval.buttons import Action
from bot.approval.decision import Number
from bot.approval.summary import Summary
from bot.channels.base import OpenChannel
from bot.desk import Desk, utc_now
from bot.errors import ChannelError, MendError, NotGoneError, RefusedError, UnsureError
from bot.message import ChannelName, Outgoing
from bot.run import run
from tests.bot.test_departures import states
from tests.fakes import ANN, FIVE, FakeChannel, message, shop_desk

SETTINGS = "[messages]\nsettle_s = 0\n"
FIRST = Number(enquiry=1, version=1)


@pytest.fixture(autouse=True)
def short_waits(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(retry, "FIRST_S", 0.01)


@dataclass
class FakeSurface:
    """A surface that takes down what a maker would see; `away`: it cannot be reached."""

    surface: str = "fake"
    away: bool = False
    drafts: list[str] = field(default_factory=list)
    retired: list[str] = field(default_factory=list)
    told: list[tuple[str, tuple[Action, ...]]] = field(default_factory=list)

    async def show(self, summary: Summary) -> Sequence[str]:
        if self.away:
            raise ChannelError("away")
        self.drafts.append(summary.number)
        return [f"at {summary.number}"]

    async def retire(self, reference: str, note: str) -> None:
        if self.away:
            raise ChannelError("away")
        self.retired.append(f"{reference}: {note}")

    async def tell(self, text: str, *, number: Number | None = None, actions: Sequence[Action] = ()) -> None:
        if self.away:
            raise ChannelError("away")
        self.told.append((text, tuple(actions)))


async def nothing() -> None:
    return


def opened(channel: FakeChannel, surface: FakeSurface | None = None) -> OpenChannel:
    return OpenChannel(customers=channel, maker=surface, close=nothing)


class Shop:
    """A shop that runs while a test looks at it."""

    def __init__(self, desk: Desk, *channels: OpenChannel) -> None:
        self.desk = desk
        self.channels = channels
        self.stop = asyncio.Event()

    async def __aenter__(self) -> "Shop":
        self.task = asyncio.create_task(run(self.desk, self.channels, stop=self.stop, tick_s=0.01))
        return self

    async def __aexit__(self, *_: object) -> None:
        self.stop.set()
        await self.task

    async def until(self, happened: Callable[[], object]) -> None:
        async with asyncio.timeout(10):
            while not happened():  # noqa: ASYNC110 - what is looked at has no event
                await asyncio.sleep(0.01)


def test_what_comes_in_is_drafted_shown_and_sent_when_approved(tmp_path: Path) -> None:
    channel, surface = FakeChannel(), FakeSurface()

    async def go(desk: Desk) -> None:
        async with Shop(desk, opened(channel, surface)) as shop:
            await asyncio.to_thread(desk.keep, message(FIVE))
            await shop.until(lambda: surface.drafts == ["1.1"])
            await asyncio.to_thread(maker_side.approve, desk, FIRST, ANN)
            await shop.until(lambda: channel.arrived and surface.retired)

    with shop_desk(tmp_path, SETTINGS, clock=utc_now) as desk:
        asyncio.run(go(desk))

        assert len(channel.arrived) == 1
        assert surface.retired == ["at 1.1: 1.1 is approved"]


def test_a_shop_without_an_account_says_what_is_missing(tmp_path: Path) -> None:
    with shop_desk(tmp_path, SETTINGS) as desk, pytest.raises(MendError, match="secrets"):
        asyncio.run(run(desk, []))


def test_a_shop_runs_once(tmp_path: Path) -> None:
    async def go(desk: Desk) -> None:
        async with Shop(desk, opened(FakeChannel())) as shop:
            await shop.until(lambda: (tmp_path / "tapeline.lock").exists())
            with pytest.raises(MendError, match="another tapeline runs"):
                await run(desk, [opened(FakeChannel())])

    with shop_desk(tmp_path, SETTINGS) as desk:
        asyncio.run(go(desk))


def test_a_channel_and_a_surface_that_fail_stop_none_of_the_others(tmp_path: Path) -> None:
    good, shown = FakeChannel(), FakeSurface()

    class Broken(FakeChannel):
        async def receive(self) -> None:
            raise ChannelError("away")

    async def go(desk: Desk) -> None:
        broken = opened(Broken(name=ChannelName.DISCORD), FakeSurface(surface="broken", away=True))
        async with Shop(desk, broken, opened(good, shown)) as shop:
            await asyncio.to_thread(desk.keep, message(FIVE))
            await shop.until(lambda: shown.drafts == ["1.1"])
            await asyncio.to_thread(maker_side.approve, desk, FIRST, ANN)
            await shop.until(lambda: good.arrived)
            await shop.until(lambda: ("discord: away", ()) in shown.told)

    with shop_desk(tmp_path, SETTINGS, clock=utc_now) as desk:
        asyncio.run(go(desk))

        assert len(good.arrived) == 1


def test_a_text_that_is_being_sent_may_finish_when_the_shop_is_stopped(tmp_path: Path) -> None:
    started = asyncio.Event()

    class Slow(FakeChannel):
        async def deliver(self, text: Outgoing) -> str:
            started.set()
            await asyncio.sleep(0.2)
            return await super().deliver(text)

    async def go(desk: Desk) -> None:
        async with Shop(desk, opened(Slow())):
            await started.wait()

    with shop_desk(tmp_path, SETTINGS, clock=utc_now) as desk:
        desk.keep(message(FIVE))
        desk.draft(1)
        maker_side.approve(desk, FIRST, ANN)
        asyncio.run(go(desk))

        assert states(desk) == ["gone"]


def test_a_shop_stops_though_a_library_lost_the_word_to_stop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("bot.run.CANCEL_AGAIN_S", 0.05)

    class Deaf(FakeChannel):
        async def receive(self) -> None:
            try:
                await asyncio.Event().wait()
            except asyncio.CancelledError:
                await asyncio.Event().wait()

    async def go(desk: Desk) -> None:
        async with asyncio.timeout(10), Shop(desk, opened(Deaf())):
            await asyncio.sleep(0.05)

    with shop_desk(tmp_path, SETTINGS) as desk:
        asyncio.run(go(desk))


@pytest.mark.parametrize(
    ("error", "words", "buttons"),
    [
        pytest.param(UnsureError("no answer"), "may have gone, or not", (Action.WENT, Action.SEND_AGAIN), id="unsure"),
        pytest.param(RefusedError("blocked"), "could not be sent", (), id="failed"),
    ],
)
def test_trouble_with_a_text_is_told_once(
    tmp_path: Path, error: Exception, words: str, buttons: tuple[Action, ...]
) -> None:
    channel, surface = FakeChannel(then=[error]), FakeSurface()

    async def go(desk: Desk) -> None:
        for _ in range(2):
            async with Shop(desk, opened(channel, surface)) as shop:
                await shop.until(lambda: surface.told)
                await asyncio.sleep(0.05)

    with shop_desk(tmp_path, SETTINGS, clock=utc_now) as desk:
        desk.keep(message(FIVE))
        desk.draft(1)
        maker_side.approve(desk, FIRST, ANN)
        asyncio.run(go(desk))

    assert [(words in text, actions) for text, actions in surface.told] == [(True, buttons)]


def test_a_text_that_does_not_get_through_is_told(tmp_path: Path) -> None:
    channel, surface = FakeChannel(then=[NotGoneError("no connection")] * 4), FakeSurface()

    async def go(desk: Desk) -> None:
        async with Shop(desk, opened(channel, surface)) as shop:
            await shop.until(lambda: channel.arrived and surface.told)

    with shop_desk(tmp_path, SETTINGS, clock=utc_now) as desk:
        desk.keep(message(FIVE))
        desk.draft(1)
        maker_side.approve(desk, FIRST, ANN)
        asyncio.run(go(desk))

    told = "1.1 has not got through yet (no connection). It is tried again by itself."
    assert [text for text, _ in surface.told] == [told]


def test_an_enquiry_in_which_drafting_breaks_off_keeps_back_none_of_the_others(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    surface, draft = FakeSurface(), Desk.draft

    def breaks_off_at_one(desk: Desk, enquiry: int, *more: object) -> object:
        if enquiry == 1:
            raise RuntimeError("a fault")
        return draft(desk, enquiry, *more)  # type: ignore[arg-type]

    monkeypatch.setattr(Desk, "draft", breaks_off_at_one)

    async def go(desk: Desk) -> None:
        async with Shop(desk, opened(FakeChannel(), surface)) as shop:
            await shop.until(lambda: surface.drafts == ["2.1"])

    with shop_desk(tmp_path, SETTINGS, clock=utc_now) as desk:
        desk.keep(message(FIVE, address="1"))
        desk.keep(message(FIVE, address="2"))
        asyncio.run(go(desk))
