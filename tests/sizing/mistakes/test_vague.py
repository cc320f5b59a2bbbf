"""When a guess is a doubt."""

from dataclasses import replace

import pytest

from sizing.judge import judge
from sizing.measures import Dog, Measure
from sizing.reasons import Why
from tests.sizing.dogs import dog
from tests.sizing.doubted import doubted, ordinary


def guessed(told: Dog, *measures: Measure, confirmed: frozenset[Why] = frozenset()) -> Dog:
    vague = {m: replace(told.measures[m], vague=True, confirmed=confirmed) for m in measures}
    return replace(told, measures={**told.measures, **vague})


def test_each_guess_is_a_doubt() -> None:
    told = guessed(dog(length=14, height=12, weight=10), Measure.LENGTH, Measure.HEIGHT, Measure.WEIGHT)

    assert doubted(told) == {"length vague", "height vague", "weight vague"}


def test_only_the_guess_is_a_doubt() -> None:
    assert doubted(guessed(ordinary(), Measure.WIDTH)) == {"width vague"}


def test_a_guess_far_off_is_doubted_for_that_as_well() -> None:
    assert doubted(guessed(ordinary(width=40), Measure.WIDTH)) > {"width vague"}


@pytest.mark.parametrize("hedged", [False, True])
def test_a_measurement_is_none_even_where_the_words_hedge(hedged: bool) -> None:
    assert doubted(dog(length=12.5, height=10.5, width=5, throat=7.5, weight=11.5, hedged=hedged)) == set()


def test_a_guess_that_the_maker_let_stand_is_none() -> None:
    assert doubted(guessed(ordinary(), Measure.WIDTH, confirmed=frozenset({Why.VAGUE}))) == set()


def test_a_guess_suggests_no_value() -> None:
    doubt = judge(guessed(ordinary(), Measure.WIDTH))[0]

    assert (doubt.likely, doubt.odds) == (None, float("inf"))
