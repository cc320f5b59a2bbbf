"""Turns the published tables into the parameters of the body model: `python -m sizing.derive` writes them anew.

Every breed becomes one to six normal distributions over the logarithms of six measures. Each is found by following
points that fill the breed's ranges evenly through the geometry of a dog and taking their moments, so that the same
tables give the same parameters everywhere; nothing here is drawn at random.
"""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from statistics import NormalDist
from typing import TYPE_CHECKING, Any

import sizing.tables as tables
from sizing.breeds import BreedRow, breed_rows
from sizing.errors import DataError

if TYPE_CHECKING:
    import numpy as np

POINTS = 512
MEASURES = ("length", "height", "width", "throat_height", "weight", "girth")
_PRIMES = (2, 3, 5, 7, 11, 13, 17, 19)
_WIDE = 0.35
"""A breed whose heights span more than this in the logarithm is split in three."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Build:
    """What the tables say of one kind of dog, completed.

    heights, weights   least and most, inches and pounds
    length_of_height   maker's length over height
    spread             of its logarithm
    share              part of the breed's dogs that are of this build
    """

    breed: str
    heights: tuple[float, float]
    weights: tuple[float, float]
    length_of_height: float
    spread: float
    share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Kernel:
    """One normal distribution over the logarithms of MEASURES, with the tape's error in it."""

    breed: str
    share: float
    mean: tuple[float, ...]
    covariance: tuple[tuple[float, ...], ...]


def figure(name: str) -> float:
    """Give a figure of proportions.toml.

    Raises   DataError when it is missing, has no source or is not a positive number
    """
    entry = tables.table("proportions.toml").get(name)
    if not (isinstance(entry, dict) and entry.get("source") and entry.get("flag")):
        raise DataError(f"sizing/proportions.toml: [{name}] must have value, flag and source")
    value = entry.get("value")
    if not isinstance(value, int | float) or not value > 0:
        raise DataError(f"sizing/proportions.toml: {name}.value is {value!r}; write a positive number")
    return float(value)


def builds() -> Iterator[Build]:
    """Complete the rows of breeds.csv: what one row of a breed lacks comes from its others, then from all breeds."""
    by_breed: dict[str, list[BreedRow]] = {}
    for row in breed_rows():
        by_breed.setdefault(row.breed, []).append(row)
    for breed, rows in by_breed.items():
        sized = [row for row in rows if any(row.heights)] or [rows[0]]
        usual = figure("length_of_height") * figure("along_the_back")
        ratios = _ratios(breed, rows) or [(usual, figure("length_spread_unstated"), 1.0)]
        for row in sized:
            heights, weights = _sizes(breed, row, rows)
            if heights is None:
                continue
            for ratio, spread, share in ratios:
                yield Build(
                    breed=breed,
                    heights=heights,
                    weights=weights,
                    length_of_height=ratio,
                    spread=spread,
                    share=share / len(sized),
                )


def _extra(breed: str) -> dict[str, Any]:
    return next((entry for entry in tables.table("proportions.toml")["breed"] if entry["name"] == breed), {})


def _sizes(
    breed: str, row: BreedRow, rows: list[BreedRow]
) -> tuple[tuple[float, float] | None, tuple[float, float]]:
    extra = _extra(breed)
    heights = extra.get("heights") or _closed(row.heights, 0.85)
    weights = extra.get("weights") or _closed(row.weights, 0.6)
    if weights is None:
        weights = next((found for other in rows if (found := _closed(other.weights, 0.6))), None)
    if heights is None:
        return None, (1.0, 1.0)
    if weights is None:
        low, high = (figure("weight_factor_in_10") * h ** figure("weight_exponent") for h in heights)
        weights = (low, high)
    return tuple(heights), tuple(weights)


def _closed(ends: tuple[float | None, float | None], share: float) -> tuple[float, float] | None:
    """Close a range of which only one end is stated."""
    low, high = ends
    if low is None and high is None:
        return None
    if low is None or high is None:
        end = low or high or 0.0
        return (end * share, end) if low is None else (end, end / share)
    return (low, high)


