"""What an enquiry still has to answer, from its first message to the last text that went out."""

from collections.abc import Sequence
from dataclasses import replace

from replies.draft import DraftKind
from replies.enquiry import CorrectionEvent, Enquiry, Event, MessageEvent, SentEvent
from replies.fold import fold
from replies.reading.context import Asked
from replies.reading.facts import Topic
from replies.reading.words import load_words
from sizing.chart import builtin_shop
from sizing.measures import Amount, Measure, Taken
from tests.replies.enquiries import drafted

COMPLETE = "Pickle is 13 in long, 11.5 in tall at the shoulder, 5.25 in wide, throat 8.25 in, 14 lb"
WIDTH = (Asked(measure=Measure.WIDTH),)


def said(number: int, text: str) -> MessageEvent:
    return MessageEvent(id=str(number), text=text)


def folded(*events: Event) -> Enquiry:
    return fold(events, builtin_shop(), load_words())


def kind(events: Sequence[Event]) -> DraftKind:
    return drafted(folded(*events)).kind


def test_a_message_about_fit_is_unanswered_until_a_text_goes_out() -> None:
    assert folded(said(1, COMPLETE)).unanswered is Topic.SIZING
    assert folded(said(1, COMPLETE), SentEvent()).unanswered is Topic.NONE


def test_a_thanks_in_the_same_breath_does_not_hide_the_enquiry() -> None:
    assert kind([said(1, COMPLETE), said(2, "thank you!")]) is DraftKind.ANSWER


def test_a_thanks_for_the_answer_needs_none() -> None:
    assert kind([said(1, COMPLETE), SentEvent(), said(2, "thank you!")]) is DraftKind.NONE


def test_a_thanks_after_something_else_does_not_hide_that() -> None:
    assert kind([said(1, "Where is my parcel?"), said(2, "thank you!")]) is DraftKind.HANDOVER


def test_measures_weigh_more_than_something_else_in_the_next_message_which_keeps_its_place() -> None:
    draft = drafted(folded(said(1, COMPLETE), said(2, "Do you ship to Norway?")))

    assert draft.kind is DraftKind.ANSWER
    assert len(draft.places) == 1


def test_a_message_changed_after_the_answer_is_unanswered_again() -> None:
    changed = replace(said(1, COMPLETE.replace("5.25", "6.25")), reopened=True)

    assert kind([changed, SentEvent(), said(2, "thank you!")]) is DraftKind.ANSWER


def test_a_makers_correction_after_the_answer_calls_for_a_new_one() -> None:
    correction = CorrectionEvent(dog=0, measure=Measure.WIDTH, taken=Taken(amount=Amount.exactly(5.5)))

    assert kind([said(1, COMPLETE), SentEvent(), correction]) is DraftKind.ANSWER


def test_texts_that_went_out_are_counted() -> None:
    assert folded(said(1, COMPLETE), SentEvent(), said(2, "thanks"), SentEvent()).sent == 2


def test_a_known_measure_that_was_asked_for_without_a_doubt_was_asked_again() -> None:
    asked = folded(said(1, COMPLETE), SentEvent(asks=WIDTH))

    assert asked.asked_again == {(0, Measure.WIDTH)}


def test_a_missing_measure_that_was_asked_for_was_not_asked_again() -> None:
    assert folded(said(1, "Pickle is 13 in long"), SentEvent(asks=WIDTH)).asked_again == frozenset()
