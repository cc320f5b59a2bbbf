"""What is doubted about a dog, in words short enough for a table."""

from dataclasses import replace

from sizing.judge import judge
from sizing.measures import Dog
from tests.sizing.dogs import Value, dog

ORDINARY: dict[str, Value] = {"length": 12.5, "height": 10.5, "width": 5, "throat": 7.5, "weight": 11.5}
"""A dog about which nothing is doubtful."""


def doubted(told: Dog) -> set[str]:
    """Give each doubt as "measure why"."""
    return {f"{doubt.measure} {doubt.why}" for doubt in judge(told)}


def first(told: Dog) -> str:
    """Give the likeliest doubt as "measure why", or "" where there is none."""
    return next((f"{doubt.measure} {doubt.why}" for doubt in judge(told)), "")


def ordinary(**changed: Value) -> Dog:
    """Make the ordinary dog with some measures changed; None takes one out."""
    return dog(**{**ORDINARY, **changed})


def bare(told: Dog) -> Dog:
    """Take the units off all numbers of a dog."""
    return replace(told, measures={m: replace(taken, unit_stated=False) for m, taken in told.measures.items()})


def of_breed(told: Dog, *breeds: str, age_months: float | None = None) -> Dog:
    """Name the breeds, and the age, of a dog."""
    return replace(told, breeds=breeds, age_months=age_months)
