"""Dogs drawn from published ranges, on which the judge is examined.

Nothing here comes from the engine's own parameters: sizes are those of breeds.csv, the rest is written down below.
Heights and weights: a breed's own range. Length: the standard's ratio (withers to tail set 0.785 of the body) plus 0.08
of the height, else a usual one by build. Girth: girth^2 x length / weight = 285. Depth of the chest: 0.46-0.53 of the
height, leggy 0.36-0.45, long and low 0.55-0.65. Width: what an ellipse leaves of the girth, or a share of the height.
Throat: 0.735 of the height, give or take 0.05 (photographs of 45 dogs: 0.62-0.82).
"""

import csv
import math
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np

import sizing

LENGTH, HEIGHT, WIDTH, THROAT, WEIGHT, GIRTH = range(6)
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
    builds    True: no breeds but four builds, 6 to 17 in tall (long and low to 13)
    """

    pets: tuple[float, float] = (0.12, 0.14)
    widths: str = "girth"
    tape: float = 0.4
    step: float = 0.25
    builds: bool = False


WAYS = {
    "as the standards": Way(pets=(0.0, 0.1)),
    "as pets weigh": Way(),
    "heavy pets": Way(pets=(0.3, 0.18)),
    "loose tape": Way(tape=0.5, step=0.5),
    "widths by build": Way(widths="height"),
    "builds alone": Way(widths="height", builds=True),
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


_ALONE = [
    Kind(breed="", build=build, heights=heights, weights=(1, 1), length=length, spread=0.09)
    for build, heights, length, times in (
        ("ordinary", (6, 17), 1.1, 7), ("stout", (8, 17), 1.0, 1), ("leggy", (9, 17), 1.0, 1),
        ("long and low", (6, 13), 1.45, 1),
    )
    for _ in range(times)
]  # fmt: skip


@cache
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
    stock = _ALONE if way.builds else [kind for kind in kinds() if only in kind.breed]
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
