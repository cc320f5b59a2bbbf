"""What the next question asks for, and in which order."""

from collections.abc import Iterable

import pytest

from replies.asking import what_to_ask
from replies.reading.context import Asked
from sizing.assessment import Assessment
from sizing.doubt import Doubt
from sizing.measures import FIVE, Amount, Dog, Measure, Taken
from sizing.reasons import Why
from tests.replies.enquiries import ON

L, H, W, T, LB, G = Measure.LENGTH, Measure.HEIGHT, Measure.WIDTH, Measure.THROAT_HEIGHT, Measure.WEIGHT, Measure.GIRTH


def assessed(
    *doubts: tuple[Measure, Why], missing: Iterable[Measure] = (), again: Measure | None = None, girth: bool = True
) -> Assessment:
    known = {G: Taken(amount=Amount.exactly(16))} if girth else {}
    return Assessment(
        dog=Dog(measures=known),
        on=ON,
        missing=tuple(missing),
        doubts=tuple(Doubt(measure=measure, why=why) for measure, why in doubts),
        ask_again=again,
    )


def asked(*assessments: Assessment) -> list[tuple[int, Measure, Why | None]]:
    return [(one.dog, one.measure, one.why) for one in what_to_ask(assessments)]


def test_all_five_are_asked_for_while_no_dog_is_known() -> None:
    assert what_to_ask(()) == tuple(Asked(measure=measure) for measure in FIVE)


def test_all_that_is_missing_is_asked_at_once_in_the_fixed_order() -> None:
    assert asked(assessed(missing=[LB, T, W, L])) == [(0, L, None), (0, W, None), (0, T, None), (0, LB, None)]


def test_nothing_is_asked_where_all_is_ready() -> None:
    assert asked(assessed(), assessed()) == []


def test_at_most_two_doubts_are_asked_at_once_the_likeliest_first() -> None:
    doubts = [(LB, Why.WEIGHT), (T, Why.THROAT), (L, Why.TAIL)]

    assert asked(assessed(*doubts)) == [(0, T, Why.THROAT), (0, LB, Why.WEIGHT)]


@pytest.mark.parametrize(("doubts", "missing"), [([(H, Why.HEAD)], 2), ([(H, Why.HEAD), (L, Why.TAIL)], 1)])
def test_missing_and_doubted_together_are_at_most_three(doubts: list[tuple[Measure, Why]], missing: int) -> None:
    given = asked(assessed(*doubts, missing=[W, T, LB]))

    assert [why for _, _, why in given].count(None) == missing
    assert len(given) == 3


def test_numbers_keep_the_fixed_order_whatever_their_reason() -> None:
    assert asked(assessed((H, Why.HEAD), missing=[L, W])) == [(0, L, None), (0, H, Why.HEAD), (0, W, None)]


def test_guesses_count_as_missing() -> None:
    guesses = [(L, Why.VAGUE), (H, Why.VAGUE), (LB, Why.VAGUE)]

    given = asked(assessed(*guesses, missing=[W, T]))

    assert [measure for _, measure, _ in given] == list(FIVE)


def test_guesses_at_all_four_are_asked_at_once_though_the_weight_is_known() -> None:
    given = asked(assessed((L, Why.VAGUE), (H, Why.VAGUE), (W, Why.VAGUE), (T, Why.VAGUE)))

    assert [measure for _, measure, _ in given] == [L, H, W, T]


def test_beside_a_measure_that_was_taken_at_most_three_guesses_are_asked_for() -> None:
    given = asked(assessed((LB, Why.VAGUE), (T, Why.VAGUE), (W, Why.VAGUE), (H, Why.VAGUE)))

    assert [measure for _, measure, _ in given] == [H, W, T]


def test_what_is_missing_goes_before_guesses_beside_a_measure_that_was_taken() -> None:
    given = asked(assessed((H, Why.VAGUE), (W, Why.VAGUE), missing=[T, LB]))

    assert given == [(0, H, Why.VAGUE), (0, T, None), (0, LB, None)]


def test_units_are_asked_beside_the_numbers_and_after_them() -> None:
    given = asked(assessed((L, Why.UNIT), (H, Why.UNIT), missing=[W, T]))

    assert given == [(0, W, None), (0, T, None), (0, L, Why.UNIT), (0, H, Why.UNIT)]


def test_of_two_reasons_for_one_measure_the_likelier_is_asked() -> None:
    assert asked(assessed((H, Why.HEAD), (H, Why.SWAP))) == [(0, H, Why.HEAD)]


@pytest.mark.parametrize("why", [Why.GIRTH, Why.SIZE, Why.UNIT])
def test_the_girth_is_asked_in_passing_where_it_helps_to_judge_a_width(why: Why) -> None:
    assert (0, G, None) in asked(assessed((W, why), girth=False))


@pytest.mark.parametrize(
    "one",
    [
        pytest.param(assessed((W, Why.GIRTH)), id="it is known"),
        pytest.param(assessed((H, Why.HEAD), girth=False), id="the width is not in doubt"),
        pytest.param(assessed((W, Why.UNIT), (L, Why.UNIT), girth=False), id="all units are in doubt"),
        pytest.param(assessed((W, Why.SWAP), (H, Why.SWAP), girth=False), id="the numbers changed places"),
        pytest.param(assessed(missing=[W], girth=False), id="the width is only missing"),
    ],
)
def test_the_girth_is_not_asked_for_where_it_does_not_help(one: Assessment) -> None:
    assert G not in [measure for _, measure, _ in asked(one)]


def test_one_measure_is_asked_again_where_the_fit_is_not_sure() -> None:
    assert asked(assessed(again=W)) == [(0, W, None)]


def test_a_measure_is_asked_again_once_and_then_the_maker_decides() -> None:
    assert what_to_ask([assessed(again=T)], asked_again={(0, W)}) == ()


def test_another_dogs_measure_may_still_be_asked_again() -> None:
    assert what_to_ask([assessed(again=T), assessed(again=W)], asked_again={(0, T)}) == (Asked(measure=W, dog=1),)


def test_dogs_are_asked_about_one_after_another() -> None:
    given = asked(assessed(missing=[T]), assessed(), assessed(missing=[L]))

    assert given == [(0, T, None), (2, L, None)]
