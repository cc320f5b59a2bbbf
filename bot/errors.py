"""What the bot raises, and who has to act.

`MendError`: something in the shop must be repaired before work goes on. `DeclinedError`: what was asked for cannot be
done; nothing has moved. `ChannelError`: a channel did not do what it was asked; which of its three kinds it is decides
what becomes of a text.
"""

from collections.abc import Sequence
from dataclasses import dataclass


class BotError(Exception):
    """Base of everything that this package raises on purpose. The message is for the maker."""


class MendError(BotError):
    """Ours: the maker must repair something in her shop."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing that is wrong in a file of the shop.

    file     its name
    key      the setting, or the line; "" where it is the whole file
    given    what stands there, shortened; None where nothing does or where it must not be repeated
    remedy   what would be right
    """

    file: str
    key: str
    given: str | None
    remedy: str

    def __str__(self) -> str:
        """Give the fault in one line."""
        at = f"{self.file}: {self.key}" if self.key else self.file
        return f"{at} is {self.given}: {self.remedy}" if self.given is not None else f"{at}: {self.remedy}"


class SettingsError(MendError):
    """Files of the shop that cannot be used, with every fault in them."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        super().__init__("\n".join(str(fault) for fault in faults))
        self.faults = tuple(faults)


class NoShopError(MendError):
    """No shop was found where one was looked for."""


class StoreError(MendError):
    """The store cannot be used: damaged, locked, not writable, or made by a newer tapeline."""


class DeclinedError(BotError):
    """What was asked for cannot be done as it stands. Nothing has moved."""


class NotThereError(DeclinedError):
    """There is no such enquiry, draft or message."""


class CorrectionError(DeclinedError):
    """A correction that cannot be read."""


class ChannelError(BotError):
    """Theirs: a channel did not do what it was asked."""


class NotGoneError(ChannelError):
    """The text has surely not gone: the connection was refused, or the channel asked to wait. It is tried again.

    retry_after_s   how long the channel asked to wait, in seconds; None: it did not say
    """

    def __init__(self, message: str, *, retry_after_s: float | None = None) -> None:
        super().__init__(message)
        self.retry_after_s = retry_after_s


class RefusedError(ChannelError):
    """The channel will never take this text. It failed for good, and the maker is told."""


class UnsureError(ChannelError):
    """The text was handed over, and nobody knows whether it went. It is never sent again by itself."""
