"""The body model: how likely a set of measures is for a dog.

A mixture of normal distributions over the logarithms of six measures: a few for every breed, and a broad background
over all of them for crosses and puppies. Any subset of the measures is judged by the marginals.
numpy is imported at the first judgement, not with this module.
"""

from __future__ import annotations

import csv
import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import TYPE_CHECKING, TypeAlias

import sizing.tables as tables
from sizing.breeds import base_name
from sizing.errors import DataError
from sizing.measures import Measure
from sizing.proportions import figure, stages

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Array: TypeAlias = npt.NDArray[np.float64]

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

GROWN = -1
"""The stage of dogs that are grown, or whose age was not told."""

_LOG_2PI = math.log(2 * math.pi)
_BACKGROUND, _PUPPIES = 0.08, 0.02
"""Parts of all dogs: crosses and others unlike any breed; puppies whose age was not told. Judgement."""
_NAMED = 0.85
"""Part of the dogs of a named breed that are like its rows; the others may be like any dog. Judgement."""
_BACKGROUND_SPREAD, _PUPPY_SPREAD = 0.08, 0.05
"""Further standard deviation of each logarithm of a cross, and of a puppy; judgement."""
_BIGGEST = 20.0
"""An expected logarithm is never taken to be more than this, however wild the row."""


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

    def expected(self, place: int, row: Sequence[float], subset: Subset) -> float:
        """Give what the measure at a place in ORDER most likely is, inches or pounds, where a row is known.

        The median of each part, weighed by how well the part explains the row.
        """
        import numpy as np

        dogs = population(self._stage)
        joint = self._by_part(np.asarray([row], dtype=float), subset)[0]
        best = np.exp(joint - joint.max())
        known = np.array(subset)
        inner = _within(dogs, subset, self.spread)
        off = np.asarray(row) - dogs.means[:, known]
        pull = np.linalg.solve(inner, off[..., None])[..., 0]
        medians = dogs.means[:, place] + np.einsum("pd,pd->p", dogs.covariances[:, place, known], pull)
        return math.exp(min(_BIGGEST, float(best @ medians / best.sum())))

    def _by_part(self, rows: Array, subset: Subset) -> Array:
        joint: Array = _features(rows) @ _quadratics(self._stage, subset, self.spread)
        joint += _log_shares(self._stage, self.breeds)
        return joint

    @property
    def _stage(self) -> int:
        return _stage(self.age_months)


def _stage(age_months: float | None) -> int:
    if age_months is None:
        return GROWN
    return next((number for number, stage in enumerate(stages()) if age_months < stage.under_months), GROWN)


@cache
def population(stage: int) -> Population:
    """Give the dogs of a stage of growth: its number in proportions.stages, or GROWN."""
    import numpy as np

    breeds, shares, means, covariances = _kernels()
    middle, around = _pooled(shares, means, covariances)
    if stage != GROWN:
        shift, more = _growth(stage)
        return Population(
            breeds=(*breeds, ""),
            shares=np.append(shares * (1 - _BACKGROUND), _BACKGROUND),
            means=np.vstack([means, middle]) + shift,
            covariances=np.concatenate([covariances, around[None]]) + more,
        )
    young = [_growth(number) for number in range(3)]
    of_breeds = shares * (1 - _BACKGROUND - _PUPPIES)
    return Population(
        breeds=(*breeds, "", *("" for _ in young)),
        shares=np.concatenate([of_breeds, [_BACKGROUND], [_PUPPIES / len(young)] * len(young)]),
        means=np.vstack([means, middle, *(middle + shift for shift, _ in young)]),
        covariances=np.concatenate([covariances, around[None], *((around + more)[None] for _, more in young)]),
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
        np.linalg.cholesky(covariances)
    except (ValueError, IndexError, np.linalg.LinAlgError) as error:
        raise DataError(f"sizing/body.csv is damaged ({error}): write it anew with python -m sizing.derive") from error
    return tuple(line[0].casefold() for line in lines), shares / shares.sum(), means, covariances


def _pooled(shares: Array, means: Array, covariances: Array) -> tuple[Array, Array]:
    """Give one broad normal distribution over all breeds."""
    import numpy as np

    middle = shares @ means
    off = means - middle
    within = np.einsum("p,pij->ij", shares, covariances)
    between = np.einsum("p,pi,pj->ij", shares, off, off)
    return middle, within + between + np.eye(len(ORDER)) * _BACKGROUND_SPREAD**2


def _growth(number: int) -> tuple[Array, Array]:
    """Give how the logarithms of a puppy lie off those of the grown dog, and how much more they vary."""
    import numpy as np

    stage, exponent = stages()[number], figure("puppy_weight_exponent")
    size = math.log(stage.weight_share) / exponent
    rounder = figure("puppy_rounder") * min(1.0, -size)
    together = np.array([exponent if measure is Measure.WEIGHT else 1.0 for measure in ORDER])
    wider = np.array([rounder if measure in (Measure.WIDTH, Measure.GIRTH) else 0.0 for measure in ORDER])
    # The tape's error in the kernels is that of the grown dog; on a dog half as long it is twice as much.
    tape = np.array([0.0 if measure is Measure.WEIGHT else _PUPPY_SPREAD * math.exp(-size) for measure in ORDER])
    growing = np.outer(together, together) * (stage.spread / exponent) ** 2
    return together * size + wider, growing + np.diag(tape**2 + _PUPPY_SPREAD**2)


@lru_cache(maxsize=512)
def _log_shares(stage: int, breeds: tuple[str, ...]) -> Array:
    """Give the logarithms of the shares; the named breeds together get most of the weight, each as much."""
    import numpy as np

    dogs = population(stage)
    shares = (1 - _NAMED) * dogs.shares
    named = {base_name(breed).casefold() for breed in breeds}.intersection(dogs.breeds)
    if not named:
        return np.log(dogs.shares)
    for breed in named:
        of_breed = np.array([other == breed for other in dogs.breeds])
        shares = shares + of_breed * dogs.shares * (_NAMED / len(named) / dogs.shares[of_breed].sum())
    return np.log(shares)


def _features(rows: Array) -> Array:
    """Give the products, the values and the 1 in which a normal log density is linear; one row a row."""
    import numpy as np

    one, other = _pairs(rows.shape[1])
    return np.hstack([rows[:, one] * rows[:, other], rows, np.ones((len(rows), 1))])


@cache
def _pairs(size: int) -> tuple[npt.NDArray[np.intp], npt.NDArray[np.intp]]:
    import numpy as np

    one, other = np.triu_indices(size)
    return one, other


@lru_cache(maxsize=256)
def _quadratics(stage: int, subset: Subset, spread: Spread) -> Array:
    """Give the log densities of all parts as coefficients of _features: a column a part."""
    import numpy as np

    dogs = population(stage)
    inner = _within(dogs, subset, spread)
    means = dogs.means[:, np.array(subset)]
    precision = np.linalg.inv(inner)
    slope = np.einsum("pij,pj->pi", precision, means)
    constant = -0.5 * (np.einsum("pi,pi->p", slope, means) + np.linalg.slogdet(inner)[1] + len(subset) * _LOG_2PI)
    one, other = _pairs(len(subset))
    squares = -0.5 * precision[:, one, other] * np.where(one == other, 1.0, 2.0)
    return np.ascontiguousarray(np.hstack([squares, slope, constant[:, None]]).T)


def _within(dogs: Population, subset: Subset, spread: Spread) -> Array:
    import numpy as np

    places = np.array(subset)
    inner: Array = dogs.covariances[:, places[:, None], places]
    return inner + np.diag([spread[place] for place in subset]) if spread else inner
