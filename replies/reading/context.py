"""What is known when a message is read: the dogs so far, what had just been asked, and the units in use."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from sizing.measures import Amount, Measure
from sizing.reasons import Why


class Channel(StrEnum):
    """The kind of text, which decides what is quoted history and how lines break."""

    CHAT = "chat"
    EMAIL = "email"
    PASTE = "paste"


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One thing that a question asked for.

    dog   index in Context.dogs; 0 where no dog was known yet
    why   the doubt that was asked about; None: the measure was missing
    """

    measure: Measure
    dog: int = 0
    why: Why | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownDog:
    """A dog of the enquiry as it stands before the message.

    sex           "he" or "she", as the customer speaks of it; None: not told
    measures      inches and pounds
    length_unit, weight_unit   the unit in which the customer last gave one; None: none stated
    unit_open     measures whose number came without any unit
    before        values of a measure that gave way to another one, oldest first
    conflicting   the different values that were given for a measure, in the order in which they were told
    """

    name: str | None = None
    breeds: tuple[str, ...] = ()
    sex: str | None = None
    measures: Mapping[Measure, Amount] = field(default_factory=dict)
    length_unit: str | None = None
    weight_unit: str | None = None
    unit_open: frozenset[Measure] = frozenset()
    before: Mapping[Measure, tuple[Amount, ...]] = field(default_factory=dict)
    conflicting: Mapping[Measure, tuple[Amount, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Context:
    """What is known when a message is read.

    asked        in the order in which it was asked; (): nothing was asked just before
    dogs         in order of first mention
    length_unit, weight_unit   the shop's own units: "in" or "cm", "lb" or "kg"
    first        nothing older in the enquiry: the customer's own quoted lines are then read as hers
    """

    channel: Channel = Channel.CHAT
    asked: tuple[Asked, ...] = ()
    dogs: tuple[KnownDog, ...] = ()
    length_unit: str = "in"
    weight_unit: str = "lb"
    first: bool = True
