"""Dogs to test with."""

from sizing.measures import Amount, Dog, Measure, Taken

NAMES = {
    "length": Measure.LENGTH,
    "height": Measure.HEIGHT,
    "width": Measure.WIDTH,
    "throat": Measure.THROAT_HEIGHT,
    "weight": Measure.WEIGHT,
    "girth": Measure.GIRTH,
}

Value = float | tuple[float, float] | None


def dog(*, hedged: bool = False, **values: Value) -> Dog:
    """Make a dog: inches and pounds, a pair for a range, None for what is not known."""
    return Dog(
        measures={
            NAMES[name]: Taken(amount=amount(value), hedged=hedged)
            for name, value in values.items()
            if value is not None
        }
    )


def amount(value: float | tuple[float, float]) -> Amount:
    return Amount(low=value[0], high=value[1]) if isinstance(value, tuple) else Amount.exactly(value)


def snug(**changed: Value) -> Dog:
    """Make an ordinary dog that No. 3 serves as it is."""
    return dog(**{"length": 12, "height": 10, "width": 4, "throat": 7.25, "weight": 10, **changed})
