"""Numbers that only mend the one before them."""

import pytest

from tests.replies.reading.readings import dogs


@pytest.mark.parametrize(
    "text",
    [
        "long 13, I mean 14, tall 12, I mean 11",
        "length 13. no, 14. height 12. no, 11",
        "back 13 I meant 14 shoulder 12 I meant 11",
    ],
)
def test_a_number_that_mends_takes_no_name_of_the_next(text: str) -> None:
    (dog,) = dogs(text)

    assert {key: value.removesuffix(" correction") for key, value in dog.items()} == {"length": "14", "height": "11"}


def test_a_mending_number_keeps_a_name_of_its_own() -> None:
    (dog,) = dogs("12 across, no wait, 12 long. 11 tall")

    assert set(dog) == {"length", "height"}
