"""How sure a fit is, against dogs drawn at random: the same question asked in another way.

Drawn are the true measures behind what was told: normal about a plain number, with 0.5 in (0.4 in for the width), half
as much again after "about"; even over a range. Counted are the dogs that the carrier serves.
"""

import math
from dataclasses import replace

import numpy as np
import pytest

from sizing.chart import Shop
from sizing.fit import body_of, fit
from sizing.measures import Amount, Dog, Measure, Taken
from sizing.sure import how_sure
from tests.sizing.dogs import dog
from tests.sizing.shops import shop

DRAWS = 1_000_000
TAPE = {Measure.LENGTH: 0.5, Measure.HEIGHT: 0.5, Measure.THROAT_HEIGHT: 0.5, Measure.WIDTH: 0.4}
SHOP = shop()

DOGS = {
    "in the middle of a size": dog(length=12, height=10, width=4, throat=7.3, weight=10),
    "a tight width": dog(length=12, height=10, width=4.55, throat=7.3, weight=10),
    "a tight length": dog(length=12.3, height=10, width=4, throat=7.3, weight=10),
    "an edge that is nearly too high": dog(length=12, height=10, width=4, throat=7.0, weight=10),
    "an edge that is nearly at the elbow": dog(length=12, height=10, width=4, throat=6.1, weight=10),
    "made to measure": dog(length=14.5, height=11, width=5.75, throat=8, weight=13),
    "small": dog(length=7, height=6.5, width=2.7, throat=4.8, weight=4),
    "large": dog(length=17.5, height=15.5, width=6, throat=11.4, weight=30),
    "said with about": dog(length=12, height=10, width=4, throat=7.3, weight=10, hedged=True),
    "ranges": dog(length=(11.5, 13.5), height=(9, 11), width=(3.5, 5), throat=(6.5, 8), weight=(9, 11)),
    "a range for the throat": dog(length=12, height=10, width=4, throat=(6.8, 7.8), weight=10),
    "a range for the height": dog(length=12, height=(9, 11.5), width=4, throat=7.3, weight=10),
}


def drawn(told: Dog, measure: Measure, random: np.random.Generator) -> "np.ndarray[tuple[int], np.dtype[np.float64]]":
    taken = told.measures[measure]
    low, high = taken.amount.low, taken.amount.high
    if low < high:
        return random.uniform(low, high, DRAWS)
    return random.normal(low, TAPE[measure] * (1.5 if taken.hedged else 1.0), DRAWS)


def counted(told: Dog, chart: Shop) -> float:
    outcome, random = fit(body_of(told), chart), np.random.default_rng(20260301)
    assert outcome.inside is not None
    assert outcome.opening is not None
    length, height = drawn(told, Measure.LENGTH, random), drawn(told, Measure.HEIGHT, random)
    width, throat = drawn(told, Measure.WIDTH, random), drawn(told, Measure.THROAT_HEIGHT, random)
    hollow = throat + chart.pad
    served = (
        (outcome.inside.length - length >= 0.25)
        & (outcome.inside.width - width >= 0.25)
        & (outcome.inside.height - chart.pad - height >= 0)
        & (outcome.opening >= chart.pad + chart.elbow * height)
        & (outcome.opening <= hollow)
        & (hollow - outcome.opening <= 0.22 * height)
    )
    return float(served.mean())


@pytest.mark.parametrize("told", DOGS.values(), ids=DOGS)
def test_the_probability_is_the_share_of_drawn_dogs_that_are_served(told: Dog) -> None:
    outcome = fit(body_of(told), SHOP)
    assert outcome.inside is not None
    assert outcome.opening is not None

    sure = how_sure(told, outcome.inside, outcome.opening, shop=SHOP).serves

    # Five standard errors of the count: one wrong alarm in two million.
    assert abs(sure - counted(told, SHOP)) <= 5 * math.sqrt(sure * (1 - sure) / DRAWS) + 1e-6


def test_the_measure_to_take_again_is_the_one_whose_knowledge_helps_most() -> None:
    """Each measure in turn is taken to be known exactly, and the drawn dogs are counted again."""
    told = DOGS["a tight width"]
    known = {
        measure: counted(Dog(measures={**told.measures, measure: _exactly(told, measure)}), SHOP) for measure in TAPE
    }
    outcome = fit(body_of(told), SHOP)
    assert outcome.inside is not None
    assert outcome.opening is not None

    sure = how_sure(told, outcome.inside, outcome.opening, shop=SHOP)

    assert sure.measure is max(known, key=lambda measure: known[measure])


def _exactly(told: Dog, measure: Measure) -> Taken:
    """A range too narrow to matter stands for a measure that is known."""
    middle = told.measures[measure].amount.middle
    return replace(told.measures[measure], amount=Amount(low=middle, high=middle + 1e-6))