def _ratios(breed: str, rows: list[BreedRow]) -> list[tuple[float, float, float]]:
    """Give the maker's length over height in each sense that a source states, with spread and share."""
    stem = breed.split(" (")[0]
    stated = [row for row in rows if row.ratio] or [
        row for row in breed_rows() if row.ratio and row.breed.startswith(f"{stem} (all")
    ]
    found = [_makers_length(row.ratio, row.text) for row in stated if row.ratio]
    if not found and (extra := _extra(breed).get("ratio")):
        found = [_makers_length(extra, "BODY")]
    different = sorted(set(found))
    return [(ratio, figure("length_spread"), 1 / len(different)) for ratio in different]


def _makers_length(ratio: float, text: str) -> float:
    """Turn a standard's ratio into base of the neck to tail set over height: a standard may mean three lengths."""
    if text.startswith("BACK-LIKE"):
        return ratio * figure("along_the_back")
    back = ratio if text.startswith("BACK") else ratio * figure("back_of_body")
    return (back + figure("neck_of_height")) * figure("along_the_back")


def _heaviness(heights: tuple[float, float], weights: tuple[float, float]) -> float:
    """Give the logarithm of the weight over what dogs of this height weigh."""
    height = math.sqrt(heights[0] * heights[1])
    usual = figure("weight_factor_in_10") * height ** figure("weight_exponent")
    return math.log(math.sqrt(weights[0] * weights[1]) / usual)


@cache
def kernels() -> tuple[Kernel, ...]:
    """Derive the normal distributions of all breeds; the shares of each breed add up to 1."""
    found = []
    plain = figure("plain_width_share")
    for build in builds():
        for part, share in _parts(build):
            for by_girth, weight in ((True, 1 - plain), (False, plain)):
                mean, covariance = _moments(part, by_girth)
                found.append(
                    Kernel(breed=build.breed, share=build.share * share * weight, mean=mean, covariance=covariance)
                )
    return tuple(found)


def _parts(build: Build) -> Iterator[tuple[Build, float]]:
    """Split a breed with a wide range of sizes in three, small dogs being light and large ones heavy."""
    span = math.log(build.heights[1] / build.heights[0])
    if span <= _WIDE:
        yield build, 1.0
        return
    for third in range(3):
        ends = (third / 3, (third + 1) / 3)
        yield (
            replace(
                build,
                heights=tuple(_between(build.heights, end) for end in ends),
                weights=tuple(_between(build.weights, end) for end in ends),
            ),
            1 / 3,
        )


def _between(ends: tuple[float, float], share: float) -> float:
    return ends[0] ** (1 - share) * ends[1] ** share


@cache
def _normal_points() -> np.ndarray[Any, Any]:
    """Fill the unit cube evenly (Halton), as standard normal values: one row a point, one column a source of spread."""
    import numpy as np

    normal = NormalDist()
    return np.array([[normal.inv_cdf(_radical_inverse(n, p)) for p in _PRIMES] for n in range(1, POINTS + 1)])


def _radical_inverse(number: int, base: int) -> float:
    value, scale = 0.0, 1.0 / base
    while number:
        number, digit = divmod(number, base)
        value += digit * scale
        scale /= base
    return value


