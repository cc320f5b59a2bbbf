"""What the engine raises, and who has to act."""

from collections.abc import Sequence
from dataclasses import dataclass


class SizingError(Exception):
    """Anything that the engine refuses."""


class AmountError(SizingError, ValueError):
    """An amount as written cannot be understood: whoever wrote it must write it again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One setting that cannot be.

    key     where it stands, such as "ease.length.most" or "sizes.No. 2.opening"
    given   what stands there, in the maker's own unit; "" where nothing does
    right   what would be right, as a sentence without a full stop
    """

    key: str
    given: str
    right: str

    def __str__(self) -> str:
        return f"{self.key} = {self.given}: {self.right}" if self.given else f"{self.key}: {self.right}"


class ShopError(SizingError, ValueError):
    """Settings of the shop cannot be: the maker must mend them. It names every fault, not the first alone."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults: tuple[Fault, ...] = tuple(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))


class DataError(SizingError):
    """A data file of the engine is missing or wrong: the installation must be mended."""


class LiftError(SizingError, ValueError):
    """A lift lies outside what the lifting equation covers."""
