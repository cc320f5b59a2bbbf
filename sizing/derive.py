"""Turns the published tables into the parameters of the body model: `python -m sizing.derive` writes them anew.

Every breed becomes a few normal distributions over the logarithms of six measures. Each is found by following points
that fill the breed's ranges evenly through the geometry of a dog and taking their moments, so that the same tables give
the same parameters everywhere. The threshold of doubt is found on dogs drawn from that geometry with a fixed seed.
"""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import islice
from pathlib import Path
from statistics import NormalDist
from typing import TYPE_CHECKING

from sizing.body import ORDER
from sizing.builds import Build, builds
from sizing.geometry import SOURCES_OF_SPREAD, dog_logs, plain_width_share, tape_error
from sizing.measures import Amount, Dog, Measure, Taken
from sizing.proportions import figure
from sizing.weighing import suspicion

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Array = npt.NDArray[np.float64]

_POINTS = 512
_PRIMES = (2, 3, 5, 7, 11, 13, 17, 19)
_SEED, _DOGS = 1, 6000


@dataclass(frozen=True, slots=True, kw_only=True)
class Kernel:
    """One normal distribution over the logarithms of body.ORDER, with the tape's error in it; share of all dogs."""

    breed: str
    share: float
    mean: tuple[float, ...]
    covariance: tuple[tuple[float, ...], ...]


@cache
def kernels() -> tuple[Kernel, ...]:
    """Derive the normal distributions of all breeds; their shares are relative."""
    return tuple(
        _kernel(build, share, by_girth)
        for build in builds()
        for plain in (plain_width_share(build),)
        for by_girth, share in ((True, 1 - plain), (False, plain))
    )


def _kernel(build: Build, share: float, by_girth: bool) -> Kernel:
    import numpy as np

    logs = dog_logs(build, _normal_points(), by_girth=by_girth)
    mean = logs.mean(axis=0)
    covariance = np.cov(logs, rowvar=False) + np.diag(_relative(tape_error(), mean) ** 2)
    rows = tuple(tuple(row) for row in covariance.tolist())
    asked = build.share * share * _asked_about(mean[ORDER.index(Measure.HEIGHT)])
    return Kernel(breed=build.breed, share=asked, mean=tuple(mean.tolist()), covariance=rows)


def _asked_about(height: float) -> float:
    """Give how often dogs of this height (its logarithm) are carried, against those of the usual height."""
    off = (height - math.log(figure("carried_height"))) / figure("carried_spread")
    rare = figure("carried_least")
    return rare + (1 - rare) * math.exp(-0.5 * off * off)


def _relative(error: list[float], logs: Array) -> Array:
    """Turn errors in inches into errors of the logarithm; the weight's is one already."""
    import numpy as np

    shares: Array = np.array(error) / np.where(np.array([measure == "weight" for measure in ORDER]), 1.0, np.exp(logs))
    return shares


@cache
def _normal_points() -> Array:
    """Fill the unit cube evenly (Halton's sequence), as standard normal values."""
    import numpy as np

    normal = NormalDist()
    primes = _PRIMES[:SOURCES_OF_SPREAD]
    return np.array([[normal.inv_cdf(_mirrored(n, prime)) for prime in primes] for n in range(1, _POINTS + 1)])


def _mirrored(number: int, base: int) -> float:
    """Give the digits of a number behind the point, in reverse.

    >>> _mirrored(6, 2)
    0.375
    """
    value, scale = 0.0, 1.0 / base
    while number:
        number, digit = divmod(number, base)
        value += digit * scale
        scale /= base
    return value


def threshold(dogs: int = _DOGS) -> float:
    """Derive the suspicion that raises a doubt: the one that `needless_questions` of the model's own dogs pass.

    dogs   how many of them are judged, always the same ones first; 1 to 6000
    """
    import numpy as np

    suspicions = [suspicion(dog) for dog in islice(_measured_dogs(), dogs)]
    return float(np.quantile(suspicions, 1 - figure("needless_questions")))


def _measured_dogs() -> Iterator[Dog]:
    import numpy as np

    rng = np.random.default_rng(_SEED)
    kinds = list(builds())
    shares = np.array([build.share for build in kinds])
    plain = [plain_width_share(build) for build in kinds]
    chances = rng.random(_DOGS)
    for number, chance in zip(rng.choice(len(kinds), _DOGS, p=shares / shares.sum()), chances, strict=True):
        by_girth = bool(chance > plain[number])
        logs = dog_logs(kinds[number], rng.standard_normal((1, SOURCES_OF_SPREAD)), by_girth=by_girth)[0]
        told = np.exp(logs) * np.maximum(0.1, 1 + _relative(tape_error(), logs) * rng.standard_normal(len(ORDER)))
        yield _told(told.tolist())


def _told(values: list[float]) -> Dog:
    """Give a dog with the five measures that a carrier needs."""
    known = zip(ORDER[:5], values, strict=False)
    return Dog(measures={measure: Taken(amount=Amount.exactly(value)) for measure, value in known})


def as_csv(found: tuple[Kernel, ...]) -> str:
    """Write kernels as body.csv: a line each, the mean and the lower triangle of the covariance."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    pairs = [(i, j) for i in range(len(ORDER)) for j in range(i + 1)]
    writer.writerow(["breed", "share", *ORDER, *(f"{ORDER[i]}*{ORDER[j]}" for i, j in pairs)])
    for kernel in found:
        numbers = [kernel.share, *kernel.mean, *(kernel.covariance[i][j] for i, j in pairs)]
        writer.writerow([kernel.breed, *(f"{number:.4g}" for number in numbers)])
    return out.getvalue()


def as_toml(least: float) -> str:
    """Write the threshold as body.toml."""
    return (
        "# Written by `python -m sizing.derive`, as body.csv is: change proportions.toml or breeds.csv instead.\n\n"
        "# The suspicion from which a doubt is raised; found from needless_questions in proportions.toml.\n"
        f"threshold = {float(f'{least:.3g}')}\n"
    )


def _write() -> None:
    here = Path(__file__)
    here.with_name("body.csv").write_text(as_csv(kernels()), encoding="utf-8")
    here.with_name("body.toml").write_text(as_toml(threshold()), encoding="utf-8")


if __name__ == "__main__":
    _write()
