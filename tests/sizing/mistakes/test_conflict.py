"""When two values for one thing are a doubt."""

from dataclasses import replace

import pytest

from sizing.judge import judge
from sizing.measures import Amount, Dog, Measure
from sizing.reasons import Why
from tests.sizing.dogs import amount
from tests.sizing.doubted import doubted, ordinary


def twice(low: float, high: float, *, confirmed: frozenset[Why] = frozenset()) -> Dog:
    told = ordinary(length=(low, high))
    taken = told.measures[Measure.LENGTH]
    values = (Amount.exactly(low), Amount.exactly(high))
    both = replace(taken, amount=amount((low, high)), conflicting=values, confirmed=confirmed)
    return replace(told, measures={**told.measures, Measure.LENGTH: both})


@pytest.mark.parametrize(("low", "high"), [(12, 13.5), (11, 19), (1.25, 12.5)])
def test_two_values_for_one_measure_are_a_doubt_and_nothing_else(low: float, high: float) -> None:
    assert doubted(twice(low, high)) == {"length conflict"}


def test_the_odds_are_those_of_what_was_said_outright() -> None:
    doubt = judge(twice(12, 13.5))[0]

    assert (doubt.odds, doubt.likely) == (float("inf"), None)


def test_one_value_is_none() -> None:
    assert doubted(ordinary()) == set()


def test_a_range_is_none() -> None:
    assert doubted(ordinary(length=(12, 13))) == set()


def test_two_values_that_the_maker_let_stand_are_none() -> None:
    assert doubted(twice(12, 13.5, confirmed=frozenset({Why.CONFLICT}))) == set()


def test_two_values_that_are_served_alike_are_none() -> None:
    assert judge(twice(12, 12.25), matters=lambda _: False) == ()


def test_two_values_of_which_one_is_served_otherwise_are_one() -> None:
    told = twice(12, 13.5)

    doubts = judge(told, matters=lambda dog: dog.measures[Measure.LENGTH].amount.middle > 13)

    assert [doubt.why for doubt in doubts] == [Why.CONFLICT]
