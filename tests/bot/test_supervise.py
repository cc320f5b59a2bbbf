"""A task that breaks off is started again, later and later, and the maker hears of it once."""

import asyncio

import pytest

from bot import retry
from bot.errors import ChannelError, MendError, NotGoneError
from bot.supervise import supervise


@pytest.fixture(autouse=True)
def short_waits(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(retry, "FIRST_S", 0.001)


class Work:
    """Raises what it was given, one after another, and then ends."""

    def __init__(self, *errors: Exception) -> None:
        self.errors = list(errors)
        self.starts: list[float] = []
        self.told: list[str] = []

    async def __call__(self) -> None:
        self.starts.append(asyncio.get_running_loop().time())
        if self.errors:
            raise self.errors.pop(0)

    async def tell(self, text: str) -> None:
        self.told.append(text)


def test_it_is_started_again_until_it_ends() -> None:
    work = Work(ChannelError("away"), RuntimeError("ours"))

    asyncio.run(supervise("telegram", work, work.tell))

    assert len(work.starts) == 3
    assert work.told == []


def test_the_maker_hears_of_the_third_failure_and_no_other() -> None:
    work = Work(*[ChannelError("no connection")] * 6)

    asyncio.run(supervise("telegram", work, work.tell))

    assert work.told == ["telegram: no connection"]


def test_the_maker_hears_at_once_of_what_she_must_mend() -> None:
    work = Work(MendError("the token is not valid"), MendError("the token is not valid"))

    asyncio.run(supervise("telegram", work, work.tell))

    assert work.told == ["telegram: the token is not valid"]


def test_a_fault_of_our_own_tells_nothing_of_what_it_was_about() -> None:
    work = Work(*[ValueError("Ada's message")] * 3)

    asyncio.run(supervise("drafting", work, work.tell))

    assert work.told == ["drafting: a fault of tapeline's own (ValueError)"]


def test_a_channel_that_asks_to_wait_is_left_alone_for_so_long() -> None:
    work = Work(NotGoneError("wait", retry_after_s=0.2))

    asyncio.run(supervise("telegram", work, work.tell))

    assert work.starts[1] - work.starts[0] >= 0.2


def test_nobody_to_tell_is_no_reason_to_stop() -> None:
    async def unreachable(_: str) -> None:
        raise ChannelError("away")

    work = Work(*[ChannelError("away")] * 4)

    asyncio.run(supervise("telegram", work, unreachable))

    assert len(work.starts) == 5
