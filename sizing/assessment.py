"""What the engine says of one dog: what is missing, doubted, fitting and heavy, and what the maker should know."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from sizing.caution import Caution
from sizing.doubt import Doubt
from sizing.growth import Growth
from sizing.measures import Dog, Measure
from sizing.outcome import Dimensions, Kind, Outcome, Slack
from sizing.space import Space


class Remark(StrEnum):
    """Something that the maker should know and that no measure says. `Note.text` has it in words."""

    NO_RATED_LOAD = "no_rated_load"
    """The recommended carrier has no rated load: no strength is claimed."""
    NO_OPENING = "no_opening"
    """No cutting step serves for the opening."""
    FALLBACK_EDGE = "fallback_edge"
    """The edge of the fallback lies below the dog's elbow: it must not go out uncut."""
    EMPTY_ESTIMATED = "empty_estimated"
    """The empty weight of a carrier made to measure is an estimate."""
    PUPPY = "puppy"
    """The dog is not grown up."""
    POSTURE = "posture"
    """The dog is to sit or to curl up."""
    SPACE = "space"
    """The customer named an outer size that must not be exceeded."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """One remark for the maker, in words."""

    remark: Remark
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Neighbour:
    """The next standard size either way, and why it is not the one.

    slacks         its four directions
    holds          its rated load, if it has one, holds the dog
    clears_elbow   its edge lies at the elbow or above
    fits           it would do as well; it is only farther from aim
    """

    size: str
    larger: bool
    slacks: tuple[Slack, ...]
    holds: bool
    clears_elbow: bool
    fits: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class WouldBe:
    """What it would be once the throat height is known; for the maker, never the customer.

    size     the standard size that is right in length, width and height; None: there is none
    inside   its inside dimensions, or those made to measure, inches
    """

    kind: Kind
    size: str | None
    inside: Dimensions | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Assessment:
    """What the engine says of one dog.

    on           the day of the assessment
    missing      measures that must still be asked for, in the order in which they are asked for
    doubts       most likely first
    outcome      None while something is missing or doubted
    caution      None while the outcome is
    ask_again    the one measure to have taken again because the fit is not sure enough; None: sure enough
    would_be     None unless the throat height alone is missing and nothing is doubted
    neighbours   the next smaller and the next larger standard size, where there are such
    growth       None for a grown dog, or where no age was told
    space        the recommended carrier against the size that the customer named; None: none named, or nothing serves
    notes        for the maker
    """

    dog: Dog
    on: date
    missing: tuple[Measure, ...] = ()
    doubts: tuple[Doubt, ...] = ()
    outcome: Outcome | None = None
    caution: Caution | None = None
    ask_again: Measure | None = None
    would_be: WouldBe | None = None
    neighbours: tuple[Neighbour, ...] = ()
    growth: Growth | None = None
    space: Space | None = None
    notes: tuple[Note, ...] = ()
