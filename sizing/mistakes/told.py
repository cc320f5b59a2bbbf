"""A dog's measures as they were told, in the form in which mistakes look at them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from sizing.body import ORDER
from sizing.measures import Measure
from sizing.reasons import Why

Logs = tuple[float | None, ...]
"""Natural logarithms of the measures in body.ORDER; None: unknown."""

LENGTHS: tuple[Measure, ...] = tuple(measure for measure in ORDER if measure is not Measure.WEIGHT)


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What was told of a dog and is to be judged.

    logs        natural logarithms of inches and pounds in body.ORDER; None: not told
    unstated    measures whose unit was not said
    """

    logs: Logs
    unstated: frozenset[Measure] = frozenset()

    def given(self, *measures: Measure) -> bool:
        """Tell whether all these measures were told."""
        return all(self.logs[ORDER.index(measure)] is not None for measure in measures)

    def log(self, measure: Measure) -> float:
        """Give the logarithm of a measure that was told.

        Raises   LookupError when it was not
        """
        value = self.logs[ORDER.index(measure)]
        if value is None:
            raise LookupError(f"{measure} was not told")
        return value

    def without(self, measures: Iterable[Measure]) -> Told:
        """Give what was told less some measures."""
        return replace(self, logs=self.but(dict.fromkeys(measures)))

    def but(self, changed: Mapping[Measure, float | None]) -> Logs:
        """Give the logarithms with some of them changed; None takes one out."""
        return tuple(changed.get(measure, value) for measure, value in zip(ORDER, self.logs, strict=True))


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way in which a mistake may have come about.

    share   natural logarithm of: how often the mistake comes about in this way, times the density of what was told
            and is no longer in `logs`, times the change of scale where the transformation is not a shift
    logs    the dog without the mistake; a measure that the mistake hides is None
    """

    share: float
    logs: Logs


@dataclass(frozen=True, slots=True, kw_only=True)
class Mistake:
    """A hypothesis: one mistake that may have been made in measuring this dog.

    why       the reason for doubt that it gives
    measures  the measures that it accuses, the one to ask about first
    rate      how many dogs in a hundred are told with this mistake, as far as anybody knows: names the reason
    heed      its weight when it is decided whether to ask at all; 1: like any other
    ways      how it may have come about; the exponentials of their shares weigh them
    """

    why: Why
    measures: tuple[Measure, ...]
    rate: float
    heed: float = 1.0
    ways: tuple[Way, ...]
