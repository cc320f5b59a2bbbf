"""What a draft is: a question, an answer, a text of the maker's own, or nothing; one for all dogs."""

from dataclasses import replace

import pytest

from replies.draft import DraftKind
from replies.enquiry import EnquiryDog
from replies.errors import WordingError
from replies.reading.context import Asked, Channel
from replies.reading.facts import Topic
from replies.writing.wording import Signature, make_wording
from sizing.measures import Measure
from sizing.reasons import Why
from tests.replies.enquiries import dog, drafted, enquiry, told

PICKLE = dog("Pickle", length=13, height=11.5, width=5.25, throat_height=8.25, weight=14)
OLIVE = dog("Olive", length=12, height=10, weight=9)
DUKE = dog("Duke", length=13, height=11.5, width=5.25, throat_height=6.625, weight=13)
WIDTH = (Asked(measure=Measure.WIDTH),)


@pytest.mark.parametrize(
    ("dogs", "topic", "kind"),
    [
        pytest.param((), Topic.NONE, DraftKind.NONE, id="nothing to answer"),
        pytest.param((OLIVE,), Topic.NONE, DraftKind.NONE, id="nothing to answer, though something is open"),
        pytest.param((), Topic.OTHER, DraftKind.HANDOVER, id="something else"),
        pytest.param((PICKLE,), Topic.OTHER, DraftKind.HANDOVER, id="something else of a dog that is known"),
        pytest.param((), Topic.SIZING, DraftKind.QUESTION, id="no dog is known"),
        pytest.param((OLIVE,), Topic.SIZING, DraftKind.QUESTION, id="something is missing"),
        pytest.param((PICKLE,), Topic.SIZING, DraftKind.ANSWER, id="all is ready"),
        pytest.param((PICKLE, OLIVE), Topic.SIZING, DraftKind.QUESTION, id="one of two is ready"),
        pytest.param((PICKLE, replace(PICKLE, name="Nip")), Topic.SIZING, DraftKind.ANSWER, id="both are ready"),
        pytest.param((DUKE,), Topic.SIZING, DraftKind.HANDOVER, id="no opening serves"),
        pytest.param((PICKLE, DUKE), Topic.SIZING, DraftKind.HANDOVER, id="no opening serves one of two"),
    ],
)
def test_the_kind_of_a_draft(dogs: tuple[EnquiryDog, ...], topic: Topic, kind: DraftKind) -> None:
    assert drafted(enquiry(*dogs, topic=topic)).kind is kind


def test_a_thanks_does_not_hide_a_question_that_was_not_answered_yet() -> None:
    assert drafted(enquiry(PICKLE, topic=Topic.NONE, unanswered=Topic.SIZING)).kind is DraftKind.ANSWER


def test_once_a_text_went_out_nothing_is_drafted_until_something_comes() -> None:
    assert drafted(enquiry(PICKLE, unanswered=Topic.NONE)).kind is DraftKind.NONE


def test_nothing_to_answer_has_no_text() -> None:
    assert drafted(enquiry(topic=Topic.NONE)).text == ""


def test_a_doubted_measure_is_asked_about() -> None:
    draft = drafted(enquiry(replace(PICKLE, measures={**PICKLE.measures, Measure.HEIGHT: told(105)})))

    assert draft.kind is DraftKind.QUESTION
    assert draft.asks[0].measure is Measure.HEIGHT


def test_an_unsure_fit_is_asked_about_once_and_then_answered() -> None:
    crumb = dog("Crumb", length=6.25, height=5.5, width=2.75, throat_height=4, weight=told(2.5, "lb"))
    first = drafted(enquiry(crumb))
    (again,) = first.asks

    second = drafted(enquiry(crumb, asked_again=frozenset({(0, again.measure)})))

    assert (first.kind, second.kind) == (DraftKind.QUESTION, DraftKind.ANSWER)


def test_an_answer_says_the_size_and_carries_its_caution() -> None:
    draft = drafted(enquiry(PICKLE))

    assert "No. 4" in draft.text
    assert len(draft.cautions) == 4
    assert "\n\n".join(draft.cautions) in draft.text


@pytest.mark.parametrize("count", [1, 2], ids=["one dog", "two dogs"])
def test_who_gives_a_weight_alone_is_told_why_that_is_not_enough(count: int) -> None:
    dogs = [dog(name, weight=13) for name in ("Pickle", "Nip")[:count]]

    assert drafted(enquiry(*dogs)).text.count("Weight alone can't tell me") == 1
    assert "Weight alone" not in drafted(enquiry(OLIVE, *dogs)).text


def test_a_question_carries_no_caution() -> None:
    assert drafted(enquiry(OLIVE)).cautions == ()


def test_the_answer_for_a_dog_that_is_ready_waits_for_the_other() -> None:
    draft = drafted(enquiry(PICKLE, OLIVE))

    assert "I have all I need for Pickle" in draft.text
    assert "No. 4" not in draft.text
    assert {asked.dog for asked in draft.asks} == {1}


