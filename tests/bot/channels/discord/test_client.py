"""The connection hides its key, and tells failures apart by what became of the text."""

import asyncio
import logging
from collections.abc import Awaitable, Callable, Iterator
from pathlib import Path
from typing import TypeVar

import discord
import pytest
from discord.gateway import DiscordWebSocket
from discord.http import Route

from bot.channels.discord.channel import Discord
from bot.channels.discord.client import Account
from bot.errors import BotError, ChannelError, MendError, NotGoneError, RefusedError, UnsureError
from bot.message import ChannelName, Outgoing
from tests.bot.channels.discord.running import write_shop
from tests.doubles.discord_api import DiscordApi, discord_api
from tests.doubles.telegram_people import Cut, Trouble
from tests.fakes import shop_desk

T = TypeVar("T")
KEY = "0123456789abcdef01234567"


@pytest.fixture
def api() -> Iterator[DiscordApi]:
    with discord_api() as server:
        yield server


@pytest.fixture
def with_channel(api: DiscordApi, tmp_path: Path) -> Iterator[Callable[..., object]]:
    """Do something with a channel of a shop that is not running."""

    def play(work: Callable[[Discord], Awaitable[T]], *, key: str | None = None, answer_s: float = 5.0) -> T:
        async def go() -> T:
            with shop_desk(tmp_path) as desk:
                account = Account(
                    key or api.token,
                    server=api.base,
                    gateway=api.gateway,
                    reads_channels=True,
                    answer_s=answer_s,
                )
                channel = Discord(desk, account)
                try:
                    return await work(channel)
                finally:
                    await channel.close()

        return asyncio.run(go())

    write_shop(tmp_path, api, [api.wil])
    yield play


def text(address: str, words: str = "hello", *, key: str = KEY) -> Outgoing:
    return Outgoing(channel=ChannelName.DISCORD, account="", address=address, text=words, key=key)


async def _error(work: Awaitable[object]) -> BotError | None:
    try:
        await work
    except BotError as error:
        return error
    return None


@pytest.mark.parametrize(
    ("troubles", "kind", "sent"),
    [
        pytest.param([Trouble(cut=Cut.BEFORE)], UnsureError, 0, id="cut before"),
        pytest.param([Trouble(cut=Cut.AFTER)], UnsureError, 1, id="cut after"),
        pytest.param([Trouble(cut=Cut.HALF)], UnsureError, 1, id="cut in the answer"),
        pytest.param([Trouble(cut=Cut.HANG)], UnsureError, 1, id="no answer"),
        pytest.param([Trouble(status=503)], UnsureError, 0, id="server error"),
        pytest.param([Trouble(status=500), Trouble(status=400)], UnsureError, 0, id="server error, then refused"),
        pytest.param([Trouble(status=500)], type(None), 1, id="server error, then taken"),
        pytest.param([Trouble(status=429, retry_after=600)], NotGoneError, 0, id="asked to wait for long"),
        pytest.param([Trouble(status=429, retry_after=0)], type(None), 1, id="asked to wait a moment"),
        pytest.param([Trouble(status=401)], NotGoneError, 0, id="token refused"),
        pytest.param([Trouble(status=403)], RefusedError, 0, id="refused"),
    ],
)
def test_a_failure_says_what_became_of_the_text(
    api: DiscordApi, with_channel: Callable[..., BotError | None], troubles: list[Trouble], kind: type, sent: int
) -> None:
    ada = api.person("Ada")
    api.trouble("POST", f"/channels/{api.dm(ada)}/messages", *troubles)

    error = with_channel(
        lambda channel: _error(channel.deliver(text(str(ada.id)))), answer_s=0.3 if troubles[0].cut else 5.0
    )

    assert type(error) is kind
    assert len(api.sent(ada)) == sent


def test_a_wait_is_told_in_seconds(api: DiscordApi, with_channel: Callable[..., BotError | None]) -> None:
    ada = api.person("Ada")
    api.trouble("POST", f"/channels/{api.dm(ada)}/messages", Trouble(status=429, retry_after=600))

    error = with_channel(lambda channel: _error(channel.deliver(text(str(ada.id)))))

    assert isinstance(error, NotGoneError)
    assert error.retry_after_s == 600


def test_a_connection_that_cannot_be_made_surely_carried_nothing(
    api: DiscordApi, with_channel: Callable[..., tuple[BotError | None, ...]]
) -> None:
    ada = api.person("Ada")
    number = api.write(ada, "hi")

    async def go(channel: Discord) -> tuple[BotError | None, ...]:
        first = await channel.deliver(text(str(ada.id)))
        await asyncio.to_thread(api.stop_listening)
        error = await _error(channel.deliver(text(str(ada.id), "once more", key=KEY[::-1])))
        await asyncio.to_thread(api.start_listening)
        assert first
        return (error,)

    (error,) = with_channel(go)

    assert number
    assert type(error) is NotGoneError


def test_nothing_is_handed_over_where_the_account_cannot_be_used(
    api: DiscordApi, with_channel: Callable[..., BotError | None]
) -> None:
    error = with_channel(lambda channel: _error(channel.deliver(text("1"))), key="another.made-up.key")

    assert type(error) is NotGoneError


