"""What the maker should know beside the fit: no rated load, an edge that cannot be cut, a puppy, a posture."""

from collections.abc import Iterator

from sizing.assessment import Note, Remark
from sizing.caution import Caution
from sizing.chart import Shop
from sizing.measures import Dog
from sizing.outcome import Kind, Outcome


def notes(dog: Dog, shop: Shop, *, outcome: Outcome | None = None, caution: Caution | None = None) -> tuple[Note, ...]:
    """Give the notes on a dog and, once it is known, on what serves it."""
    found: list[Note] = []
    if outcome is not None:
        found.extend(_on_outcome(outcome, shop))
    if caution is not None and caution.empty_estimated:
        found.append(
            Note(
                remark=Remark.EMPTY_ESTIMATED,
                text="The empty weight is estimated from the sewn area: weigh the finished carrier.",
            )
        )
    return tuple(found)


def _on_outcome(outcome: Outcome, shop: Shop) -> Iterator[Note]:
    if outcome.concern == "opening":
        yield Note(
            remark=Remark.NO_OPENING,
            text="No cutting step serves for the opening: there is no room between throat hollow and elbow.",
        )
    if outcome.kind in (Kind.STANDARD, Kind.ALTERED_OPENING) and outcome.size is not None:
        rated = shop.size(outcome.size).rated_load
    elif outcome.kind is Kind.MADE_TO_MEASURE:
        rated = shop.made_to_measure_rated_load
    else:
        return
    if rated is None:
        yield Note(
            remark=Remark.NO_RATED_LOAD,
            text="No rated load is set for this construction: nothing is claimed about its strength. Proof-test it.",
        )
