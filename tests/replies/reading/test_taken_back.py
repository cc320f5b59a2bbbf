"""Values told before that count again, or that are taken back without another."""

from dataclasses import replace

from replies.reading.context import KnownDog
from sizing.measures import Amount, Measure
from tests.replies.reading.readings import dogs, known, reading


def replaced() -> KnownDog:
    """A dog whose length was first told as 13, then as 15."""
    return replace(known(length=15, height=11), before={Measure.LENGTH: (Amount.exactly(13),)})


def test_a_replaced_value_counts_again_where_it_is_said_to_have_been_right() -> None:
    assert dogs("no, 13 was right", dogs=[replaced()]) == [{"length": "13 correction"}]


def test_a_number_that_was_never_told_is_no_return() -> None:
    assert "length" not in dict(*dogs("14 was right", dogs=[replaced()]) or [{}])


def test_a_replaced_value_alone_is_no_return() -> None:
    assert dogs("13", dogs=[replaced()]) == []


def test_a_named_measure_is_taken_back() -> None:
    (dog,) = reading("ignore the height please, she was sitting", dogs=[known(length=13, height=11)]).dogs

    assert dog.withdrawn == {Measure.HEIGHT}


def test_several_are_taken_back() -> None:
    (dog,) = reading("forget the length and the height", dogs=[known(length=13, height=11, weight=14)]).dogs

    assert dog.withdrawn == {Measure.LENGTH, Measure.HEIGHT}


def test_a_reminder_takes_nothing_back() -> None:
    assert reading("don't forget the height is 11", dogs=[known(length=13, height=11)]).dogs[0].withdrawn == frozenset()
