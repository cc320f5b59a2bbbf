"""The body model: how likely a set of measures is for a dog.

A mixture of normal distributions over the logarithms of six measures: one or more for every breed, and a broad
background over all of them for crosses and puppies. Any subset of the measures is judged by the marginals.
numpy is imported at the first judgement, not with this module.
"""

from __future__ import annotations

import csv
import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any, TypeAlias

import sizing.tables as tables
from sizing.breeds import base_name
from sizing.errors import DataError
from sizing.measures import Measure

if TYPE_CHECKING:
    import numpy as np

    Array: TypeAlias = np.ndarray[Any, np.dtype[np.float64]]

ORDER: tuple[Measure, ...] = (
    Measure.LENGTH,
    Measure.HEIGHT,
    Measure.WIDTH,
    Measure.THROAT_HEIGHT,
    Measure.WEIGHT,
    Measure.GIRTH,
)
"""The measures that the model knows, in the order of its rows."""

Subset: TypeAlias = tuple[int, ...]
"""Places in ORDER, ascending: which measures a row holds."""

Spread: TypeAlias = tuple[float, ...]
"""Further variance of each logarithm in ORDER, for ranges and guesses; () for none."""

_LOG_2PI = math.log(2 * math.pi)
_BACKGROUND = 0.08
_PUPPIES = 0.02
_NAMED = 0.85
_BACKGROUND_SPREAD = 0.08


@dataclass(frozen=True, slots=True, kw_only=True)
class Population:
    """Dogs of one stage of growth: the parts of the mixture.

    breeds        the breed of each part, folded; "" for the background
    shares        how much of all dogs each part is; sums to 1
    means         logarithms of ORDER, a row a part
    covariances   of the logarithms, with the tape's error
    """

    breeds: tuple[str, ...]
    shares: Array
    means: Array
    covariances: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Kin:
    """The dogs among which one dog is judged: a stage of growth, the breeds named, and how well it was measured.

    age_months   None: not told
    breeds       names as in breeds.csv; those without a row there narrow nothing
    spread       further variance of the logarithms
    """

    age_months: float | None = None
    breeds: tuple[str, ...] = ()
    spread: Spread = ()

    def log_density(self, rows: Sequence[Sequence[float]], subset: Subset) -> Array:
        """Give the logarithm of the density of each row; a row holds the logarithms of the subset's measures."""
        import numpy as np

        joint = self._by_part(np.asarray(rows, dtype=float), subset)
        top = joint.max(axis=1)
        total: Array = top + np.log(np.exp(joint - top[:, None]).sum(axis=1))
        return total

    def _by_part(self, rows: Array, subset: Subset) -> Array:
        joint: Array = _features(rows) @ _quadratics(self._stage, subset, self.spread)
        joint += _log_shares(self._stage, self.breeds)
        return joint

    def expected(self, place: int, row: Sequence[float], subset: Subset) -> float:
        """Give what the measure at a place in ORDER most likely is, inches or pounds, where a row is known.

        The median of each part, weighed by how well the part explains the row.
        """
        import numpy as np

        dogs = population(self._stage)
        joint = self._by_part(np.asarray([row], dtype=float), subset)[0]
        best = np.exp(joint - joint.max())
        known = np.array(subset)
        inner = dogs.covariances[:, known[:, None], known] + np.diag(_at(self.spread, subset))
        outer = dogs.covariances[:, place, known]
        off = np.asarray(row) - dogs.means[:, known]
        means = dogs.means[:, place] + np.einsum("pd,pd->p", outer, np.linalg.solve(inner, off[..., None])[..., 0])
        return math.exp(min(20.0, float(best @ means / best.sum())))

    @property
    def _stage(self) -> int:
        return stage(self.age_months)


def stage(age_months: float | None) -> int:
    """Give the number of the growth stage of an age: 0 upwards for puppies, -1 for grown dogs or an age not told."""
    if age_months is None:
        return -1
    limits = [row["under_months"] for row in tables.table("proportions.toml")["growth"]]
    return next((number for number, limit in enumerate(limits) if age_months < limit), -1)


@cache
def population(number: int) -> Population:
    """Give the dogs of a growth stage."""
    import numpy as np

    breeds, shares, means, covariances = _kernels()
    middle, around = _pooled(shares, means, covariances)
    if number >= 0:
        shift, more = _growth(number)
        grown = Population(
            breeds=(*breeds, ""),
            shares=np.append(shares * (1 - _BACKGROUND), _BACKGROUND),
            means=np.vstack([means, middle]) + shift,
            covariances=np.concatenate([covariances, around[None]]) + more,
        )
        return grown
    puppies = [_growth(youth) for youth in range(3)]
    return Population(
        breeds=(*breeds, "", *("" for _ in puppies)),
        shares=np.concatenate(
            [shares * (1 - _BACKGROUND - _PUPPIES), [_BACKGROUND], [_PUPPIES / len(puppies)] * len(puppies)]
        ),
        means=np.vstack([means, middle, *(middle + shift for shift, _ in puppies)]),
        covariances=np.concatenate([covariances, around[None], *((around + more)[None] for _, more in puppies)]),
    )


