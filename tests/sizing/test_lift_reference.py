"""The lifting equation worked out for a carrier."""

import pytest

from sizing.lift_reference import lift_reference
from sizing.lifting import SCOPE


def test_a_carrier_is_lifted_from_its_handles_to_the_shoulder() -> None:
    reference = lift_reference(20.0, depth_in=6.0, hands_from_in=24.0)

    assert reference is not None
    assert (reference.origin.horizontal, reference.origin.vertical) == (11.0, 24.0)
    assert (reference.destination.vertical, reference.destination.distance) == (60.4, pytest.approx(36.4))


def test_the_stricter_end_governs() -> None:
    reference = lift_reference(20.0, depth_in=6.0, hands_from_in=24.0)

    # 51 x 10/11 x (1 - .0075 x 30.4) x (.82 + 1.8/36.4) = 31.12; at the origin .955 and .95 for the grip make 36.57.
    assert reference is not None
    assert reference.governs == "destination"
    assert reference.limit_lb == pytest.approx(31.12, abs=0.01)
    assert reference.index == pytest.approx(20 / 31.12, abs=1e-3)


def test_it_says_that_it_covers_no_dog_on_one_shoulder() -> None:
    reference = lift_reference(20.0, depth_in=6.0, hands_from_in=24.0)

    assert reference is not None
    assert reference.scope == SCOPE
    assert "living" in SCOPE
    assert "one-handed" in SCOPE


@pytest.mark.parametrize(("depth", "hands"), [(6.0, 71.0), (40.0, 24.0), (6.0, 1e9), (float("inf"), 24.0)])
def test_outside_the_equation_there_is_no_reference(depth: float, hands: float) -> None:
    assert lift_reference(20.0, depth_in=depth, hands_from_in=hands) is None