@pytest.mark.parametrize("dogs", [(PICKLE,), (OLIVE,)], ids=["answer", "question"])
def test_what_else_was_asked_leaves_a_marked_place(dogs: tuple[EnquiryDog, ...]) -> None:
    draft = drafted(enquiry(*dogs, other="do you ship to Norway?"))

    assert draft.places == ('[ to fill in: your answer to "do you ship to Norway?" ]',)
    assert draft.places[0] in draft.text


def test_what_else_was_asked_leaves_a_place_even_where_its_words_were_not_found() -> None:
    assert drafted(enquiry(PICKLE, also_other=True)).places == ("[ to fill in: your answer to what else was asked ]",)


def test_an_open_opening_leaves_a_marked_place_and_keeps_the_caution() -> None:
    draft = drafted(enquiry(DUKE))

    assert [place.split(";")[0] for place in draft.places] == ["[ to fill in: where the front edge goes"]
    assert draft.cautions


def test_a_handover_says_what_is_known_and_keeps_open_what_was_asked() -> None:
    draft = drafted(enquiry(OLIVE, topic=Topic.OTHER, other="where is my parcel?", asked=WIDTH))

    assert 'your answer to "where is my parcel?"' in draft.places[0]
    assert "For Olive I have 12 in long, 10 in at the shoulder and 9 lb on the scales" in draft.text
    assert "I still need the width" in draft.text
    assert draft.asks == WIDTH


def test_an_answer_repeats_the_measures_in_the_customers_own_units() -> None:
    dog_in_cm = dog("Rex", units="cm kg", length=33, height=29, width=13.5, throat_height=21, weight=6.4)
    mixed = replace(dog_in_cm, measures={**dog_in_cm.measures, Measure.HEIGHT: told(11.5)})

    text = drafted(enquiry(mixed, units="cm kg")).text

    assert "33 cm long, 11 1/2 in at the shoulder, 13.5 cm wide, 21 cm at the throat and 6.4 kg on the scales" in text
    assert "39.5 cm (15 1/2 in) long" in text


def test_each_of_two_dogs_is_answered_in_the_unit_that_its_measures_came_in() -> None:
    rex = dog("Rex", units="cm lb", length=33, height=29, width=13.5, throat_height=21, weight=14)

    text = drafted(enquiry(rex, PICKLE, units="in lb")).text

    assert "It leaves 6.5 cm of room in length" in text
    assert "It leaves 2 1/2 in of room in length" in text


def test_what_the_maker_set_is_repeated_in_the_customers_own_units() -> None:
    pickle = replace(PICKLE, measures={**PICKLE.measures, Measure.LENGTH: told(13, by_maker=True)})

    assert "33 cm long" in drafted(enquiry(pickle, units="cm kg")).text


@pytest.mark.parametrize(
    ("channel", "sent", "greeted"),
    [(Channel.CHAT, 0, True), (Channel.CHAT, 1, False), (Channel.PASTE, 1, False), (Channel.EMAIL, 1, True)],
)
def test_a_chat_is_greeted_and_signed_once_and_a_letter_each_time(channel: Channel, sent: int, greeted: bool) -> None:
    text = drafted(enquiry(PICKLE, channel=channel, sent=sent)).text

    assert text.startswith("Hello to you and Pickle,") is greeted
    assert text.endswith("Maren\nLantern Row workshop") is greeted


def test_a_shop_signs_as_it_wishes() -> None:
    wording = make_wording(Signature(maker_name="Maren", greeting="Hi", farewell="Yours,"))

    text = drafted(enquiry(PICKLE), wording=wording).text

    assert text.startswith("Hi to you and Pickle,")
    assert text.endswith("\n\nYours,\nMaren")


def test_without_names_nothing_is_signed() -> None:
    text = drafted(enquiry(), wording=make_wording(Signature(greeting=""))).text

    assert text.startswith("Hello,\n\n")
    assert "Warm wishes" not in text


def test_a_draft_wraps_nothing() -> None:
    paragraphs = drafted(enquiry(PICKLE, sent=1)).text.split("\n\n")

    assert [paragraph for paragraph in paragraphs if "\n" in paragraph] == []


@pytest.mark.parametrize("name", ["answer.jinja", "frame.jinja"])
def test_an_answer_whose_caution_was_left_out_of_a_template_is_refused_by_name(name: str) -> None:
    wording = make_wording(own={name: "Take the large one."})

    with pytest.raises(WordingError, match=rf"wording/{name}: it leaves out"):
        drafted(enquiry(PICKLE), wording=wording)


def test_two_dogs_that_ride_together_are_told_what_one_carrier_would_be() -> None:
    text = drafted(enquiry(PICKLE, replace(PICKLE, name="Nip"), together=True)).text

    assert "You'd like both in one carrier. I'd sooner make two" in text


def test_a_doubt_that_was_said_outright_needs_no_breed() -> None:
    hinted = replace(PICKLE, measures={**PICKLE.measures, Measure.HEIGHT: told(15, hints=[Why.HEAD])})

    assert "breed" not in drafted(enquiry(hinted)).text
