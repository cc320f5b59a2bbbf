"""The connection hides its key, and tells failures apart by what became of the text."""

import asyncio
import logging
from collections.abc import Iterator

import pytest
from telegram.error import TelegramError

from bot.channels.telegram.client import Client, told_apart
from bot.errors import ChannelError, NotGoneError, RefusedError, UnsureError
from tests.doubles.telegram_api import TelegramApi
from tests.doubles.telegram_people import Cut, Trouble
from tests.doubles.telegram_world import Person


@pytest.fixture
def api() -> Iterator[TelegramApi]:
    with TelegramApi() as server:
        yield server
        assert server.faults == []


def send(api: TelegramApi, person: Person, *, key: str | None = None, answer_s: float = 5.0) -> ChannelError | None:
    """Send one text; gives what was raised."""

    async def go() -> None:
        client = Client(key or api.token, server=api.base, answer_s=answer_s)
        try:
            with told_apart():
                await client.send_message(person.id, "hello")
        finally:
            await client.close_connections()

    try:
        asyncio.run(go())
    except ChannelError as error:
        return error
    return None


def known(api: TelegramApi) -> Person:
    ada = api.person("Ada")
    api.write(ada, "hi")
    return ada


@pytest.mark.parametrize(
    ("trouble", "kind", "sent"),
    [
        pytest.param(Trouble(cut=Cut.BEFORE), UnsureError, 0, id="cut before"),
        pytest.param(Trouble(cut=Cut.AFTER), UnsureError, 1, id="cut after"),
        pytest.param(Trouble(cut=Cut.HALF), UnsureError, 1, id="cut in the answer"),
        pytest.param(Trouble(cut=Cut.HANG), UnsureError, 1, id="no answer"),
        pytest.param(Trouble(status=500), UnsureError, 0, id="server error"),
        pytest.param(Trouble(status=502), UnsureError, 0, id="gateway error"),
        pytest.param(Trouble(status=429, retry_after=7), NotGoneError, 0, id="asked to wait"),
        pytest.param(Trouble(status=400), RefusedError, 0, id="refused"),
    ],
)
def test_a_failure_says_what_became_of_the_text(
    api: TelegramApi, trouble: Trouble, kind: type[ChannelError], sent: int
) -> None:
    ada = known(api)
    api.trouble("sendMessage", trouble)

    error = send(api, ada, answer_s=0.3)

    assert type(error) is kind
    assert len(api.sent(ada)) == sent


def test_a_wait_is_told_in_seconds(api: TelegramApi) -> None:
    ada = known(api)
    api.trouble("sendMessage", Trouble(status=429, retry_after=7))

    error = send(api, ada)

    assert isinstance(error, NotGoneError)
    assert error.retry_after_s == 7


def test_a_connection_that_cannot_be_made_surely_carried_nothing(api: TelegramApi) -> None:
    ada = known(api)
    api.stop_listening()

    error = send(api, ada)
    api.start_listening()

    assert type(error) is NotGoneError


def test_a_stranger_who_blocked_the_bot_is_a_refusal(api: TelegramApi) -> None:
    ada = known(api)
    api.block(ada)

    assert type(send(api, ada)) is RefusedError


def test_the_key_is_in_no_log_error_or_repr(api: TelegramApi, caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level(logging.DEBUG)
    ada = known(api)
    secret = "7000002:AAanother-made-up-key"

    error = send(api, ada, key=secret)
    told = f"{error!r} {error} {Client(secret, server=api.base)!r} {caplog.text}"
    api.trouble("getUpdates", Trouble(cut=Cut.HALF))

    async def poll() -> None:
        client = Client(api.token, server=api.base)
        try:
            await client.raw_updates(offset=None, wait_s=0, kinds=("message",))
        except TelegramError:
            await client.raw_updates(offset=None, wait_s=0, kinds=("message",))
        finally:
            await client.close_connections()

    asyncio.run(poll())

    assert type(error) is NotGoneError
    for hidden in (secret, "another-made-up", api.token, "hello", '"hi"'):
        assert hidden not in told + caplog.text
