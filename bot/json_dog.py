"""What other programs are told of a dog and of the chart: part of the fixed interface, in inches and pounds always."""

import json
from collections.abc import Mapping
from typing import Any, NoReturn

from pydantic import BaseModel, ConfigDict

from sizing.assessment import Assessment
from sizing.chart import Shop
from sizing.measures import FIVE
from sizing.outcome import Dimensions


class Out(BaseModel):
    """Part of what other programs are told."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class MeasureOut(Out):
    """One measure. `span` are code points of `words` in the text of the line `message`."""

    low: float
    high: float
    words: str | None
    span: tuple[int, int] | None
    message: str | None


class DoubtOut(Out):
    """One reason for doubt."""

    measure: str
    why: str
    likely: float | None


class InsideOut(Out):
    """Finished inside dimensions."""

    length: float
    width: float
    height: float

    @classmethod
    def of(cls, inside: Dimensions) -> "InsideOut":
        """Give dimensions for other programs."""
        return cls(length=inside.length, width=inside.width, height=inside.height)


class OutcomeOut(Out):
    """What serves the dog."""

    kind: str
    size: str | None
    fallback: str | None
    inside: InsideOut | None
    opening: float | None
    concern: str | None
    sure: float | None
    caution: str | None


class DogOut(Out):
    """A dog as it stands."""

    name: str | None
    measures: dict[str, MeasureOut]
    missing: list[str]
    doubts: list[DoubtOut]
    outcome: OutcomeOut | None


def dog_out(name: str | None, measures: Mapping[str, MeasureOut], assessment: Assessment) -> DogOut:
    """Give a dog with what the engine says of it."""
    return DogOut(
        name=name,
        measures=dict(measures),
        missing=[measure.value for measure in FIVE if measure in assessment.missing],
        doubts=[DoubtOut(measure=d.measure, why=d.why, likely=d.likely) for d in assessment.doubts],
        outcome=_outcome_out(assessment),
    )


def _outcome_out(assessment: Assessment) -> OutcomeOut | None:
    outcome = assessment.outcome
    if outcome is None:
        return None
    return OutcomeOut(
        kind=outcome.kind,
        size=outcome.size,
        fallback=outcome.fallback,
        inside=InsideOut.of(outcome.inside) if outcome.inside else None,
        opening=outcome.opening,
        concern=outcome.concern,
        sure=outcome.sure,
        caution=assessment.caution.level if assessment.caution else None,
    )


def chart_out(shop: Shop) -> dict[str, Any]:
    """Give the chart and settings in force, so that another program can check an outcome."""
    return {
        "sizes": [size.model_dump() for size in shop.sizes],
        "ease": shop.ease.model_dump(),
        "pad": shop.pad,
        "wall": shop.wall,
        "step": shop.step,
        "elbow": shop.elbow,
        "sewn": shop.sewn.model_dump(),
        "made_to_measure_rated_load": shop.made_to_measure_rated_load,
        "pockets": shop.pockets,
        "ask_again_below": shop.ask_again_below,
    }


def to_json(model: BaseModel) -> str:
    """Give one line of JSON, in ASCII: a terminal's or a pipe's encoding cannot spoil it, nor half a surrogate pair."""
    return json.dumps(model.model_dump(), allow_nan=False, default=_never)


def _never(value: object) -> NoReturn:
    raise TypeError(f"{type(value).__name__} has no place in the interface")
