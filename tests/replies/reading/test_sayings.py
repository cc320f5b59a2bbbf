"""Numbers in figures of speech are no measures."""

import pytest

from tests.replies.reading.readings import dogs, reading


@pytest.mark.parametrize("saying", ["10-4", "24/7", "10/10", "on cloud 9", "2 thumbs up", "4-legged friend"])
def test_a_figure_of_speech_changes_nothing(saying: str) -> None:
    assert dogs(f"12in long, 10in tall. {saying}!") == [{"length": "12 in", "height": "10 in"}]
    assert dogs(f"{saying}!", asked=["length", "width"]) == []


def test_the_maker_sees_why_it_was_left() -> None:
    assert [aside.note for aside in reading("ok, 10-4").aside] == ["a figure of speech"] * 2


def test_a_measure_that_looks_like_one_is_read() -> None:
    assert dogs("24 in long and 7 in wide") == [{"length": "24 in", "width": "7 in"}]
