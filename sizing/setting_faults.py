"""Words what is wrong with a setting so that a maker can mend it: key, what stands there, what would be right."""

from collections.abc import Collection, Mapping, Sequence
from difflib import get_close_matches
from typing import Any

from pydantic import ValidationError

from sizing.errors import Fault, ShopError

_RIGHT = {
    "missing": "it is needed: write it",
    "greater_than": "a number above {gt:g}",
    "greater_than_equal": "a number not below {ge:g}",
    "less_than": "a number below {lt:g}",
    "less_than_equal": "a number not above {le:g}",
    "finite_number": "a finite number",
    "float_type": "a number without quotes or unit",
    "string_type": "words in quotes",
    "string_too_short": "words in quotes, not empty",
    "string_too_long": "at most {max_length} characters",
    "string_pattern_mismatch": "words in one line",
    "literal_error": "one of {expected}",
    "model_type": "a table of settings",
    "tuple_type": "a list of tables",
}

_STAND_INS = {"opening": 1.0, "empty_weight": 1.0}
"""Inches and pounds, where a size has none that can be read."""


def worded(error: ValidationError, settings: Mapping[str, object], *, names: Collection[str]) -> list[Fault]:
    """Give every fault of `error` in the maker's words.

    settings   as the maker wrote them, before any conversion
    names      of all settings, to suggest one where a name is not known
    """
    faults: list[Fault] = []
    for one in error.errors():
        cause = one.get("ctx", {}).get("error")
        if isinstance(cause, ShopError):
            faults.extend(cause.faults)
        else:
            faults.append(_worded(dict(one), settings, names))
    return faults


def sound_part(
    error: ValidationError, settings: Mapping[str, object], *, instead: Mapping[str, object]
) -> dict[str, object]:
    """Give the settings with what could not be read left out, or replaced by what `instead` has.

    A size whose inside could not be read is left out, other parts of a size are replaced; of everything else the whole
    setting is replaced. What is found about a replaced part is no fault of the maker's.
    """
    sound = dict(settings)
    faulty = [one["loc"] for one in error.errors() if one["loc"]]
    in_sizes = [where for where in faulty if where[0] == "sizes" and len(where) > 1]
    for key in {str(where[0]) for where in faulty}:
        sizes = sound.get(key)
        if key == "sizes" and in_sizes and isinstance(sizes, Sequence):
            sound[key] = _sound_sizes(sizes, in_sizes)
        elif key in instead:
            sound[key] = instead[key]
        else:
            sound.pop(key, None)
    return sound


def _sound_sizes(sizes: Sequence[Any], faulty: Sequence[tuple[str | int, ...]]) -> list[Any]:
    found = []
    for index, size in enumerate(sizes):
        bad = {where[2] if len(where) > 2 else "inside" for where in faulty if where[1] == index}
        if "inside" not in bad:
            sound = {key: value for key, value in size.items() if key not in bad}
            found.append({"name": str(index + 1), **_STAND_INS, **sound} if bad else size)
    return found


def readable_names(settings: Mapping[str, object]) -> list[str]:
    """Give the names of all sizes that have one, whatever else is wrong with them."""
    sizes = settings.get("sizes")
    return list(filter(None, map(_name_of, sizes))) if isinstance(sizes, list | tuple) else []


def _worded(one: dict[str, Any], settings: Mapping[str, object], names: Collection[str]) -> Fault:
    where: tuple[str | int, ...] = one["loc"]
    kind, context = one["type"], one.get("ctx", {})
    key, given = _found(where, settings, one["input"])
    if kind == "extra_forbidden":
        close = get_close_matches(str(where[-1]), names, n=1)
        right = f"no such setting: did you mean {close[0]}?" if close else "no such setting: take it out"
        return Fault(key=key, given=given, right=right)
    right = _RIGHT[kind].format(**context) if kind in _RIGHT else str(one["msg"])
    return Fault(key=key, given="" if kind == "missing" else given, right=right)


def _found(where: Sequence[str | int], settings: Mapping[str, object], checked: object) -> tuple[str, str]:
    """Give the key in the maker's words (sizes by name), and what stands there as she wrote it."""
    parts: list[str] = []
    at: Any = settings
    for part in where:
        at = at[part] if _has(at, part) else None
        parts.append(part if isinstance(part, str) else _name_of(at) or str(part + 1))
    return ".".join(parts), _shown(checked if at is None else at)


def _name_of(table: object) -> str:
    """Give the name of a size, "" where it has none that can stand in a line."""
    name = table.get("name") if isinstance(table, Mapping) else None
    return name if isinstance(name, str) and name.strip() and name.isprintable() else ""


def _has(at: object, part: str | int) -> bool:
    if isinstance(at, Mapping):
        return part in at
    return isinstance(at, Sequence) and not isinstance(at, str) and isinstance(part, int) and part < len(at)


def _shown(value: object) -> str:
    shown = f"{value:.6g}" if isinstance(value, float) else repr(value)
    return shown if len(shown) <= 60 else f"{shown[:57]}..."
