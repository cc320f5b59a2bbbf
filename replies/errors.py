"""What `replies` raises, and who has to act: ours is for the maker to mend, nothing here is the customer's fault."""

from collections.abc import Sequence
from dataclasses import dataclass


class RepliesError(Exception):
    """Base of everything that this package raises on purpose."""


class WordListError(RepliesError):
    """A word list cannot be used. The message names the file, the key and what to do."""

    def __init__(self, file: str, key: str, remedy: str) -> None:
        super().__init__(f"{file}: {key}: {remedy}")
        self.file = file
        self.key = key
        self.remedy = remedy


@dataclass(frozen=True, slots=True, kw_only=True)
class WordingFault:
    """One fault in a template.

    template   such as "doubts/girth.jinja"
    line       counted from 1; None where no line is to blame
    own        it is the maker's own version, not the one that comes with tapeline
    """

    template: str
    line: int | None
    problem: str
    remedy: str
    own: bool = True

    def __str__(self) -> str:
        folder = "wording" if self.own else "replies/writing/templates"
        line = f", line {self.line}" if self.line is not None else ""
        return f"{folder}/{self.template}{line}: {self.problem}; {self.remedy}"


class WordingError(RepliesError):
    """Templates cannot be used: the maker must mend them. It names every fault, not the first alone."""

    def __init__(self, faults: Sequence[WordingFault]) -> None:
        self.faults: tuple[WordingFault, ...] = tuple(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))
