"""The measuring mistakes of the examination: how each is made, how it would be undone, and what is asked of the judge.

The shares of the height that tail and head add, and those by which the head tops the shoulder, are those of measured
dogs (tail 0.71, head 0.38-0.55 of the height; ear base 1.18 of it and the crown above).
"""

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from tests.bench.simulated import GIRTH, HEIGHT, LENGTH, THROAT, WEIGHT, WIDTH

CM, KG = 2.54, 0.45359237
LENGTHS = (LENGTH, HEIGHT, WIDTH, THROAT, GIRTH)

Told = np.ndarray
"""Rows of six measures, inches and pounds."""

Undone = Iterator[tuple[Told, tuple[int, ...], np.ndarray]]
"""Logarithms without the mistake, which columns of them count, and the logarithm of the share of that way."""


@dataclass(frozen=True, kw_only=True)
class Made:
    """One kind of mistake.

    make      changes rows of measures as told
    undo      the ways in which logarithms as told may have come about
    reasons   reasons that name it rightly
    doubted   least per cent doubted
    first     least per cent with the right reason first; 0: none is asked
    either    least per cent with the right reason among two, where that may stand for `first`; 0: it may not
    apart     dogs on which it is made: these two measures are apart by a ratio from .. to
    """

    name: str
    make: Callable[[np.random.Generator, Told], None]
    undo: Callable[[np.ndarray], Undone]
    reasons: tuple[str, ...]
    doubted: float
    first: float = 0
    either: float = 0
    apart: tuple[int, int, float, float] | None = None

    def dogs(self, told: Told) -> np.ndarray:
        """Give the numbers of the dogs on which the mistake is made."""
        if self.apart is None:
            return np.arange(len(told))
        one, other, low, high = self.apart
        ratio = np.maximum(told[:, one], told[:, other]) / np.minimum(told[:, one], told[:, other])
        return np.flatnonzero((ratio >= low) & (ratio < high))


def _scale(factors: dict[int, float]) -> Callable[[np.random.Generator, Told], None]:
    def make(rng: np.random.Generator, told: Told) -> None:
        for place, factor in factors.items():
            told[:, place] *= factor

    return make


def _unscale(factors: dict[int, float]) -> Callable[[np.ndarray], Undone]:
    def undo(logs: np.ndarray) -> Undone:
        right = logs.copy()
        for place, factor in factors.items():
            right[:, place] -= math.log(factor)
        yield right, (0, 1, 2, 3, 4), np.zeros(len(logs))

    return undo


def scaled(name: str, factors: dict[int, float], reasons: str, *bars: float) -> Made:
    """Make a mistake that multiplies measures."""
    return Made(
        name=name,
        make=_scale(factors),
        undo=_unscale(factors),
        reasons=tuple(reasons.split()),
        doubted=bars[0],
        first=bars[1] if len(bars) > 1 else 0,
        either=bars[2] if len(bars) > 2 else 0,
    )


def swapped(one: int, other: int, name: str, bars: Iterable[float], apart: tuple[float, float] | None = None) -> Made:
    """Make a mistake that exchanges two measures."""

    def make(rng: np.random.Generator, told: Told) -> None:
        told[:, [one, other]] = told[:, [other, one]]

    def undo(logs: np.ndarray) -> Undone:
        right = logs.copy()
        right[:, [one, other]] = right[:, [other, one]]
        yield right, (0, 1, 2, 3, 4), np.zeros(len(logs))

    doubted, first, either = bars
    where = None if apart is None else (one, other, *apart)
    return Made(
        name=name, make=make, undo=undo, reasons=("swap",), doubted=doubted, first=first, either=either, apart=where
    )


def added(name: str, low: float, high: float, doubted: float, first: float) -> Made:
    """Make a mistake that adds a share of the height to the length."""

    def make(rng: np.random.Generator, told: Told) -> None:
        told[:, LENGTH] += told[:, HEIGHT] * rng.uniform(low, high, len(told))

    def undo(logs: np.ndarray) -> Undone:
        length, height = np.exp(logs[:, LENGTH]), np.exp(logs[:, HEIGHT])
        for share in np.linspace(low, high, 9):
            body = np.maximum(length - share * height, 1e-3)
            right = logs.copy()
            right[:, LENGTH] = np.log(body)
            yield right, (0, 1, 2, 3, 4), np.log(length / body / 9)

    return Made(name=name, make=make, undo=undo, reasons=("tail",), doubted=doubted, first=first)


