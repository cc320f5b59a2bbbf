"""Words that name one of two measures are settled by what else is told, or set aside."""

import pytest

from tests.replies.reading.readings import aside, measures

DOG = "length 13 in, height 11 in, "


@pytest.mark.parametrize(
    ("text", "measure"),
    [("chest 16 in", "girth"), ("chest 5 in", "width"), ("length 33 cm, alto 28 cm, largo 13 cm", "width")],
)
def test_the_value_beside_others_settles_it(text: str, measure: str) -> None:
    assert measure in measures(text if text.startswith("length") else DOG + text)


def test_what_may_be_either_is_set_aside() -> None:
    assert aside(DOG + "chest 8 in") == {"8 in": "unclear"}


@pytest.mark.parametrize(
    ("text", "measure"), [("largo 33 cm, alto 28 cm, ancho 13 cm", "length"), ("lungo 33 cm, largo 13 cm", "width")]
)
def test_the_language_settles_it(text: str, measure: str) -> None:
    assert measure in measures(text)
