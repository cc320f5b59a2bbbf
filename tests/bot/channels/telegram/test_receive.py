"""An update is let go of only when it was dealt with."""

import asyncio
import socket
from collections.abc import Awaitable, Callable, Iterator

import httpx
import pytest
from telegram import Update

from bot.channels.telegram.client import Client
from bot.channels.telegram.receive import Webhook, listen, poll
from bot.errors import ChannelError, MendError
from tests.doubles.telegram_api import TelegramApi
from tests.doubles.telegram_people import Cut, Trouble


@pytest.fixture
def api() -> Iterator[TelegramApi]:
    with TelegramApi() as server:
        yield server
        assert server.faults == []


class Heard:
    """Deals with updates by listing their texts; raises for a text while it stands in `failing`."""

    def __init__(self) -> None:
        self.texts: list[str] = []
        self.failing: set[str] = set()

    async def deal(self, update: Update) -> None:
        text = update.message.text if update.message else None
        if text in self.failing:
            raise RuntimeError("the disk is full")
        self.texts.append(text or "")


def run_until(api: TelegramApi, start: Callable[[Client], Awaitable[None]], done: Callable[[], bool]) -> None:
    """Run a receiver until something can be seen, or until it raises."""

    ended: list[bool] = []

    async def go() -> None:
        client = Client(api.token, server=api.base)
        task = asyncio.ensure_future(start(client))
        seen = asyncio.ensure_future(asyncio.to_thread(api.wait_until, lambda: ended or done()))
        try:
            await asyncio.wait([task, seen], return_when=asyncio.FIRST_COMPLETED)
            if task.done():
                await task
            await seen
        finally:
            ended.append(True)
            task.cancel()
            await asyncio.gather(task, return_exceptions=True)
            api.look()
            await client.close_connections()

    asyncio.run(go())


def test_polling_confirms_what_was_dealt_with(api: TelegramApi) -> None:
    heard, ada = Heard(), api.person("Ada")
    for number in range(150):
        api.write(ada, str(number))

    run_until(api, lambda client: poll(client, heard.deal), lambda: api.unconfirmed() == 0)

    assert heard.texts == [str(number) for number in range(150)]


def test_an_update_that_could_not_be_kept_comes_again(api: TelegramApi) -> None:
    heard, ada = Heard(), api.person("Ada")
    for text in ("one", "two", "three"):
        api.write(ada, text)
    heard.failing = {"two"}
    with pytest.raises(RuntimeError):
        run_until(api, lambda client: poll(client, heard.deal), lambda: api.unconfirmed() == 0)
    heard.failing = set()

    run_until(api, lambda client: poll(client, heard.deal), lambda: api.unconfirmed() == 0)

    assert heard.texts == ["one", "one", "two", "three"]


def test_an_update_that_cannot_be_read_keeps_nothing_back(api: TelegramApi, caplog: pytest.LogCaptureFixture) -> None:
    heard, ada = Heard(), api.person("Ada")
    with api._changed:
        api._queue.append({"update_id": 50, "message": {"text": "no number, no chat, no date"}})
    api.write(ada, "after it")

    run_until(api, lambda client: poll(client, heard.deal), lambda: api.unconfirmed() == 0)

    assert heard.texts == ["after it"]
    assert "update=50" in caplog.text
    assert "no chat" not in caplog.text


def test_a_second_program_with_the_same_token_is_named(api: TelegramApi) -> None:
    api.trouble("getUpdates", Trouble(status=409))

    with pytest.raises(MendError, match="another program"):
        run_until(api, lambda client: poll(client, Heard().deal), lambda: False)


@pytest.mark.parametrize("trouble", [Trouble(cut=Cut.BEFORE), Trouble(cut=Cut.HALF), Trouble(status=502)])
@pytest.mark.parametrize("method", ["deleteWebhook", "getUpdates"])
def test_a_network_that_fails_while_polling_is_a_channels_error(
    api: TelegramApi, trouble: Trouble, method: str
) -> None:
    api.write(api.person("Ada"), "hello")
    api.trouble(method, trouble)

    with pytest.raises(ChannelError):
        run_until(api, lambda client: poll(client, Heard().deal), lambda: False)


def free_port() -> int:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        return int(taken.getsockname()[1])


def test_a_webhook_takes_updates_and_answers_only_when_they_were_dealt_with(api: TelegramApi) -> None:
    heard, ada, port = Heard(), api.person("Ada"), free_port()
    hook = Webhook(url=f"http://127.0.0.1:{port}/from-telegram", host="127.0.0.1", port=port)
    for number in range(5):
        api.write(ada, str(number))

    run_until(api, lambda client: listen(client, heard.deal, hook), lambda: api.unconfirmed() == 0)

    assert heard.texts == ["0", "1", "2", "3", "4"]


def test_a_webhook_takes_nothing_from_a_stranger(api: TelegramApi) -> None:
    heard, port = Heard(), free_port()
    hook = Webhook(url=f"http://127.0.0.1:{port}/from-telegram", host="127.0.0.1", port=port)
    answers: list[int] = []

    def forge() -> bool:
        if api.made("setWebhook"):
            update = {"update_id": 1, "message": {"text": "forged"}}
            answers.append(httpx.post(hook.url, json=update).status_code)
            answers.append(
                httpx.post(hook.url, json=update, headers={"X-Telegram-Bot-Api-Secret-Token": "x"}).status_code
            )
        return bool(answers)

    run_until(api, lambda client: listen(client, heard.deal, hook), forge)

    assert answers[:2] == [403, 403]
    assert heard.texts == []


def test_an_address_that_is_taken_is_named(api: TelegramApi) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = int(taken.getsockname()[1])
        hook = Webhook(url="http://127.0.0.1/x", host="127.0.0.1", port=port)

        with pytest.raises(MendError, match=str(port)):
            run_until(api, lambda client: listen(client, Heard().deal, hook), lambda: False)