def dog_logs(build: Build, normals: np.ndarray[Any, Any], by_girth: bool) -> np.ndarray[Any, Any]:
    """Follow points through the geometry of a dog: the logarithms of MEASURES, one row a point, without the tape.

    normals   standard normal values, eight columns
    """
    import numpy as np

    n = normals.T
    span = 0.5 * (1 + np.vectorize(math.erf)(n[0] / math.sqrt(2)))
    height = _between_logs(build.heights, span) + figure("height_spread") * n[1]
    weight = (
        _between_logs(build.weights, span)
        + math.log(figure("weight_of_standard"))
        + figure("weight_spread") * n[2]
        + figure("weight_exponent") * figure("height_spread") * n[1]
    )
    length = height + math.log(build.length_of_height) + build.spread * n[3]
    throat = height + math.log(figure("throat_of_height")) + figure("throat_spread") * n[4]
    girth = 0.5 * (math.log(figure("girth_divisor")) + weight - length + figure("girth_divisor_spread") * n[5])
    depth = height + math.log(_depth(build)) + figure("depth_spread") * n[6]
    if by_girth:
        width = _width(np.exp(girth), np.exp(depth), np.exp(height)) + figure("width_spread") * n[7]
    else:
        width = height + math.log(_plain_width(build)) + figure("plain_width_spread") * n[7]
        girth = 0.5 * np.log(0.5 * math.pi**2 * (np.exp(2 * width) + np.exp(2 * depth)))
        follows = 2 * girth + length - math.log(figure("girth_divisor"))
        share = figure("plain_weight_follows")
        weight = share * follows + (1 - share) * weight + figure("plain_weight_spread") * n[5]
    return np.column_stack([length, height, width, throat, weight, girth])


def _between_logs(ends: tuple[float, float], share: np.ndarray[Any, Any]) -> np.ndarray[Any, Any]:
    return math.log(ends[0]) * (1 - share) + math.log(ends[1]) * share


def _depth(build: Build) -> float:
    if build.length_of_height > 1.2:
        return figure("depth_of_height_long_body")
    lean = _heaviness(build.heights, build.weights) < math.log(0.7)
    return figure("depth_of_height_lean" if lean else "depth_of_height")


def _plain_width(build: Build) -> float:
    if build.length_of_height > 1.2:
        return figure("width_of_height_long_body")
    lean = _heaviness(build.heights, build.weights) < math.log(0.7)
    return figure("width_of_height_lean" if lean else "width_of_height")


def _width(
    girth: np.ndarray[Any, Any], depth: np.ndarray[Any, Any], height: np.ndarray[Any, Any]
) -> np.ndarray[Any, Any]:
    """Give the logarithm of the width that the girth leaves beside the depth, never under a share of the girth.

    The chest is taken as an ellipse, girth = pi x sqrt((width^2 + depth^2) / 2). Half way in the logarithm to the
    width that goes with the height, since weights say less of widths than the ellipse has it.
    """
    import numpy as np

    left = np.maximum(2 * (girth / math.pi) ** 2 - depth**2, (figure("width_of_girth_least") * girth) ** 2)
    return np.log(np.minimum(np.sqrt(left), figure("width_of_height_most") * height))


def _moments(build: Build, by_girth: bool) -> tuple[tuple[float, ...], tuple[tuple[float, ...], ...]]:
    import numpy as np

    logs = dog_logs(build, _normal_points(), by_girth)
    mean = logs.mean(axis=0)
    tape = np.array([figure("tape_in")] * 2 + [figure("tape_width_in"), figure("tape_in"), 0.0, figure("tape_in")])
    error = tape / np.exp(mean)
    error[4] = figure("scales_spread")
    covariance = np.cov(logs, rowvar=False) + np.diag(error**2)
    return tuple(mean.tolist()), tuple(tuple(row) for row in covariance.tolist())


def as_csv(found: tuple[Kernel, ...]) -> str:
    """Write kernels as body.csv: a line each, the mean and the lower triangle of the covariance."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    pairs = [(i, j) for i in range(len(MEASURES)) for j in range(i + 1)]
    writer.writerow(["breed", "share", *MEASURES, *(f"{MEASURES[i]}*{MEASURES[j]}" for i, j in pairs)])
    for kernel in found:
        numbers = [kernel.share, *kernel.mean, *(kernel.covariance[i][j] for i, j in pairs)]
        writer.writerow([kernel.breed, *(f"{number:.5g}" for number in numbers)])
    return out.getvalue()


if __name__ == "__main__":
    from pathlib import Path

    Path(__file__).with_name("body.csv").write_text(as_csv(kernels()), encoding="utf-8")
