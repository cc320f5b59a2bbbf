"""Yes and no to what was doubted."""

import pytest

from sizing.measures import Measure
from sizing.reasons import Why
from tests.replies.reading.readings import known, measures, reading

DOG = known("Rex", length=22, height=11, width=16)


def confirmed(text: str, asked: str) -> set[tuple[str, str]]:
    told = reading(text, dogs=[DOG], asked=[asked], first=False)
    return {(measure.value, why.value) for dog in told.dogs for measure, why in dog.confirmed}


@pytest.mark.parametrize("text", ["Yes, that's right", "correct", "ja, stimmt"])
def test_a_yes_confirms_the_value_that_was_doubted(text: str) -> None:
    assert confirmed(text, "length/size") == {("length", "size")}


@pytest.mark.parametrize("text", ["yes", "no", "no idea", "I'm not sure", "will check tonight", "let me measure again"])
def test_anything_else_confirms_nothing(text: str) -> None:
    # A bare yes may as well say that the tape did go around.
    assert confirmed(text, "length/size") == set()


def test_a_new_number_answers_a_doubt_instead() -> None:
    assert measures("no, it's 12", dogs=[DOG], asked=["length/size"], first=False)["length"].startswith("12")


def test_a_value_can_be_taken_back() -> None:
    told = reading("forget the width, I measured around", dogs=[DOG], asked=["width/girth"], first=False)

    assert told.dogs[0].withdrawn == {Measure.WIDTH}
    assert (Measure.WIDTH, Why.GIRTH) not in told.dogs[0].confirmed
