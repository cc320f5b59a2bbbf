"""Of two values the one with the head up counts, and the one with the head down is doubted."""

from sizing.reasons import Why
from tests.replies.reading.readings import measures, reading


def test_the_value_with_the_head_up_takes_the_place_of_the_one_with_it_down() -> None:
    text = "throat to floor 8, but with her head down. head up it's 9"

    assert measures(text) == {"throat_height": "9"}


def test_a_value_with_the_head_down_is_doubted_where_no_other_is_told() -> None:
    told = reading("throat to floor 8, but with her head down").dogs[0].facts

    assert [(fact.written.low, fact.hints) for fact in told] == [(8.0, {Why.THROAT})]
