"""The channels by name: what each takes in one message."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from bot.channels.discord import text as discord_text
from bot.message import ChannelName
from bot.paragraphs import in_parts, utf16_units


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What a channel takes.

    longest      of one message, as `size` counts; None: any length
    settles      customers write several short messages in a row: a draft waits until they pause
    """

    longest: int | None = None
    size: Callable[[str], int] = len
    settles: bool = False


LIMITS: Mapping[ChannelName, Limits] = MappingProxyType(
    {
        ChannelName.TELEGRAM: Limits(longest=4096, size=utf16_units, settles=True),
        ChannelName.DISCORD: Limits(longest=discord_text.LIMIT, size=discord_text.size, settles=True),
        ChannelName.EMAIL: Limits(),
        ChannelName.PASTE: Limits(),
    }
)


def parts_for(channel: ChannelName, text: str) -> list[str]:
    """Cut a text into the messages that a channel takes."""
    limits = LIMITS[channel]
    return in_parts(text, limits.longest, size=limits.size)
