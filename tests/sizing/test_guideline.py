"""The zones of the lifting guideline."""

import pytest

from sizing.guideline import Zone, guideline


@pytest.mark.parametrize(
    ("height", "zone"),
    [
        (0.0, Zone.BELOW_MID_LOWER_LEG),
        (11.6, Zone.BELOW_MID_LOWER_LEG),
        (11.7, Zone.MID_LOWER_LEG_TO_KNUCKLE),
        (32.5, Zone.KNUCKLE_TO_ELBOW),
        (46.5, Zone.ELBOW_TO_SHOULDER),
        (60.4, Zone.ABOVE_SHOULDER),
        (1e9, Zone.ABOVE_SHOULDER),
    ],
)
def test_hands_are_in_the_zone_of_their_height(height: float, zone: Zone) -> None:
    assert guideline().zone_at(height) is zone


def test_zones_end_one_above_the_other() -> None:
    tops = list(guideline().tops_in.values())

    assert tops == sorted(tops)
