"""An enquiry as it stands: the dogs with their measures, each with the message it came from, and what is open.

It is computed from what was kept (messages, the maker's corrections, texts that went out), never patched.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime

from replies.reading.context import Asked, Channel
from replies.reading.facts import Passage, Reading, Topic
from sizing.measures import Amount, Dog, Measure, Posture, SpaceLimit, Taken


@dataclass(frozen=True, slots=True, kw_only=True)
class MessageEvent:
    """A customer's message at its latest revision.

    asked      what had just been asked, overriding what the enquiry knows; None: what the enquiry knows
    reopened   its customer changed it after the last text went out, so that no text has answered it yet
    """

    id: str
    text: str
    channel: Channel = Channel.CHAT
    sent_at: datetime | None = None
    subject: str = ""
    asked: tuple[Measure, ...] | None = None
    reopened: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class CorrectionEvent:
    """A measure that the maker set. It outlives a later customer's value.

    dog    index of the dog, in order of first mention
    taken  inches or pounds
    """

    dog: int
    measure: Measure
    taken: Taken


@dataclass(frozen=True, slots=True, kw_only=True)
class SentEvent:
    """A text that went out.

    asks   what it asked for, in order; () for an answer
    """

    asks: tuple[Asked, ...] = ()


Event = MessageEvent | CorrectionEvent | SentEvent


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """Where a measure came from: the message's id and the words in it; by_maker: she set it herself."""

    message: str | None
    at: Passage | None
    by_maker: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """One measure of a dog with its source and the unit in which the customer gave it.

    written   the number as written, both ends; in `unit`
    before    values that were told earlier and gave way, oldest first
    """

    taken: Taken
    source: Source
    unit: str
    written: tuple[float, float]
    before: tuple[Amount, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class EnquiryDog:
    """A dog of the enquiry.

    sex   "he" or "she", as the customer speaks of it; None: not told
    """

    name: str | None = None
    breeds: tuple[str, ...] = ()
    sex: str | None = None
    age_months: float | None = None
    posture: Posture | None = None
    space: SpaceLimit | None = None
    measures: Mapping[Measure, Known] = field(default_factory=dict)

    def for_sizing(self) -> Dog:
        """Give the dog as the sizing engine takes it."""
        return Dog(
            name=self.name,
            measures={measure: known.taken for measure, known in self.measures.items()},
            breeds=self.breeds,
            age_months=self.age_months,
            posture=self.posture,
            space=self.space,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Enquiry:
    """An enquiry after all its events.

    dogs       in order of first mention; () while nothing is known of any dog
    topic      of the last message
    also_other the last message is about fit and also asks something else
    other      passages of messages since the last text went out that the maker must answer herself: id, words
    asked      what the last text asked for and no message has answered yet
    unanswered the weightiest topic of what came since the last text went out: sizing (as is a maker's correction), then
               other, then none; NONE: nothing is to be written
    sent       how many texts went out so far
    asked_again  measures, by dog, that were known and were asked for once more without a doubt about them
    together   the dogs are to ride in one carrier
    readings   the reading of each message, by id, in order
    units      the customer's units for lengths and weights: what she last wrote, else the shop's
    last       the last message; None: none yet
    """

    dogs: tuple[EnquiryDog, ...] = ()
    topic: Topic = Topic.NONE
    also_other: bool = False
    other: tuple[tuple[str, Passage], ...] = ()
    asked: tuple[Asked, ...] = ()
    unanswered: Topic = Topic.NONE
    sent: int = 0
    asked_again: frozenset[tuple[int, Measure]] = frozenset()
    together: bool = False
    readings: Mapping[str, Reading] = field(default_factory=dict)
    length_unit: str = "in"
    weight_unit: str = "lb"
    last: MessageEvent | None = None
