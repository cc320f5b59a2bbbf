"""What a draft is: a text for the customer that has not been sent, and what it asks for."""

from dataclasses import dataclass
from enum import StrEnum

from replies.reading.context import Asked


class DraftKind(StrEnum):
    """What the text does."""

    QUESTION = "question"
    """Asks for missing or doubtful measures."""
    ANSWER = "answer"
    """Recommends a size."""
    HANDOVER = "handover"
    """The maker must write it: it says what was understood."""
    NONE = "none"
    """Nothing to send."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A text for the customer that has not been sent.

    asks       what it asks for, in order; of a handover what is still open; () for an answer
    places     marked places in the text that the maker must fill before it can go
    cautions   the lines of the weight-safety caution as they stand in the text; () where it has none
    """

    kind: DraftKind
    text: str = ""
    asks: tuple[Asked, ...] = ()
    places: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