def _slip(rng: np.random.Generator, told: Told) -> None:
    where = rng.integers(5, size=len(told))
    told[np.arange(len(told)), where] *= rng.choice([0.1, 10], size=len(told))


def _unslip(logs: np.ndarray) -> Undone:
    for place in range(5):
        for factor in (0.1, 10):
            for right, columns, share in _unscale({place: factor})(logs):
                yield right, columns, share - math.log(10)


def _around(rng: np.random.Generator, told: Told) -> None:
    told[:, WIDTH] = told[:, GIRTH]


def _across(logs: np.ndarray) -> Undone:
    right = logs.copy()
    right[:, GIRTH] = logs[:, WIDTH]
    yield right, (LENGTH, HEIGHT, THROAT, WEIGHT, GIRTH), np.zeros(len(logs))


def _above(rng: np.random.Generator, told: Told) -> None:
    told[:, THROAT] = told[:, HEIGHT] * rng.uniform(1.0, 1.25, len(told))


def _not_above(logs: np.ndarray) -> Undone:
    ratio = np.exp(logs[:, THROAT] - logs[:, HEIGHT])
    inside = (ratio > 0.999) & (ratio < 1.251)
    yield logs, (LENGTH, HEIGHT, WIDTH, WEIGHT), np.where(inside, np.log(ratio / 0.25), -np.inf)


_HEAD, _HEAD_SPREAD = 1.3, 0.06


def _to_head(rng: np.random.Generator, told: Told) -> None:
    told[:, HEIGHT] *= rng.normal(_HEAD, _HEAD_SPREAD, len(told)).clip(1.18, 1.45)


def _to_shoulder(logs: np.ndarray) -> Undone:
    ratios = np.linspace(1.18, 1.45, 9)
    weights = np.exp(-0.5 * ((ratios - _HEAD) / _HEAD_SPREAD) ** 2)
    for ratio, weight in zip(ratios, weights / weights.sum(), strict=True):
        for right, columns, share in _unscale({HEIGHT: ratio})(logs):
            yield right, columns, share + math.log(weight)


ALL_CM = dict.fromkeys(LENGTHS, CM)

KINDS = (
    scaled("all in cm", ALL_CM, "unit", 99.5, 98),
    scaled("all in cm and kg", {**ALL_CM, WEIGHT: KG}, "unit", 99.5, 98),
    Made(name="decimal lost or gained", make=_slip, undo=_unslip, reasons=("size", "weight"), doubted=99.5, first=98),
    swapped(HEIGHT, THROAT, "height and throat swapped", (99.5, 98, 0)),
    Made(name="around for across", make=_around, undo=_across, reasons=("girth",), doubted=99, first=98),
    added("tail in the length", 0.55, 0.8, 99, 97),
    scaled("another dog's weight, x3.5", {WEIGHT: 3.5}, "weight", 99, 97),
    scaled("another dog's weight, /4", {WEIGHT: 0.25}, "weight", 99, 97),
    scaled("another dog's weight, x2", {WEIGHT: 2}, "weight", 80),
    Made(name="throat above", make=_above, undo=_not_above, reasons=("throat",), doubted=99, first=93),
    scaled("length in cm", {LENGTH: CM}, "unit", 99, 93),
    Made(name="height to the head", make=_to_head, undo=_to_shoulder, reasons=("head",), doubted=96, first=90),
    scaled("kg as lb", {WEIGHT: KG}, "unit", 96, 90),
    scaled("width in cm", {WIDTH: CM}, "unit", 97, 60, 95),
    added("head in the length", 0.4, 0.6, 93, 92),
    scaled("half the width", {WIDTH: 0.5}, "size", 90, 90),
    swapped(WIDTH, THROAT, "width and throat swapped, 1.2", (98, 96, 0), (1.2, 99)),
    swapped(LENGTH, HEIGHT, "length and height, 1.4", (97, 35, 80), (1.4, 99)),
    swapped(LENGTH, HEIGHT, "length and height, 1.25", (85, 35, 80), (1.25, 1.4)),
)
PAIRS = {
    "width in cm": {"girth", "unit"},
    "length and height, 1.4": {"head", "swap"},
    "length and height, 1.25": {"head", "swap"},
}
"""Where one question may cover two reasons: either of them coming first is right."""
