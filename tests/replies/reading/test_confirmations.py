"""Yes and no to what was doubted."""

import pytest

from replies.reading.context import KnownDog
from sizing.measures import Amount, Measure
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


@pytest.mark.parametrize("asked", ["width/girth", "length/tail", "height/head", "length/vague", "length/swap"])
@pytest.mark.parametrize("text", ["Yes, that's right", "correct", "ja, stimmt"])
def test_to_agree_with_a_question_that_names_the_mistake_confirms_nothing(text: str, asked: str) -> None:
    # "It looks more like the way around." "Correct": the tape did go around.
    assert confirmed(text, asked) == set()


@pytest.mark.parametrize("text", ["I checked again, really", "definitely, measured twice", "not a mistake"])
def test_to_insist_confirms_whatever_was_named(text: str) -> None:
    assert confirmed(text, "width/girth") == {("width", "girth")}


def test_a_new_number_answers_a_doubt_instead() -> None:
    assert measures("no, it's 12", dogs=[DOG], asked=["length/size"], first=False)["length"].startswith("12")


def test_a_value_can_be_taken_back() -> None:
    told = reading("forget the width, I measured around", dogs=[DOG], asked=["width/girth"], first=False)

    assert told.dogs[0].withdrawn == {Measure.WIDTH}
    assert (Measure.WIDTH, Why.GIRTH) not in told.dogs[0].confirmed


@pytest.mark.parametrize(
    "text",
    [
        "29 is what the scale said this morning, 24 was an old vet bill",
        "the 29 is right, 24 was last year",
        "29! 24 is an old number",
        "29 lb now, it was 24 lb in spring",
    ],
)
def test_of_two_values_that_contradict_the_one_of_before_gives_way(text: str) -> None:
    both = (Amount.exactly(24), Amount.exactly(29))
    skye = KnownDog(name="Skye", measures={Measure.WEIGHT: both[0]}, conflicting={Measure.WEIGHT: both})

    found = measures(text, dogs=[skye], asked=["weight/conflict"], first=False)

    assert found["weight"].startswith("29")
