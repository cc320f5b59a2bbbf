"""Rough proportions of dogs, to tell which of two readings of a number can be meant at all.

Wide on purpose: they only choose between readings far apart, such as inches and centimetres, never doubt a dog.
Whether a measure is likely is judged in `sizing`. (Common practice of the trade, no source.)
"""

from collections.abc import Mapping

_RATIOS = {
    ("length", "height"): (0.72, 2.2),
    ("width", "height"): (0.2, 0.68),
    ("throat_height", "height"): (0.5, 0.95),
    ("girth", "height"): (0.85, 2.2),
    ("neck", "height"): (0.5, 1.5),
    ("width", "length"): (0.15, 0.6),
    ("throat_height", "length"): (0.3, 1.1),
    ("girth", "length"): (0.7, 1.9),
    ("neck", "length"): (0.35, 1.3),
    ("width", "throat_height"): (0.28, 1.1),
    ("width", "girth"): (0.2, 0.48),
    ("throat_height", "girth"): (0.3, 0.9),
    ("neck", "girth"): (0.45, 0.9),
}
_WEIGHT_PER_HEIGHT = (0.03, 0.5)
"""Pounds per square inch of height: widest range of dogs, fat ones included."""
_WEIGHT_PER_LENGTH = (0.02, 0.42)


def fits(measure: str, value: float, known: Mapping[str, float]) -> bool:
    """Can a dog with the known measures have this value of this measure: inches and pounds.

    True as well where nothing that is known says anything about it.
    """
    return misfit(measure, value, known) == 0


def misfit(measure: str, value: float, known: Mapping[str, float]) -> int:
    """Give with how many of the known measures a value can't go together."""
    return sum(not _goes_with(measure, value, other, size) for other, size in known.items() if other != measure)


def _goes_with(measure: str, value: float, other: str, size: float) -> bool:
    if "weight" in (measure, other):
        weight, length, name = (value, size, other) if measure == "weight" else (size, value, measure)
        bounds = {"height": _WEIGHT_PER_HEIGHT, "length": _WEIGHT_PER_LENGTH}.get(name)
        return bounds is None or bounds[0] <= weight / length**2 <= bounds[1]
    bounds = _RATIOS.get((measure, other))
    if bounds is not None:
        return bounds[0] <= value / size <= bounds[1]
    bounds = _RATIOS.get((other, measure))
    return bounds is None or bounds[0] <= size / value <= bounds[1]
