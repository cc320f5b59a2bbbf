"""The bot's account on Discord: logged in when it is first needed, its key shown nowhere.

The library logs what it sends and receives, which is private: its loggers are kept silent. Each call opens a connection
of its own: a kept one that the server has closed meanwhile would leave it unsure whether a text went, while a
connection that was never made surely carried nothing.
"""

import asyncio
import logging
from collections.abc import Awaitable, Callable, Iterator
from contextlib import contextmanager
from typing import Any, TypeVar

import aiohttp
import discord
import yarl
from discord.gateway import DiscordWebSocket
from discord.http import Route

from bot.channels.discord.fate import FAULTS, kind, watch, words
from bot.errors import ChannelError, MendError, NotGoneError, RefusedError
from bot.log import trouble

PUBLIC_SERVER = "https://discord.com"
PUBLIC_GATEWAY = "wss://gateway.discord.gg"
CONNECT_S = 10.0
ANSWER_S = 30.0
LONGEST_WAIT_S = 30.0
"""The library waits so long by itself where the server asks to; longer waits come back to us."""
TRIES = 3
PAUSE_S = 1.0

SESSIONS_APART_S = 5.0

KEY_REFUSED = "Discord does not accept the bot's token; put a valid one into the shop's secrets"
CONTENT_REFUSED = (
    "Discord does not let the bot read messages in channels: switch on Message Content Intent for it in the developer "
    "portal, or take the numbers out of discord.channels"
)
_CLOSED_FOR_KEY, _CLOSED_FOR_INTENTS = 4004, (4013, 4014)

Result = TypeVar("Result")


class Client(discord.Client):
    """The library's client, which never mentions anybody."""

    def __init__(self, *, reads_channels: bool) -> None:
        intents = discord.Intents.none()
        intents.guilds = True
        intents.dm_messages = True
        intents.guild_messages = reads_channels
        intents.message_content = reads_channels  # privileged; direct messages come with their words without it
        super().__init__(
            intents=intents,
            allowed_mentions=discord.AllowedMentions.none(),
            max_messages=None,
            max_ratelimit_timeout=LONGEST_WAIT_S,
            connector=aiohttp.TCPConnector(limit=0, force_close=True),
            http_trace=watch(),
        )
        parsers = self._connection.parsers
        parsers.update({event: _passing_over(parse) for event, parse in parsers.items()})

    def __repr__(self) -> str:
        return "Client(key withheld)"

    async def before_identify_hook(self, shard_id: int | None, *, initial: bool = False) -> None:
        """Wait before a new session follows one that was lost: Discord takes one in five seconds."""
        if not initial:
            await asyncio.sleep(SESSIONS_APART_S)


def _passing_over(parse: Callable[[Any], object]) -> Callable[[Any], None]:
    """One event that the library cannot read must not end the session, and with it all that comes after."""

    def parsed(data: Any) -> None:  # noqa: ANN401 - as the service tells it
        try:
            parse(data)
        except Exception as error:
            trouble(f"an event on Discord cannot be read ({type(error).__name__}) and was passed over")

    return parsed


class Account:
    """A bot's account on one server. Close it.

    answer_s   the server has so many seconds to answer a call
    """

    def __init__(
        self,
        key: str,
        *,
        server: str = PUBLIC_SERVER,
        gateway: str = PUBLIC_GATEWAY,
        reads_channels: bool = False,
        answer_s: float = ANSWER_S,
    ) -> None:
        _keep_library_silent()
        self._key = key
        self._reads_channels = reads_channels
        self._addresses = _Addresses(server, gateway)
        self._client: Client | None = None
        self._turn = asyncio.Lock()
        self.answer_s = answer_s

    def __repr__(self) -> str:
        return "Account(key withheld)"

    async def client(self) -> Client:
        """Give the client, logged in, anew where it was closed.

        Raises   MendError, ChannelError
        """
        async with self._turn:
            if self._client is None or self._client.is_closed():
                self._client = await self._logged_in()
            return self._client

    async def _logged_in(self) -> Client:
        self._addresses.use()
        client = Client(reads_channels=self._reads_channels)
        try:
            with in_words():
                async with asyncio.timeout(self.answer_s):
                    await client.login(self._key)
        except BaseException:
            await client.close()
            raise
        return client

    async def tried(self, call: Callable[[], Awaitable[Result]]) -> Result:
        """Make a call, again after a short wait where the network failed.

        Never for a customer's text, which may go once only.
        Raises   RefusedError: the server will not do it; ChannelError: it could not be reached; MendError
        """
        for attempt in range(1, TRIES + 1):
            try:
                with in_words():
                    async with asyncio.timeout(self.answer_s):
                        return await call()
            except (RefusedError, NotGoneError):
                raise
            except ChannelError:
                if attempt == TRIES:
                    raise
                await asyncio.sleep(PAUSE_S * attempt)
        raise AssertionError("the last attempt either gives or raises")

    async def close(self) -> None:
        """Close all connections."""
        if self._client is not None:
            await self._client.close()
        self._addresses.give_back()


class _Addresses:
    """The library keeps its addresses in two places for all clients at once: they are changed only where the settings
    say so, and put back afterwards."""

    def __init__(self, server: str, gateway: str) -> None:
        public = (server.rstrip("/"), gateway.rstrip("/")) == (PUBLIC_SERVER, PUBLIC_GATEWAY)
        self._ours = None if public else (f"{server.rstrip('/')}/api/v10", yarl.URL(gateway))
        self._before: tuple[str, yarl.URL] | None = None

    def use(self) -> None:
        if self._ours is not None and self._before is None:
            self._before = (Route.BASE, DiscordWebSocket.DEFAULT_GATEWAY)
            Route.BASE, DiscordWebSocket.DEFAULT_GATEWAY = self._ours

    def give_back(self) -> None:
        if self._before is not None:
            Route.BASE, DiscordWebSocket.DEFAULT_GATEWAY = self._before
            self._before = None


@contextmanager
def in_words() -> Iterator[None]:
    """Turn the library's errors into whose turn it is. No message holds the key.

    Raises   MendError, RefusedError, NotGoneError: the server asks to wait; ChannelError
    """
    try:
        yield
    except discord.LoginFailure:
        raise MendError(KEY_REFUSED) from None
    except discord.PrivilegedIntentsRequired:
        raise MendError(CONTENT_REFUSED) from None
    except discord.ConnectionClosed as error:
        raise _closed(error.code) from None
    except discord.RateLimited as error:
        raise NotGoneError("Discord asks to wait", retry_after_s=error.retry_after) from None
    except discord.HTTPException as error:
        raise _answered(error) from None
    except (*FAULTS, discord.GatewayNotFound) as error:
        raise ChannelError(f"Discord cannot be reached ({kind(error)})") from None


def _closed(code: int) -> MendError | ChannelError:
    if code == _CLOSED_FOR_KEY:
        return MendError(KEY_REFUSED)
    if code in _CLOSED_FOR_INTENTS:
        return MendError(CONTENT_REFUSED)
    return ChannelError(f"Discord closed the connection (code {code})")


def _answered(error: discord.HTTPException) -> MendError | ChannelError:
    if error.status == 401:
        return MendError(KEY_REFUSED)
    if error.status == 429:
        return NotGoneError("Discord asks to wait")
    if error.status >= 500:
        return ChannelError(f"Discord cannot be reached ({kind(error)})")
    return RefusedError(f"Discord refused it: {words(error)}")


def _keep_library_silent() -> None:
    logging.getLogger("discord").setLevel(logging.CRITICAL + 1)
