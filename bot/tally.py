"""Counts what a rehearsal would have done, so that a maker sees it before she switches anything on."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from bot.workshop import Judged
from replies.draft import DraftKind
from sizing.assessment import Assessment
from sizing.caution import Level
from sizing.measures import Measure
from sizing.outcome import Kind
from sizing.reasons import Why


@dataclass(slots=True)
class Tally:
    """What a rehearsal came to.

    drafts     what would have been drafted, message by message
    bad        lines that could not be answered: number and reason
    Of each dog as it stood after the last message of its conversation:
    outcomes   size and kind, None: still open
    missing, doubts, levels   what was missing, doubted, and how heavy it got
    unsure     dogs whose fit was not sure enough
    """

    messages: int = 0
    drafts: Counter[DraftKind] = field(default_factory=Counter)
    bad: list[tuple[int, str]] = field(default_factory=list)
    _latest: dict[str, Sequence[Assessment]] = field(default_factory=dict)

    def add(self, conversation: str, judged: Judged) -> None:
        """Count one message.

        conversation   a name of its own for each conversation
        """
        self.messages += 1
        self.drafts[judged.draft.kind] += 1
        self._latest[conversation] = judged.assessments

    @property
    def conversations(self) -> int:
        """How many conversations there were."""
        return len(self._latest)

    @property
    def dogs(self) -> list[Assessment]:
        """Every dog as it stood after the last message of its conversation."""
        return [dog for dogs in self._latest.values() for dog in dogs]

    def outcomes(self) -> Counter[tuple[Kind, str]]:
        """Count kinds of outcome, and within them sizes."""
        served = (dog.outcome for dog in self.dogs if dog.outcome is not None)
        return Counter((outcome.kind, outcome.size or "") for outcome in served)

    def missing(self) -> Counter[Measure]:
        """Count what was still missing."""
        return Counter(measure for dog in self.dogs for measure in dog.missing)

    def doubts(self) -> Counter[tuple[Measure, Why]]:
        """Count the likeliest doubts."""
        return Counter((dog.doubts[0].measure, dog.doubts[0].why) for dog in self.dogs if dog.doubts)

    def levels(self) -> Counter[Level]:
        """Count how heavy it got."""
        return Counter(dog.caution.level for dog in self.dogs if dog.caution is not None)

    @property
    def open(self) -> int:
        """How many dogs had something missing or doubted at the end."""
        return sum(dog.outcome is None for dog in self.dogs)

    @property
    def unsure(self) -> int:
        """How many dogs had a fit that was not sure enough."""
        return sum(dog.ask_again is not None for dog in self.dogs)
