"""What reading a message gives: each number with its measure, unit and the characters it came from."""

from dataclasses import dataclass, field
from enum import StrEnum

from sizing.measures import Amount, Measure, Posture, SpaceLimit
from sizing.reasons import Why


class Topic(StrEnum):
    """What a message is."""

    SIZING = "sizing"
    """About fit: it asks for a size or gives measures."""
    OTHER = "other"
    """Something else that the maker must answer."""
    NONE = "none"
    """Nothing to answer."""


class Manner(StrEnum):
    """How a value was told, which decides what becomes of an earlier one (see fold)."""

    PLAIN = "plain"
    """Said without a word about any earlier value: a different one is a conflict."""
    CORRECTION = "correction"
    """Said to correct: it replaces the earlier one."""
    AGAIN = "again"
    """Measured again or later: it replaces the earlier one."""
    ANSWER = "answer"
    """The answer to what was just asked about this very measure: it replaces the earlier one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Passage:
    """A stretch of a message: code points [start, end) and the words that stand there."""

    start: int
    end: int
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """One value of one measure.

    amount    inches or pounds
    written   the number as written, before any conversion (feet and inches, pounds and ounces: in the smaller unit)
    unit      the unit that counts for it: "in", "cm", "mm", "m", "ft", "lb", "kg", "g", "oz", "st"; the shop's own
              where none was told
    unit_stated   False: no unit was told for it anywhere, the shop's own was taken
    at        the words that gave the value, as they stand in the text as it came
    label     the words that named the measure; None: position or the question decided
    hedged, vague, hints   as in sizing.measures.Taken
    """

    measure: Measure
    amount: Amount
    written: Amount
    unit: str
    unit_stated: bool
    at: Passage
    label: Passage | None = None
    hedged: bool = False
    vague: bool = False
    hints: frozenset[Why] = frozenset()
    manner: Manner = Manner.PLAIN
    conflicting: tuple[Amount, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class DogReading:
    """What a message says of one dog.

    known   its index in Context.dogs where it is a dog that was known; None: a dog mentioned here first
    sex     "he" or "she", as the customer speaks of it; None: not told
    """

    known: int | None = None
    name: str | None = None
    breeds: tuple[str, ...] = ()
    sex: str | None = None
    age_months: float | None = None
    posture: Posture | None = None
    space: SpaceLimit | None = None
    facts: tuple[Fact, ...] = ()
    confirmed: frozenset[tuple[Measure, Why]] = frozenset()
    withdrawn: frozenset[Measure] = frozenset()
    """Values that the customer takes back without giving others ("forget the width, I measured around")."""


class SetAside(StrEnum):
    """Why a number was not taken for a measure of a dog to be carried. Words live in distractors.toml."""

    UNCLEAR = "unclear"
    """Two readings are nearly as good: it is asked for instead."""
    NOT_A_MEASURE = "not_a_measure"
    """A date, an age, a price, a count, an address, somebody else's size ..."""
    NOT_THIS_DOG = "not_this_dog"
    """Of a dog or another animal that is not to be carried."""
    QUOTED = "quoted"
    """Stands in quoted history, a signature or a footer."""
    WITHDRAWN = "withdrawn"
    """Negated or corrected by the customer in the same breath."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Aside:
    """A number that was seen and left, with the reason in the maker's words."""

    at: Passage
    why: SetAside
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What was taken from one message.

    dogs         in order of first mention in this message
    other        the passages that ask something the maker must answer herself
    also_other   a message about fit that also asks something else
    length_unit, weight_unit   a unit told late, for earlier numbers that had none ("all in cm btw"); None: not told
    aside        every number that was seen and left
    together     the dogs are to ride in one carrier, or each in its own; None: not said
    """

    topic: Topic
    also_other: bool = False
    other: tuple[Passage, ...] = ()
    dogs: tuple[DogReading, ...] = ()
    length_unit: str | None = None
    weight_unit: str | None = None
    aside: tuple[Aside, ...] = field(default=())
    together: bool | None = None
