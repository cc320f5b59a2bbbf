"""Whether a measuring mistake matters."""

from dataclasses import replace

import pytest

from sizing.chart import Shop
from sizing.matters import matters_for
from sizing.measures import Amount, Dog, Measure
from tests.sizing.dogs import Value, dog, snug
from tests.sizing.shops import shop

SHOP = shop()


def matters(told: Dog, other: Dog, chart: Shop = SHOP) -> bool:
    return matters_for(told, chart)(other)


def changed(**values: Value) -> tuple[Dog, Dog]:
    return snug(), snug(**values)


@pytest.mark.parametrize("values", [{"width": 2.0}, {"length": 9.0}, {"height": 8.0}, {"throat": 9.5}])
def test_a_mistake_that_changes_what_serves_the_dog_matters(values: dict[str, float]) -> None:
    assert matters(*changed(**values))


@pytest.mark.parametrize("values", [{"width": 4.1}, {"length": 12.1}, {"height": 10.1}, {"throat": 7.4}])
def test_a_mistake_that_leaves_it_as_it_is_does_not(values: dict[str, float]) -> None:
    assert not matters(*changed(**values))


def test_a_weight_always_matters() -> None:
    assert matters(*changed(weight=11))


def test_a_girth_never_does_since_nothing_is_cut_from_it() -> None:
    assert not matters(snug(girth=14), snug(girth=35))


def test_while_another_length_is_missing_a_mistake_in_one_matters() -> None:
    assert matters(snug(width=None), snug(width=None, length=12.1))


def test_while_the_throat_is_missing_it_matters_where_some_throat_would_tell() -> None:
    assert matters(snug(throat=None), snug(throat=None, length=9.0))
    assert not matters(snug(throat=None), snug(throat=None, length=12.1))


def test_while_the_weight_is_missing_it_matters_where_some_weight_would_tell() -> None:
    """Both dogs are right for No. 3 and No. 4; only the load that one of them was tested for makes a difference."""
    told, other = snug(weight=None, length=12.0), snug(weight=None, length=11.2)
    weak = [one.model_dump() | {"rated_load": 8.0 if one.name == "No. 3" else None} for one in SHOP.sizes]

    assert not matters(told, other)
    assert matters(told, other, shop(sizes=weak))


def test_what_the_mistake_hides_is_not_known_so_it_matters() -> None:
    assert matters(snug(), snug())


def test_two_values_for_one_thing_always_matter() -> None:
    told = snug()
    both = replace(told.measures[Measure.LENGTH], conflicting=(Amount.exactly(11.9), Amount.exactly(12.1)))
    conflicting = replace(told, measures={**told.measures, Measure.LENGTH: both})

    assert matters(conflicting, snug(length=12.1))


def test_a_measure_that_only_one_of_the_two_has_is_no_difference() -> None:
    assert not matters(snug(girth=14), dog(length=12.1, height=10, width=4, throat=7.25, weight=10))
