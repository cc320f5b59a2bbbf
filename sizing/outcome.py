"""The five outcomes that a fit can have, and what each one says."""

from dataclasses import dataclass
from enum import StrEnum

from sizing.measures import Measure


class Kind(StrEnum):
    """How a dog can be served."""

    STANDARD = "standard"
    ALTERED_OPENING = "altered_opening"
    MADE_TO_MEASURE = "made_to_measure"
    NOT_SAFE = "not_safe"
    OUTSIDE_RANGE = "outside_range"


class Direction(StrEnum):
    """Where a carrier leaves room, or where its edge sits."""

    LENGTH = "length"
    WIDTH = "width"
    HEIGHT = "height"
    DROP = "drop"
    """Edge of the opening below the throat hollow."""


class Room(StrEnum):
    """How much room a direction leaves; for the drop: the edge too high, right, too low."""

    TIGHT = "tight"
    RIGHT = "right"
    ROOMY = "roomy"


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimensions:
    """Finished inside dimensions in inches."""

    length: float
    width: float
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Slack:
    """The room that one direction leaves, in inches, beside what the shop's ease asks for."""

    direction: Direction
    slack: float
    least: float
    aim: float
    most: float

    @property
    def room(self) -> Room:
        """Tight below least, roomy above most, right between."""
        if self.slack < self.least - 1e-9:
            return Room.TIGHT
        return Room.ROOMY if self.slack > self.most + 1e-9 else Room.RIGHT


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What serves a dog.

    size       name of the standard size; None for made to measure and where nothing serves
    fallback   made to measure only: the smallest standard size that is tight nowhere; None: there is none
    inside     finished inside dimensions, inches; None where nothing serves
    opening    height of the opening's lower edge above the board, inches; None where nothing serves, or where no
               cutting step serves (then `concern` is "opening")
    concern    "opening" or None
    slacks     the four directions of what is recommended; () where nothing serves
    sure       probability that the recommended carrier serves the dog, 0 to 1; None where nothing serves
    sure_measure  the measure that would raise `sure` most if taken again; None where nothing serves
    """

    kind: Kind
    size: str | None = None
    fallback: str | None = None
    inside: Dimensions | None = None
    opening: float | None = None
    concern: str | None = None
    slacks: tuple[Slack, ...] = ()
    sure: float | None = None
    sure_measure: Measure | None = None
