"""The limits of the lifting equation; its figures are checked against the manual in tests/outside."""

import pytest

from sizing.errors import LiftError
from sizing.lifting import Duration, Lift, lifting_index, recommended_weight_limit


def lift(**terms: object) -> Lift:
    return Lift(**{"horizontal": 10.0, "vertical": 30.0, "distance": 10.0, **terms})  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("terms", "words"),
    [
        ({"horizontal": 26.0}, "horizontal = 26 is beyond 25 in: the equation gives no limit"),
        ({"vertical": 71.0}, "vertical = 71 is beyond 70 in"),
        ({"distance": 71.0}, "distance = 71 is beyond 70 in"),
        ({"asymmetry": 136.0}, "asymmetry = 136 is beyond 135 degrees"),
        ({"frequency": 16.0}, "frequency = 16 is beyond what up to 1 hour of such lifts allow"),
        (
            {"frequency": 9.0, "duration": Duration.EIGHT_HOURS, "vertical": 20.0},
            "frequency = 9 is beyond what up to 8 hours of such lifts allow",
        ),
    ],
)
def test_a_term_beyond_its_limit_is_named(terms: dict[str, object], words: str) -> None:
    with pytest.raises(LiftError, match=words):
        recommended_weight_limit(lift(**terms))


@pytest.mark.parametrize("name", ["horizontal", "vertical", "distance", "asymmetry", "frequency"])
@pytest.mark.parametrize("value", [-0.1, float("nan"), float("inf")])
def test_a_term_that_is_no_number_from_nought_up_is_refused(name: str, value: float) -> None:
    with pytest.raises(LiftError, match=f"{name} = {value}: a number from 0 up is needed"):
        lift(**{name: value})


@pytest.mark.parametrize("load", [-1.0, float("nan"), float("inf")])
def test_a_load_that_is_no_weight_is_refused(load: float) -> None:
    with pytest.raises(LiftError, match="load = "):
        lifting_index(load, lift())


def test_a_frequency_between_two_rows_counts_as_the_higher() -> None:
    assert recommended_weight_limit(lift(frequency=2.5)) == recommended_weight_limit(lift(frequency=3.0))
