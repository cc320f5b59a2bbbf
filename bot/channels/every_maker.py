"""Shows or tells something to every maker of a channel."""

from collections.abc import Awaitable, Callable, Sequence
from typing import TypeVar

from bot.errors import ChannelError
from bot.log import trouble
from bot.message import ChannelName

M = TypeVar("M", int, str)


async def to_every(makers: Sequence[M], one: Callable[[M], Awaitable[None]], *, channel: ChannelName) -> None:
    """Do it for every maker; one who cannot be reached keeps it from none of the others.

    Raises   ChannelError where nobody could be reached
    """
    failed: list[ChannelError] = []
    for place, maker in enumerate(makers, start=1):
        try:
            await one(maker)
        except ChannelError as error:
            failed.append(error)
            trouble("a maker could not be told", channel=channel, place=place)  # an address is nothing for a log
    if failed and len(failed) == len(makers):
        raise failed[0]
