"""Dogs that are told by another one: "the same but an inch longer"."""

import pytest

from tests.replies.reading.readings import dogs

REX = {"name": "Rex", "length": "13 in", "height": "11 in"}


@pytest.mark.parametrize(
    ("text", "bella"),
    [
        ("Bella is the same", {"length": "13 in", "height": "11 in"}),
        ("Bella: same, but an inch longer", {"length": "14 in", "height": "11 in"}),
        ("Bella is the same but half an inch taller", {"length": "13 in", "height": "11.5 in"}),
    ],
)
def test_a_likeness(text: str, bella: dict[str, str]) -> None:
    assert dogs(f"Rex is 13 in long and 11 in high. {text}.") == [REX, {"name": "Bella", **bella}]
