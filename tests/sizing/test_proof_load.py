"""The load to hang in a proof test."""

import pytest

from sizing.errors import SizingError
from sizing.proof_load import LABEL, proof_load, yardsticks


@pytest.mark.parametrize(
    ("yardstick", "load"), [("frame_carrier", 60.0), ("sling_proof", 40.0), ("sling_break", 100.0)]
)
def test_the_load_is_the_rating_times_the_yardstick(yardstick: str, load: float) -> None:
    assert proof_load(20, yardstick=yardstick).load_lb == load


def test_three_times_the_rating_is_hung_unless_another_yardstick_is_named() -> None:
    assert proof_load(15).load_lb == 45.0
    assert proof_load(15).load_kg == pytest.approx(20.41165665)


def test_a_load_says_what_it_is_and_where_it_comes_from() -> None:
    load = proof_load(20)

    assert load.label == LABEL
    assert "not a standard for dog carriers" in LABEL
    assert "local rules decide" in LABEL
    assert load.yardstick.source == "ASTM F2549-22"


@pytest.mark.parametrize("rating", [0, -1, float("nan"), float("inf")])
def test_a_rating_that_is_no_weight_is_refused(rating: float) -> None:
    with pytest.raises(SizingError, match="cannot be tested"):
        proof_load(rating)


def test_an_unknown_yardstick_is_refused_with_those_that_there_are() -> None:
    with pytest.raises(SizingError, match="'rope' is none of frame_carrier, sling_proof, sling_break"):
        proof_load(20, yardstick="rope")


def test_every_yardstick_names_what_it_was_made_for() -> None:
    assert all(one.made_for and one.source and one.factor >= 2 for one in yardsticks().values())
