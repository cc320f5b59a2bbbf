"""Dogs drawn from published ranges, and the measuring mistakes that owners make: the judge's examination.

Nothing here comes from the engine's own parameters: sizes are those of breeds.csv, the rest is written down below.
"""

import csv
import math
from dataclasses import dataclass
from pathlib import Path

import numpy as np

import sizing

LENGTH, HEIGHT, WIDTH, THROAT, WEIGHT, GIRTH = range(6)
LENGTHS = [LENGTH, HEIGHT, WIDTH, THROAT, GIRTH]
_CSV = Path(sizing.__file__).with_name("breeds.csv")
_LONG_AND_LOW = (
    "Dachshund", "Corgi", "Basset", "Glen of Imaal", "Dandie", "Skye", "Pekingese", "Vallhund", "Sussex", "Cesky",
    "Lancashire Heeler",
)  # fmt: skip
_LEGGY = (
    "Azawakh", "Greyhound", "Sloughi", "Saluki", "Whippet", "Deerhound", "Wolfhound", "Cirneco", "Basenji",
    "Manchester Terrier (Standard)", "Vizsla", "Toy Fox Terrier",
)  # fmt: skip
_STOUT = (
    "Bulldog", "Pug", "Bull Terrier", "Staffordshire", "Sealyham", "Scottish Terrier", "Norfolk", "Boston",
    "West Highland", "Chow", "Rottweiler", "English Toy", "Affenpinscher", "Brussels",
)  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Way:
    """How a simulator makes its dogs; the examination is held with several.

    pets      logarithm of the weight over the standard's: mean and spread
    widths    "girth": what the girth leaves beside the depth of the chest; "height": a share of the height by build
    tape      standard error of the tape, inches (a width gets four fifths of it)
    step      inches to which people round
    """

    pets: tuple[float, float] = (0.12, 0.14)
    widths: str = "girth"
    tape: float = 0.4
    step: float = 0.25


WAYS = {
    "as the standards": Way(pets=(0.0, 0.1)),
    "as pets weigh": Way(),
    "heavy pets": Way(pets=(0.3, 0.18)),
    "loose tape": Way(tape=0.5, step=0.5),
    "widths by build": Way(widths="height"),
}


@dataclass(frozen=True, kw_only=True)
class Kind:
    """One breed row as the simulator takes it."""

    breed: str
    build: str
    heights: tuple[float, float]
    weights: tuple[float, float]
    length: float
    spread: float


def kinds() -> list[Kind]:
    """Complete the rows of breeds.csv in the simulator's own way."""
    with _CSV.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    found = []
    for row in rows:
        heights = _ends(row["height_min_in"], row["height_max_in"], 0.85)
        if heights is None:
            continue
        weights = _ends(row["weight_min_lb"], row["weight_max_lb"], 0.65) or _sibling(rows, row["breed"])
        if weights is None:
            middle = 0.1 * math.sqrt(heights[0] * heights[1]) ** 2.05
            weights = (middle * 0.85, middle * 1.15)
        build = _build(row["breed"])
        found.append(
            Kind(
                breed=row["breed"].split(" [")[0],
                build=build,
                heights=heights,
                weights=weights,
                length=_length(row, build),
                spread=0.05 if row["length_to_height"] else 0.09,
            )
        )
    return found


def _ends(low: str, high: str, share: float) -> tuple[float, float] | None:
    if not low and not high:
        return None
    return (float(low) if low else float(high) * share, float(high) if high else float(low) / share)


def _sibling(rows: list[dict[str, str]], breed: str) -> tuple[float, float] | None:
    name = breed.split(" [")[0]
    others = [row for row in rows if row["breed"].split(" [")[0] == name]
    return next((ends for row in others if (ends := _ends(row["weight_min_lb"], row["weight_max_lb"], 0.65))), None)


def _build(breed: str) -> str:
    for build, names in (("long and low", _LONG_AND_LOW), ("leggy", _LEGGY), ("stout", _STOUT)):
        if any(name in breed for name in names):
            return build
    return "ordinary"


def _length(row: dict[str, str], build: str) -> float:
    if not row["length_to_height"]:
        return {"long and low": 1.45, "leggy": 0.96, "stout": 0.98, "ordinary": 1.02}[build]
    ratio = float(row["length_to_height"])
    back = ratio if row["proportion_text"].startswith("BACK") else 0.785 * ratio
    return back + 0.08


@dataclass(frozen=True, kw_only=True)
class Dogs:
    """Dogs as they were measured: a row a dog, six columns, inches and pounds."""

    true: np.ndarray
    told: np.ndarray
    breeds: list[str]
    builds: np.ndarray


def draw(count: int, seed: int, way: Way, *, only: str = "") -> Dogs:
    """Draw dogs; `only` keeps the breeds with these words in their names."""
    rng = np.random.default_rng(seed)
    stock = [kind for kind in kinds() if only in kind.breed]
    chosen = [stock[i] for i in rng.integers(len(stock), size=count)]
    true = np.array([_dog(rng, kind, way) for kind in chosen])
    return Dogs(
        true=true,
        told=measured(rng, true, way),
        breeds=[kind.breed for kind in chosen],
        builds=np.array([kind.build for kind in chosen]),
    )


