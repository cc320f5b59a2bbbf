"""The body model as a distribution."""

import math
import subprocess
import sys
from itertools import pairwise

import numpy as np
import pytest

import sizing.body as body
import sizing.tables as tables
from sizing.body import GROWN, ORDER, Kin, population
from sizing.errors import DataError
from sizing.proportions import stages

LENGTH, HEIGHT, WIDTH, THROAT, WEIGHT, GIRTH = range(6)
DOG = [math.log(value) for value in (12.5, 10.5, 5, 7.5, 11.5, 16.5)]


def density(values: list[float], subset: tuple[int, ...], kin: Kin = Kin()) -> float:  # noqa: B008
    return float(kin.log_density([values], subset)[0])


def total(of: np.ndarray, steps: np.ndarray) -> float:
    return float(np.trapezoid(np.exp(of), steps))


@pytest.mark.parametrize("place", range(6), ids=ORDER)
def test_the_density_of_one_measure_adds_up_to_one(place: int) -> None:
    logs = np.linspace(-4, 9, 4001)

    assert total(Kin().log_density(logs[:, None].tolist(), (place,)), logs) == pytest.approx(1, abs=1e-6)


@pytest.mark.parametrize(("known", "place"), [((HEIGHT,), WEIGHT), ((LENGTH, HEIGHT, WEIGHT), WIDTH)])
def test_the_measures_that_are_not_known_are_summed_over(known: tuple[int, ...], place: int) -> None:
    logs = np.linspace(-4, 9, 8001)
    both = tuple(sorted((*known, place)))
    rows = [[value if one == place else DOG[one] for one in both] for value in logs.tolist()]

    summed = total(Kin().log_density(rows, both), logs)

    assert math.log(summed) == pytest.approx(density([DOG[one] for one in known], known), abs=1e-6)


def test_rows_judged_together_are_judged_as_each_alone() -> None:
    rows = [[log + shift for log in DOG] for shift in (-0.3, 0.0, 0.2, 5.0)]

    together = Kin().log_density(rows, tuple(range(6)))

    assert together.tolist() == pytest.approx([density(row, tuple(range(6))) for row in rows])


def test_a_named_breed_gets_eighty_five_of_a_hundred_parts() -> None:
    dogs = population(GROWN)
    named = np.array([breed == "whippet" for breed in dogs.breeds])

    shares = np.exp(body._log_shares(GROWN, ("Whippet",)))

    assert shares.sum() == pytest.approx(1)
    assert shares[named].sum() == pytest.approx(0.85 + 0.15 * dogs.shares[named].sum())


def test_two_named_breeds_share_alike() -> None:
    dogs = population(GROWN)

    shares = np.exp(body._log_shares(GROWN, ("Chihuahua", "Great Dane")))

    small, large = (shares[np.array([b == name for b in dogs.breeds])].sum() for name in ("chihuahua", "great dane"))
    assert small == pytest.approx(large, rel=0.05)


def test_a_dog_of_its_breed_is_likelier_when_the_breed_is_named() -> None:
    dachshund = [math.log(value) for value in (14, 8.5, 6.5, 6.25, 24)]

    assert density(dachshund, (0, 1, 2, 3, 4), Kin(breeds=("Dachshund (standard)",))) > density(
        dachshund, (0, 1, 2, 3, 4)
    )


def test_an_unknown_breed_changes_nothing() -> None:
    assert density(DOG, tuple(range(6)), Kin(breeds=("Weimaraner",))) == density(DOG, tuple(range(6)))


@pytest.mark.parametrize("age_months", [1.5, 2.5, 5, 8, 11])
def test_a_puppy_is_smaller_than_the_dog_it_becomes(age_months: float) -> None:
    young, grown = population(body._stage(age_months)), population(GROWN)
    breeds = len(young.breeds) - 1

    assert (young.means[:breeds, HEIGHT] < grown.means[:breeds, HEIGHT]).all()
    assert (young.means[:breeds, WEIGHT] < grown.means[:breeds, WEIGHT]).all()


def test_a_puppy_is_rounder_and_varies_more() -> None:
    young, grown = population(0), population(GROWN)

    assert young.means[0, GIRTH] - young.means[0, HEIGHT] > grown.means[0, GIRTH] - grown.means[0, HEIGHT]
    assert (np.diagonal(young.covariances[0]) > np.diagonal(grown.covariances[0])).all()


def test_each_stage_is_larger_than_the_one_before() -> None:
    heights = [population(number).means[0, HEIGHT] for number in range(len(stages()))]

    assert all(younger < older for younger, older in pairwise(heights))


@pytest.mark.parametrize("age_months", [None, 12, 30, 1e9])
def test_a_year_old_dog_is_grown_and_so_is_one_of_unknown_age(age_months: float | None) -> None:
    assert body._stage(age_months) == GROWN


@pytest.mark.parametrize("number", [GROWN, *range(len(stages()))])
def test_the_shares_add_up_to_one_and_the_covariances_are_proper(number: int) -> None:
    dogs = population(number)

    assert dogs.shares.sum() == pytest.approx(1)
    assert (dogs.shares > 0).all()
    assert np.linalg.eigvalsh(dogs.covariances).min() > 0


def test_what_is_expected_of_a_measure_goes_with_the_others() -> None:
    small, large = [math.log(8)], [math.log(24)]

    assert 3 < Kin().expected(WIDTH, small, (HEIGHT,)) < 6 < Kin().expected(WIDTH, large, (HEIGHT,)) < 12


def test_a_further_spread_makes_a_far_value_likelier() -> None:
    far = [math.log(20), *DOG[1:5]]
    spread = (0.04, 0.0, 0.0, 0.0, 0.0, 0.0)

    assert density(far, (0, 1, 2, 3, 4), Kin(spread=spread)) > density(far, (0, 1, 2, 3, 4)) + 1


def test_wild_rows_have_a_density_and_an_expectation() -> None:
    wild = [14.0, -14.0, 14.0, -14.0, 14.0]

    assert math.isfinite(density(wild, (0, 1, 2, 3, 4)))
    assert 0 < Kin().expected(GIRTH, wild, (0, 1, 2, 3, 4)) < math.inf


def test_importing_the_model_does_not_import_numpy() -> None:
    code = "import sys, sizing.body; sys.exit('numpy' in sys.modules)"

    assert subprocess.run([sys.executable, "-c", code]).returncode == 0


@pytest.mark.parametrize("damage", ["breed,share\nPug,x\n", "breed,share\nPug,1,2,3\n", "breed,share\n"])
def test_damaged_parameters_are_named_with_the_remedy(monkeypatch: pytest.MonkeyPatch, damage: str) -> None:
    monkeypatch.setattr(tables, "text", lambda name: damage)
    body._kernels.cache_clear()
    try:
        with pytest.raises(DataError, match=r"sizing/body\.csv.*python -m sizing\.derive"):
            body._kernels()
    finally:
        body._kernels.cache_clear()
