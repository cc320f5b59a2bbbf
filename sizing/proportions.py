"""Published figures on the proportions and the growth of dogs, beside the table of breeds."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

import sizing.tables as tables
from sizing.errors import DataError

_TABLE = "proportions.toml"
_FLAGS = ("read", "derived", "memory", "judgement")


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """A stage of growth.

    under_months   ages below this belong to it, months
    weight_share   weight over the grown dog's
    spread         standard deviation of its logarithm
    """

    under_months: float
    weight_share: float
    spread: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BreedFigures:
    """What breeds.csv lacks of a breed.

    heights            least and most, inches, for the rows of breeds.csv that state none; None: nothing further
    weights            least and most, pounds; None: as in breeds.csv
    ratio              breastbone to buttock over height; None: as in breeds.csv
    """

    heights: tuple[float, float] | None
    weights: tuple[float, float] | None
    ratio: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cross:
    """Dogs of no breed.

    heights, weights   least and most, inches and pounds
    length             maker's length over height
    length_spread      standard deviation of its logarithm
    breeds             how many breeds' worth of dogs they are
    """

    heights: tuple[float, float]
    weights: tuple[float, float]
    length: float
    length_spread: float
    breeds: float


@cache
def figure(name: str) -> float:
    """Give one figure.

    Raises   DataError when it is missing, has no source or is not a positive number
    """
    entry = _sourced(tables.table(_TABLE).get(name), f"[{name}]")
    return _positive(entry.get("value"), f"{name}.value")


@cache
def stages() -> tuple[Stage, ...]:
    """Give the stages of growth, youngest first."""
    found = []
    for number, row in enumerate(tables.table(_TABLE)["growth"], start=1):
        where = f"growth {number}"
        _sourced(row, where)
        found.append(Stage(**{key: _positive(row.get(key), f"{where}.{key}") for key in Stage.__slots__}))
    return tuple(sorted(found, key=lambda stage: stage.under_months))


@cache
def breed_figures() -> dict[str, BreedFigures]:
    """Give the further figures by the name of the breed."""
    found = {}
    for row in tables.table(_TABLE)["breed"]:
        where = f"breed {row.get('name')!r}"
        _sourced(row, where)
        found[str(row["name"])] = BreedFigures(
            heights=_ends(row.get("heights"), f"{where}.heights"),
            weights=_ends(row.get("weights"), f"{where}.weights"),
            ratio=_positive(row["ratio"], f"{where}.ratio") if "ratio" in row else None,
        )
    return found


@cache
def crosses() -> tuple[Cross, ...]:
    """Give the dogs of no breed."""
    found = []
    for row in tables.table(_TABLE)["cross"]:
        where = f"cross {row.get('name')!r}"
        _sourced(row, where)
        heights, weights = (_ends(row.get(key), f"{where}.{key}") for key in ("heights", "weights"))
        if heights is None or weights is None:
            raise DataError(f"sizing/{_TABLE}, {where}: give heights and weights as [least, most]")
        rest = {key: _positive(row.get(key), f"{where}.{key}") for key in ("length", "length_spread", "breeds")}
        found.append(Cross(heights=heights, weights=weights, **rest))
    return tuple(found)


def _sourced(entry: object, where: str) -> dict[str, object]:
    if not (isinstance(entry, dict) and entry.get("source") and entry.get("flag") in _FLAGS):
        raise DataError(f"sizing/{_TABLE}, {where}: give its source, and a flag that is one of {', '.join(_FLAGS)}")
    return entry


def _positive(value: object, where: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0 < value < 10_000:
        raise DataError(f"sizing/{_TABLE}, {where} is {value!r}: write a positive number")
    return float(value)


def _ends(value: object, where: str) -> tuple[float, float] | None:
    if value is None:
        return None
    if not isinstance(value, Sequence) or len(value) != 2 or value[0] > value[1]:
        raise DataError(f"sizing/{_TABLE}, {where} is {value!r}: write [least, most]")
    return _positive(value[0], where), _positive(value[1], where)
