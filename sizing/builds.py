"""The kinds of dogs that the table of breeds describes, with what a row leaves out filled in."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from sizing.breeds import BreedRow, breed_rows
from sizing.proportions import BreedFigures, breed_figures, crosses, figure

_WIDE = 0.35
"""A breed whose heights span more than this in the logarithm is split in three."""
_LARGE = 18.0
"""Inches at the shoulder."""
_ONLY_HEIGHT, _ONLY_WEIGHT = 0.85, 0.6
"""Least over most where a source states one of them alone; judgement from the rows that state both."""

Ends = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Build:
    """One kind of dog.

    heights, weights   least and most, inches and pounds; small dogs are light and large ones heavy
    length             maker's length over height
    length_spread      standard deviation of its logarithm
    share              part of the breed's dogs that are of this build
    """

    breed: str
    heights: Ends
    weights: Ends
    length: float
    length_spread: float
    share: float

    @property
    def is_long(self) -> bool:
        """Long and low: legs short for the body."""
        return self.length > 1.2

    @property
    def is_large(self) -> bool:
        """Taller than the dogs that are carried."""
        return math.sqrt(self.heights[0] * self.heights[1]) > _LARGE

    @property
    def is_lean(self) -> bool:
        """Light for the height, as leggy dogs are."""
        return _is_lean(self.heights, self.weights)


def builds() -> Iterator[Build]:
    """Give the builds of all breeds, whose shares add up to 1 for each, and those of crosses, whose breed is ""."""
    by_breed: dict[str, list[BreedRow]] = {}
    for row in breed_rows():
        by_breed.setdefault(row.breed, []).append(row)
    for breed, rows in by_breed.items():
        further = breed_figures().get(breed, BreedFigures(heights=None, weights=None, ratio=None))
        sizes = _sizes(rows, further)
        stated = _lengths(breed, rows, further)
        for heights, weights in sizes:
            lengths = stated or [_unstated_length(heights, weights)]
            for length, spread in lengths:
                whole = Build(
                    breed=breed,
                    heights=heights,
                    weights=weights,
                    length=length,
                    length_spread=spread,
                    share=1 / len(sizes) / len(lengths),
                )
                yield from _parts(whole)
    yield from _crosses()


def _crosses() -> Iterator[Build]:
    for cross in crosses():
        yield from _parts(
            Build(
                breed="",
                heights=cross.heights,
                weights=cross.weights,
                length=cross.length,
                length_spread=cross.length_spread,
                share=cross.breeds,
            )
        )


def _sizes(rows: Sequence[BreedRow], further: BreedFigures) -> list[tuple[Ends, Ends]]:
    """Give heights and weights, a pair a row that states heights; what is blank comes from the breed's other rows."""
    if further.heights and further.weights:
        return [(further.heights, further.weights)]
    others = next((found for row in rows if (found := _closed(row.weights, _ONLY_WEIGHT))), None)
    sizes = []
    for row in rows:
        heights = _closed(row.heights, _ONLY_HEIGHT) or further.heights
        if heights:
            weights = further.weights or _closed(row.weights, _ONLY_WEIGHT) or others
            sizes.append((heights, weights or (_usual_weight(heights[0]), _usual_weight(heights[1]))))
    return sizes


def _closed(ends: tuple[float | None, float | None], share: float) -> Ends | None:
    low, high = ends
    if low is not None and high is not None:
        return low, high
    if high is not None:
        return high * share, high
    return (low, low / share) if low is not None else None


def _usual_weight(height: float) -> float:
    return figure("weight_of_one_inch") * math.pow(height, figure("weight_exponent"))


def _is_lean(heights: Ends, weights: Ends) -> bool:
    height, weight = (math.sqrt(low * high) for low, high in (heights, weights))
    return weight < 0.7 * _usual_weight(height)


def _unstated_length(heights: Ends, weights: Ends) -> tuple[float, float]:
    usual = figure("length_of_height_lean" if _is_lean(heights, weights) else "length_of_height")
    return usual * figure("along_the_back"), figure("length_spread_unstated")


def _lengths(breed: str, rows: Sequence[BreedRow], further: BreedFigures) -> list[tuple[float, float]]:
    """Give the maker's length over height with its spread for each length that a source states; none: not stated."""
    kin = f"{breed.split(' (')[0]} (all"
    stated = [row for row in rows if row.ratio] or [row for row in breed_rows() if row.breed.startswith(kin)]
    found = {_makers_length(row.ratio, row.text) for row in stated if row.ratio}
    if not found and further.ratio:
        found = {_makers_length(further.ratio, "BODY")}
    return [(length, figure("length_spread")) for length in sorted(found)]


def _makers_length(ratio: float, text: str) -> float:
    """Turn a standard's ratio into base of the neck to tail set over height: standards mean three different lengths."""
    if text.startswith("BACK-LIKE"):
        return ratio * figure("along_the_back")
    back = ratio if text.startswith("BACK") else ratio * figure("back_of_body")
    return (back + figure("neck_of_height")) * figure("along_the_back")


def _parts(build: Build) -> Iterator[Build]:
    low, high = build.heights
    if math.log(high / low) <= _WIDE:
        yield build
        return
    for third in range(3):
        yield replace(
            build,
            heights=(_between(build.heights, third / 3), _between(build.heights, (third + 1) / 3)),
            weights=(_between(build.weights, third / 3), _between(build.weights, (third + 1) / 3)),
            share=build.share / 3,
        )


def _between(ends: Ends, share: float) -> float:
    return float(ends[0] ** (1 - share) * ends[1] ** share)
