"""Which of the five measures the maker must still ask for."""

from sizing.measures import FIVE, Dog, Measure


def missing(dog: Dog) -> tuple[Measure, ...]:
    """Give the measures that a carrier needs and nobody gave, in the order in which they are asked for."""
    return tuple(measure for measure in FIVE if measure not in dog.measures)