def _dog(rng: np.random.Generator, kind: Kind, way: Way) -> list[float]:
    size = rng.random()
    height = kind.heights[0] + (kind.heights[1] - kind.heights[0]) * size
    lean = min(1.0, max(0.0, size + rng.normal(0, 0.2)))
    weight = (kind.weights[0] + (kind.weights[1] - kind.weights[0]) * lean) * math.exp(rng.normal(*way.pets))
    length = height * kind.length * math.exp(rng.normal(0, kind.spread))
    girth = math.sqrt(weight * rng.normal(285, 28) / length)
    deep = {"long and low": (0.55, 0.65), "leggy": (0.36, 0.45)}.get(kind.build, (0.46, 0.53))
    depth = height * rng.uniform(*deep)
    if way.widths == "girth":
        left = max(2 * (girth / math.pi) ** 2 - depth**2, (0.25 * girth) ** 2)
        width = min(math.sqrt(left), 0.95 * height) * math.exp(rng.normal(0, 0.05))
    else:
        share = {"long and low": (0.5, 0.66), "leggy": (0.27, 0.34), "stout": (0.42, 0.58)}.get(
            kind.build, (0.33, 0.46)
        )
        width = height * rng.uniform(*share)
        girth = math.pi * math.sqrt((width**2 + depth**2) / 2)
        weight = girth**2 * length / rng.normal(285, 28)
    throat = height * min(0.84, max(0.6, rng.normal(0.735, 0.05)))
    return [length, height, width, throat, weight, girth]


def measured(rng: np.random.Generator, true: np.ndarray, way: Way) -> np.ndarray:
    """Measure dogs with a stranger's tape and round as people do."""
    error = np.array([1, 1, 0.8, 1, 0, 1]) * way.tape
    told = true + rng.normal(size=true.shape) * error
    told[:, :WEIGHT] = np.maximum(way.step, np.round(told[:, :WEIGHT] / way.step) * way.step)
    told[:, WEIGHT] = np.maximum(0.5, np.round(true[:, WEIGHT] * rng.normal(1, 0.02, len(true)), 1))
    return told


def _head(rng, told):
    told[:, HEIGHT] *= rng.normal(1.3, 0.06, len(told)).clip(1.18, 1.45)


def _swap(told, one, other):
    told[:, [one, other]] = told[:, [other, one]]


def _decimal(rng, told):
    where = rng.integers(5, size=len(told))
    told[np.arange(len(told)), where] *= rng.choice([0.1, 10], size=len(told))


def _add(rng, told, low, high):
    told[:, LENGTH] += told[:, HEIGHT] * rng.uniform(low, high, len(told))


def _times(told, place, factor):
    told[:, place] = told[:, place] * factor


def _above(rng, told):
    told[:, THROAT] = told[:, HEIGHT] * rng.uniform(1.0, 1.25, len(told))


def _around(told):
    told[:, WIDTH] = told[:, GIRTH]


MISTAKES = {
    "all in cm": (lambda r, t: _times(t, LENGTHS, 2.54), "unit", 99.5, 98),
    "all in cm and kg": (lambda r, t: (_times(t, LENGTHS, 2.54), _times(t, WEIGHT, 0.4536)), "unit", 99.5, 98),
    "decimal": (_decimal, "size weight", 99.5, 98),
    "height-throat swap": (lambda r, t: _swap(t, HEIGHT, THROAT), "swap", 99.5, 98),
    "around for across": (lambda r, t: _around(t), "girth", 99, 98),
    "tail in length": (lambda r, t: _add(r, t, 0.55, 0.8), "tail", 99, 97),
    "weight x3.5": (lambda r, t: _times(t, WEIGHT, 3.5), "weight", 99, 97),
    "weight /4": (lambda r, t: _times(t, WEIGHT, 0.25), "weight", 99, 97),
    "weight x2": (lambda r, t: _times(t, WEIGHT, 2), "weight unit", 80, 0),
    "throat above": (_above, "throat", 99, 93),
    "length in cm": (lambda r, t: _times(t, LENGTH, 2.54), "unit", 99, 93),
    "height to head": (_head, "head", 96, 90),
    "kg as lb": (lambda r, t: _times(t, WEIGHT, 0.4536), "unit", 96, 90),
    "width in cm": (lambda r, t: _times(t, WIDTH, 2.54), "unit", 97, 60),
    "head in length": (lambda r, t: _add(r, t, 0.4, 0.6), "tail", 93, 92),
    "half the width": (lambda r, t: _times(t, WIDTH, 0.5), "size", 90, 90),
    "width-throat swap >1.2": (lambda r, t: _swap(t, WIDTH, THROAT), "swap", 98, 96),
    "length-height swap >1.4": (lambda r, t: _swap(t, LENGTH, HEIGHT), "swap", 97, 35),
    "length-height swap 1.25-1.4": (lambda r, t: _swap(t, LENGTH, HEIGHT), "swap", 85, 35),
}
"""Name: what it does to the measures, the reasons that are right, the least % doubted, the least % with the reason first."""

_PAIRED = {
    "width-throat swap >1.2": (WIDTH, THROAT, 1.2, 99),
    "length-height swap >1.4": (LENGTH, HEIGHT, 1.4, 99),
    "length-height swap 1.25-1.4": (LENGTH, HEIGHT, 1.25, 1.4),
}


def mistaken(dogs: Dogs, mistake: str, seed: int) -> tuple[np.ndarray, np.ndarray]:
    """Give the dogs on which a mistake can be seen at all: their numbers, and what was told with the mistake."""
    rng = np.random.default_rng(seed)
    told = dogs.told.copy()
    keep = np.ones(len(told), dtype=bool)
    if mistake in _PAIRED:
        one, other, low, high = _PAIRED[mistake]
        ratio = np.maximum(told[:, one], told[:, other]) / np.minimum(told[:, one], told[:, other])
        keep = (ratio >= low) & (ratio < high)
    MISTAKES[mistake][0](rng, told)
    return np.flatnonzero(keep), told[keep]
