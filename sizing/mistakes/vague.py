"""A guess instead of a measurement."""

from collections.abc import Iterator

from sizing.doubt import Doubt
from sizing.measures import Dog
from sizing.reasons import Why


def said(dog: Dog) -> Iterator[Doubt]:
    """Doubt each measure that was guessed; a guess says nothing of a likelier value."""
    for measure, taken in dog.measures.items():
        if taken.vague and Why.VAGUE not in taken.confirmed | taken.hints:
            yield Doubt(measure=measure, why=Why.VAGUE)
