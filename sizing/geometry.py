"""How the measures of a dog follow from one another."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from sizing.body import ORDER
from sizing.builds import Build, Ends
from sizing.measures import Measure
from sizing.proportions import figure

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Array = npt.NDArray[np.float64]

SOURCES_OF_SPREAD = 8
"""Standard normal values that make up one dog."""


def dog_logs(build: Build, normals: Array, *, by_girth: bool) -> Array:
    """Make dogs: the natural logarithms of body.ORDER, one row a dog, as they are and not as a tape finds them.

    normals    standard normal values: a row a dog, SOURCES_OF_SPREAD columns
    by_girth   True: the width is what weight and girth leave beside the depth of the chest;
               False: the width goes with the height, and most of the weight with the width
    Source     proportions.toml
    """
    import numpy as np

    n = normals.T
    size = 0.5 * (1 + np.vectorize(math.erf)(n[0] / math.sqrt(2)))
    strays = figure("height_spread") * n[1]
    height = _along(build.heights, size) + strays
    weight = _along(build.weights, size) + figure("weight_exponent") * strays
    weight = weight + math.log(figure("weight_of_standard")) + figure("weight_spread") * n[2]
    length = height + math.log(build.length) + build.length_spread * n[3]
    throat = height + math.log(figure("throat_of_height")) + figure("throat_spread") * n[4]
    depth = height + math.log(_depth_of_height(build)) + figure("depth_spread") * n[6]
    divisor = math.log(figure("girth_divisor"))
    if by_girth:
        girth = 0.5 * (divisor + weight - length + figure("girth_divisor_spread") * n[5])
        width = _width(girth, depth, height) + figure("width_spread") * n[7]
    else:
        width = height + math.log(_width_of_height(build)) + figure("plain_width_spread") * n[7]
        girth = 0.5 * np.log(0.5 * math.pi**2 * (np.exp(2 * width) + np.exp(2 * depth)))
        follows = figure("plain_weight_follows_large" if build.is_large else "plain_weight_follows")
        weight = follows * (2 * girth + length - divisor) + (1 - follows) * weight
        weight = weight + figure("plain_weight_spread") * n[5]
    return np.column_stack([length, height, width, throat, weight, girth])


def plain_width_share(build: Build) -> float:
    """Give the part of a build's dogs whose width goes with the height rather than with weight and girth, 0 to 1."""
    import numpy as np

    middle = dog_logs(build, np.zeros((1, SOURCES_OF_SPREAD)), by_girth=True)[0]
    width_of_height = math.exp(middle[ORDER.index(Measure.WIDTH)] - middle[ORDER.index(Measure.HEIGHT)])
    is_round = width_of_height > figure("width_of_height_usual_most")
    return figure("plain_width_share_round" if is_round else "plain_width_share")


def tape_error() -> list[float]:
    """Give the standard errors of a stranger's tape in body.ORDER: inches, for the weight a share of it."""
    tape, width = figure("tape_in"), figure("tape_width_in")
    return [tape, tape, width, tape, figure("scales_spread"), tape]


def _along(ends: Ends, share: Array) -> Array:
    return math.log(ends[0]) * (1 - share) + math.log(ends[1]) * share


def _depth_of_height(build: Build) -> float:
    if build.is_long:
        return figure("depth_of_height_long_body")
    return figure("depth_of_height_lean" if build.is_lean else "depth_of_height")


def _width_of_height(build: Build) -> float:
    if build.is_long:
        return figure("width_of_height_long_body")
    if build.is_large and not build.is_lean:
        return figure("width_of_height_large")
    return figure("width_of_height_lean" if build.is_lean else "width_of_height")


def _width(girth: Array, depth: Array, height: Array) -> Array:
    """Give the logarithm of the width that a girth leaves: girth = pi x sqrt((width^2 + depth^2) / 2)."""
    import numpy as np

    left = 2 * np.exp(2 * girth) / math.pi**2 - np.exp(2 * depth)
    least = np.exp(2 * girth) * figure("width_of_girth_least") ** 2
    width: Array = np.minimum(0.5 * np.log(np.maximum(left, least)), height + math.log(figure("width_of_height_most")))
    return width
