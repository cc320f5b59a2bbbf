"""How dogs are to ride, whether two share a carrier, and within which outer size."""

import pytest

from sizing.measures import Posture
from tests.replies.reading.readings import known, reading


@pytest.mark.parametrize(
    ("text", "posture"),
    [
        ("11in tall 12in long, she likes to sit up and look around", Posture.SITS),
        ("10in tall 12in long, he'd curl up in it", Posture.CURLS),
        ("10in tall 12in long and prefers standing", Posture.STANDS),
        ("10in tall 12in long. usually lies down", Posture.CURLS),
    ],
)
def test_a_posture_beside_measures_is_the_dogs(text: str, posture: Posture) -> None:
    assert [dog.posture for dog in reading(text).dogs] == [posture]


@pytest.mark.parametrize(
    ("text", "posture"),
    [
        ("sits mostly", Posture.SITS),
        ("curl up", Posture.CURLS),
        ("stands i think", Posture.STANDS),
        ("liegt", Posture.CURLS),
        ("debout", Posture.STANDS),
    ],
)
def test_a_few_words_answer_how_it_rides(text: str, posture: Posture) -> None:
    assert [dog.posture for dog in reading(text, dogs=[known(height=10)]).dogs] == [posture]


@pytest.mark.parametrize(
    "text",
    [
        "stands 12 in, 14 long",
        "she won't sit still, 12 long 10 tall",
        "measured sitting: 12 in tall",
        "12in tall 13in long, asleep on my lap",
        "12in tall 13in long. sit or lie, not sure",
        "12in tall 13in long. does he have to stand in it?",
    ],
)
def test_what_is_no_posture_on_the_way_is_left(text: str) -> None:
    assert {dog.posture for dog in reading(text).dogs} == {None}


def test_each_named_dog_has_its_own_posture() -> None:
    pair = [known("Pip", height=10), known("Dot", height=9)]

    assert [dog.posture for dog in reading("Pip sits, Dot curls up", dogs=pair).dogs] == [Posture.SITS, Posture.CURLS]
    assert [dog.posture for dog in reading("they both like to sit", dogs=pair).dogs] == [Posture.SITS] * 2


@pytest.mark.parametrize(
    ("text", "together"),
    [
        ("2 dogs 1 bag?? 5 lb and 6 lb", True),
        ("both in one carrier please", True),
        ("could they share one", True),
        ("one carrier each, sizes?", False),
        ("one for each, not together", False),
        ("each gets their own", False),
        ("10in tall 12in long", None),
        ("would you post both in one parcel?", None),
    ],
)
def test_whether_two_share_a_carrier(text: str, together: bool | None) -> None:
    assert reading(text).together is together


@pytest.mark.parametrize(
    ("text", "sides"),
    [
        ("the rail people say 17.5 x 12 x 7.5 under the seat. she is 11in tall", (17.5, 12, 7.5)),
        ("for the train the max is 55 x 30 x 24 cm. my dog is 23 cm high", (21.65, 11.81, 9.45)),
        ("airline wants no more than 45 x 35 x 20. my dog is 23 cm high", (17.72, 13.78, 7.87)),
    ],
)
def test_an_operators_limit_is_kept_and_no_measure_of_the_dog(text: str, sides: tuple[float, ...]) -> None:
    (dog,) = reading(text).dogs

    assert dog.space is not None
    assert dog.space.sides == pytest.approx(sides, abs=0.01)
    assert {fact.measure.value for fact in dog.facts} == {"height"}


@pytest.mark.parametrize(
    "text",
    [
        "her travel crate is 24 x 18 x 19. she is 11in tall",
        "your chart says M is 13.5 x 5.5 x 12.5 inside. she is 11in tall",
        "she is 13 x 5 x 11 in",
    ],
)
def test_other_sizes_are_no_limit(text: str) -> None:
    assert {dog.space for dog in reading(text).dogs} == {None}
