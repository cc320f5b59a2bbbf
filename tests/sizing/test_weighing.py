"""How mistakes are weighed against a sound dog."""

import math

import pytest

from sizing.body import ORDER
from sizing.measures import Measure
from sizing.mistakes.catalogue import possible_mistakes
from sizing.reasons import Why
from sizing.weighing import kin_of, likely_value, suspicion, told_of, weigh
from tests.sizing.dogs import dog
from tests.sizing.doubted import ordinary

FROM_NUMBERS = set(Why) - {Why.CONFLICT, Why.VAGUE}


def test_every_reason_that_numbers_can_give_is_weighed() -> None:
    assert {mistake.why for mistake in possible_mistakes(told_of(ordinary()))} == FROM_NUMBERS


def test_a_mistake_accuses_only_measures_that_were_told() -> None:
    told = told_of(dog(height=10, weight=12))

    accused = {measure for mistake in possible_mistakes(told) for measure in mistake.measures}

    assert accused == {Measure.HEIGHT, Measure.WEIGHT}


def test_the_ways_of_a_mistake_that_hides_nothing_add_up_to_one() -> None:
    for mistake in possible_mistakes(told_of(ordinary())):
        if mistake.why is Why.HEAD:
            assert sum(math.exp(way.share) for way in mistake.ways) == pytest.approx(1)


def test_nothing_told_weighs_nothing() -> None:
    assert suspicion(dog()) == 0


def test_a_stranger_dog_is_more_suspicious() -> None:
    suspicions = [suspicion(ordinary(length=length)) for length in (12.5, 16, 18, 22, 30)]

    assert suspicions == sorted(suspicions)


def test_the_mistake_that_was_made_weighs_most() -> None:
    told = ordinary(throat=19)

    best = max(weigh(told, told_of(told)), key=lambda one: one.log_odds)

    assert (best.mistake.why, best.mistake.measures) == (Why.UNIT, (Measure.THROAT_HEIGHT,))
    assert best.right[ORDER.index(Measure.THROAT_HEIGHT)] == pytest.approx(math.log(19 / 2.54))


def test_a_likelier_value_is_one_that_a_dog_can_have() -> None:
    told = ordinary(length=1e9)

    for one in weigh(told, told_of(told)):
        for measure in one.mistake.measures:
            likely = likely_value(one, measure, kin_of(told))
            assert likely is None or 0.3 <= likely <= 350


def test_odds_are_finite_for_the_wildest_numbers() -> None:
    told = dog(length=1e300, height=1e-300, weight=1e300)

    assert all(0 < one.odds < math.inf for one in weigh(told, told_of(told)))
