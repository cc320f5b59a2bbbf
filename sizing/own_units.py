"""Turns settings that a maker wrote in centimetres and kilograms into inches and pounds."""

from collections.abc import Callable, Mapping
from typing import cast

from sizing.units import from_inches, from_pounds, to_inches, to_pounds

_CM_STEP = 0.5
"""Who works in centimetres cuts to the half, unless she says otherwise."""

_LENGTHS: tuple[tuple[str, ...], ...] = (
    ("pad",),
    ("wall",),
    ("step",),
    ("handle_drop",),
    ("sizes", "*", "inside", "*"),
    ("sizes", "*", "opening"),
    ("ease", "*", "*", "add"),
    ("sewn", "*", "*"),
)
_WEIGHTS: tuple[tuple[str, ...], ...] = (
    ("pockets",),
    ("made_to_measure_rated_load",),
    ("sizes", "*", "empty_weight"),
    ("sizes", "*", "rated_load"),
    ("caution", "*"),
)


def in_inches_and_pounds(settings: Mapping[str, object]) -> dict[str, object]:
    """Give the settings in inches and pounds.

    settings   as the maker wrote them; "length_unit" and "weight_unit" say in which units, absent: in and lb
    Raises     nothing: what is no number stays as it is, for the check to find
    """
    whole = {"step": _CM_STEP, **settings} if settings.get("length_unit") == "cm" else settings
    return _both(whole, to_inches, to_pounds)


def in_own_units(settings: Mapping[str, object]) -> dict[str, object]:
    """Give settings that are in inches and pounds in the units that they name; the other way round."""
    return _both(settings, from_inches, from_pounds)


def _both(
    settings: Mapping[str, object], length: Callable[[float, str], float], weight: Callable[[float, str], float]
) -> dict[str, object]:
    converted: object = dict(settings)
    if settings.get("length_unit") == "cm":
        for path in _LENGTHS:
            converted = _at(converted, path, lambda value: length(value, "cm"))
    if settings.get("weight_unit") == "kg":
        for path in _WEIGHTS:
            converted = _at(converted, path, lambda value: weight(value, "kg"))
    return cast("dict[str, object]", converted)


def _at(value: object, path: tuple[str, ...], convert: Callable[[float], float]) -> object:
    if not path:
        return _number(value, convert)
    first, rest = path[0], path[1:]
    if isinstance(value, Mapping):
        return {key: _at(below, rest, convert) if first in ("*", key) else below for key, below in value.items()}
    if isinstance(value, (list, tuple)) and first == "*":
        return [_at(below, rest, convert) for below in value]
    return value


def _number(value: object, convert: Callable[[float], float]) -> object:
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return value
    try:
        return convert(value)
    except (OverflowError, ValueError):
        return value
