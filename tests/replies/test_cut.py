"""What a changed text lacks of its draft."""

import pytest

from replies.cut import Lack, lacks
from tests.replies.enquiries import dog, drafted, enquiry

PICKLE = dog("Pickle", length=13, height=11.5, width=5.25, throat_height=8.25, weight=14)
ANSWER = drafted(enquiry(PICKLE))
WITH_PLACE = drafted(enquiry(PICKLE, other="how much is it?"))


def test_a_draft_as_it_is_lacks_nothing() -> None:
    assert not lacks(ANSWER.text, ANSWER)


def test_an_unfilled_place_is_named() -> None:
    assert lacks(WITH_PLACE.text, WITH_PLACE) == Lack(places=('[ to fill in: your answer to "how much is it?" ]',))


def test_a_filled_place_is_none() -> None:
    assert not lacks(WITH_PLACE.text.replace(WITH_PLACE.places[0], "It is $114."), WITH_PLACE)


@pytest.mark.parametrize("rest", ["[ to fill in: ]", "[to fill in: your answer", "[  To Fill In: the price ]"])
def test_a_place_that_was_only_touched_is_still_unfilled(rest: str) -> None:
    assert lacks(WITH_PLACE.text.replace(WITH_PLACE.places[0], rest), WITH_PLACE).places


@pytest.mark.parametrize("number", range(len(ANSWER.cautions)))
def test_each_part_of_the_caution_is_missed(number: int) -> None:
    caution = ANSWER.cautions[number]

    assert lacks(ANSWER.text.replace(caution, ""), ANSWER) == Lack(cautions=(caution,))


def test_a_sentence_cut_out_of_the_caution_is_missed() -> None:
    changed = ANSWER.text.replace("Clip the tether to a harness, never to a collar; ", "")

    assert [caution.split(",")[0] for caution in lacks(changed, ANSWER).cautions] == ["Clip the tether to a harness"]


def test_line_breaks_and_kinds_of_quotes_do_not_count() -> None:
    changed = ANSWER.text.replace("'", "’").replace(", ", ",\n  ").replace(". ", ".  ")

    assert not lacks(changed, ANSWER)


def test_a_question_has_no_caution_to_lack() -> None:
    question = drafted(enquiry())

    assert not lacks("anything", question)
