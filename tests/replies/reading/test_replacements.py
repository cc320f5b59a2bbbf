"""A bare number takes the place of the known value that it corrects."""

import pytest

from tests.replies.reading.readings import known, measures

DOG = known("Rex", length=12, height=10, width=5.5)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("hang on the 12 should be 13", {"length": "13 correction"}),
        ("sorry, 6.25", {"width": "6.25 correction"}),
        ("it's 6.25 not 5.5", {"width": "6.25 correction"}),
        ("the 14 should be 13", {}),
    ],
)
def test_a_correction_without_a_name_finds_the_measure_by_its_value(text: str, told: dict[str, str]) -> None:
    assert measures(text, dogs=[DOG], first=False) == told