@pytest.mark.parametrize("cut", [Cut.AFTER, Cut.HALF, Cut.BEFORE])
def test_a_text_of_which_nobody_knew_is_found_where_it_went(
    api: DiscordApi, with_channel: Callable[..., str | None], cut: Cut
) -> None:
    ada = api.person("Ada")
    api.trouble("POST", f"/channels/{api.dm(ada)}/messages", Trouble(cut=cut))
    sent = text(str(ada.id), "13 in * 2 <@1> @everyone\n1. yes")

    async def go(channel: Discord) -> str | None:
        assert isinstance(await _error(channel.deliver(sent)), UnsureError)
        return await channel.find(sent)

    found = with_channel(go)

    went = [f"{api.dm(ada)}:{one['id']}" for one in api.chat(api.dm(ada))]
    assert [found] == (went or [None])


def test_the_same_key_twice_is_one_text(api: DiscordApi, with_channel: Callable[..., tuple[str, str]]) -> None:
    ada = api.person("Ada")

    async def go(channel: Discord) -> tuple[str, str]:
        return await channel.deliver(text(str(ada.id))), await channel.deliver(text(str(ada.id)))

    first, second = with_channel(go)

    assert first == second
    assert len(api.sent(ada)) == 1


def test_the_key_and_the_texts_are_in_no_log_error_or_repr(
    api: DiscordApi, with_channel: Callable[..., str], caplog: pytest.LogCaptureFixture
) -> None:
    caplog.set_level(logging.DEBUG)
    ada = api.person("Ada")
    secret = "MTAwMDAwMDAwMDAwMDAwMDAx.another.made-up-key"

    async def go(channel: Discord) -> str:
        errors = [await _error(channel.deliver(text(str(ada.id), "my private words")))]
        account = channel._account
        told = f"{account!r} {await account.client()!r}"
        return f"{told} {errors!r}"

    told = with_channel(go)
    told += repr(with_channel(lambda channel: _error(channel.check()), key=secret))

    for hidden in (secret, api.token, "private words"):
        assert hidden not in told + caplog.text


def test_the_librarys_addresses_are_put_back(api: DiscordApi, with_channel: Callable[..., str]) -> None:
    before = (Route.BASE, DiscordWebSocket.DEFAULT_GATEWAY)

    async def go(channel: Discord) -> str:
        await channel.check()
        return Route.BASE

    assert with_channel(go) == f"{api.base}/api/v10"
    assert before == (Route.BASE, DiscordWebSocket.DEFAULT_GATEWAY)


# Trying the account


def test_a_check_says_who_writes_where_and_who_decides(api: DiscordApi, with_channel: Callable[..., str]) -> None:
    told = with_channel(lambda channel: channel.check())

    assert told == (
        "TestBot answers; customers write in direct messages, #which-size; drafts are shown in #back-room, where 1 "
        "members may decide"
    )


def _everybody_reads(api: DiscordApi) -> None:
    api.world.backend.channels[api.back_room].overwrites.clear()


def _no_threads(api: DiscordApi) -> None:
    from simcord.backend.models import Overwrite
    from simcord.enums import OverwriteType

    deny = discord.Permissions(create_public_threads=True).value
    me = api.world.backend.bot_user.id
    api.world.backend.set_overwrite(api.shop_floor, Overwrite(target_id=me, type=OverwriteType.MEMBER, deny=deny))


def _gone(api: DiscordApi) -> None:
    api.world.backend.delete_channel(api.shop_floor)


def _switched_off(api: DiscordApi) -> None:
    api.world.message_content = False


@pytest.mark.parametrize(
    ("spoil", "words"),
    [
        pytest.param(_everybody_reads, "everybody on the server can read #back-room", id="public"),
        pytest.param(
            _no_threads, "lacks rights in #which-size on Discord; give it: Create Public Threads", id="rights"
        ),
        pytest.param(_gone, "cannot see the channel", id="gone"),
        pytest.param(_switched_off, "Message Content Intent", id="switched off"),
    ],
)
def test_a_check_says_what_has_to_be_mended(
    api: DiscordApi,
    with_channel: Callable[..., BotError | None],
    spoil: Callable[[DiscordApi], None],
    words: str,
) -> None:
    spoil(api)

    error = with_channel(lambda channel: _error(channel.check()))

    assert isinstance(error, MendError)
    assert words in str(error)


def test_a_token_that_is_refused_is_the_makers_to_mend(
    api: DiscordApi, with_channel: Callable[..., BotError | None]
) -> None:
    error = with_channel(lambda channel: _error(channel.receive()), key="another.made-up.key")

    assert isinstance(error, MendError)
    assert "token" in str(error)


def test_a_server_that_is_away_is_tried_again(api: DiscordApi, with_channel: Callable[..., BotError | None]) -> None:
    api.stop_listening()

    error = with_channel(lambda channel: _error(channel.receive()))
    api.start_listening()

    assert type(error) is ChannelError