@cache
def _kernels() -> tuple[tuple[str, ...], Array, Array, Array]:
    import numpy as np

    lines = list(csv.reader(tables.text("body.csv").splitlines()))[1:]
    size = len(ORDER)
    try:
        numbers = np.array([[float(cell) for cell in line[1:]] for line in lines])
        shares, means, lower = numbers[:, 0], numbers[:, 1 : 1 + size], numbers[:, 1 + size :]
        covariances = np.zeros((len(lines), size, size))
        rows, columns = np.tril_indices(size)
        covariances[:, rows, columns] = covariances[:, columns, rows] = lower
    except (ValueError, IndexError) as error:
        raise DataError(f"sizing/body.csv is damaged ({error}): write it anew with python -m sizing.derive") from error
    return tuple(line[0].casefold() for line in lines), shares / shares.sum(), means, covariances


def _pooled(shares: Array, means: Array, covariances: Array) -> tuple[Array, Array]:
    """Give one broad normal distribution over all breeds."""
    import numpy as np

    middle = shares @ means
    off = means - middle
    within = np.einsum("p,pij->ij", shares, covariances)
    return middle, within + np.einsum("p,pi,pj->ij", shares, off, off) + np.diag([_BACKGROUND_SPREAD**2] * len(ORDER))


def _growth(number: int) -> tuple[Array, Array]:
    """Give how the logarithms of a puppy lie off those of the grown dog, and how much more they vary."""
    import numpy as np

    table = tables.table("proportions.toml")
    row, exponent = table["growth"][number], table["puppy_weight_exponent"]["value"]
    size = math.log(row["weight_share"]) / exponent
    rounder = table["puppy_rounder"]["value"] * min(1.0, -size)
    together = np.array([1, 1, 1, 1, exponent, 1]) / exponent
    shift = together * math.log(row["weight_share"]) + np.array([0, 0, rounder, 0, 0, rounder])
    tape = np.array([0.5, 0.5, 0.4, 0.5, 0, 0.5]) / 9 * (math.exp(-size) - 1)
    return shift, np.outer(together, together) * row["spread"] ** 2 + np.diag(tape**2 + 0.05**2)


@lru_cache(maxsize=512)
def _log_shares(number: int, breeds: tuple[str, ...]) -> Array:
    """Give the logarithms of the shares; of named breeds together they get most of the weight."""
    import numpy as np

    dogs = population(number)
    named = {base_name(breed).casefold() for breed in breeds}
    kin = np.array([breed in named for breed in dogs.breeds])
    if not kin.any():
        return np.log(dogs.shares)
    return np.log(
        np.where(kin, _NAMED * dogs.shares / dogs.shares[kin].sum(), 0) + (1 - _NAMED) * dogs.shares
    )


def _features(rows: Array) -> Array:
    """Give the products, the values and the 1 in which a normal log density is linear; one row a row."""
    import numpy as np

    one, other = np.triu_indices(rows.shape[1])
    return np.hstack([rows[:, one] * rows[:, other], rows, np.ones((len(rows), 1))])


@lru_cache(maxsize=256)
def _quadratics(number: int, subset: Subset, spread: Spread) -> Array:
    """Give the log densities of all parts as coefficients of _features: a column a part."""
    import numpy as np

    dogs = population(number)
    places = np.array(subset)
    inner = dogs.covariances[:, places[:, None], places] + np.diag(_at(spread, subset))
    means = dogs.means[:, places]
    precision = np.linalg.inv(inner)
    slope = np.einsum("pij,pj->pi", precision, means)
    constant = -0.5 * (np.einsum("pi,pi->p", slope, means) + np.linalg.slogdet(inner)[1] + len(subset) * _LOG_2PI)
    one, other = np.triu_indices(len(subset))
    squares = -0.5 * precision[:, one, other] * np.where(one == other, 1.0, 2.0)
    return np.ascontiguousarray(np.hstack([squares, slope, constant[:, None]]).T)


def _at(spread: Spread, subset: Subset) -> list[float]:
    return [spread[place] for place in subset] if spread else [0.0] * len(subset)
