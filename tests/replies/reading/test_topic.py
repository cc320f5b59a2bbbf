"""What a message is: about fit, something else that the maker must answer, or nothing to answer."""

import random
import tomllib
from pathlib import Path

import pytest

from replies.reading.facts import Topic
from tests.replies.reading.readings import known, reading

CASES = Path(__file__).parents[1] / "cases"


def texts(name: str, *, longest: int = 70) -> list[str]:
    """The short messages of one file of cases."""
    cases = tomllib.loads((CASES / f"{name}.toml").read_text(encoding="utf-8"))["case"]
    return [case["text"] for case in cases if "channel" not in case and len(case["text"]) <= longest]


def topic(text: str, **context: object) -> Topic:
    return reading(text, **context).topic


def other(text: str, **context: object) -> list[str]:
    return [passage.words for passage in reading(text, **context).other]


# --- clauses ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "passage"),
    [
        ("10in tall, 12in long and do you post to cork", "do you post to cork"),
        ("10in tall 12in long how much is that one", "how much is that one"),
        ("10in tall, 12in long, which size and what does it cost?", "what does it cost?"),
        ("Is there a waiting list? She is 10in tall and 12in long.", "Is there a waiting list?"),
        ("she is 10in tall\ncan i have it in navy\nand 12in long", "can i have it in navy"),
    ],
)
def test_only_the_clause_that_asks_something_else_is_left_to_the_maker(text: str, passage: str) -> None:
    assert [words.strip(" ,\n").removeprefix("and ") for words in other(text)] == [passage]


def test_a_line_that_a_mail_program_broke_is_one_clause() -> None:
    text = "She is 10 in tall. Would you kindly tell me whether the lining can be\ntaken out for the wash?"

    assert other(text, channel="email") == [
        "Would you kindly tell me whether the lining can be\ntaken out for the wash?"
    ]


# --- questions about something else ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        "is it heavy",
        "is your pattern for sale",
        "can you call me",
        "how much",
        "price list pls",
        "u still taking orders",
        "liefern Sie auch nach Graz",
        "c'est combien",
        "any discount for two",
        "wondering about delivery to wales",
        "do you know a good groomer",
        "where do the buses stop near you",
    ],
)
def test_whatever_is_asked_and_is_not_about_fit_is_something_else(text: str) -> None:
    assert topic(text) is Topic.OTHER


@pytest.mark.parametrize("text", ["Hello?", "hi??", "Stop", "unsubscribe", "refund"])
def test_a_single_word_may_want_an_answer(text: str) -> None:
    assert topic(text) is Topic.OTHER


@pytest.mark.parametrize(
    "text",
    [
        "ok for L?",
        "will the M do",
        "M or L?",
        "does he need the M",
        "which size",
        "what do you suggest",
        "is a 20 lb corgi too much for the large",
        "how do i measure the width",
        "do i include the tail",
        "anything for a whippet?",
        "welche größe für einen mops",
        "what's the biggest you do",
    ],
)
def test_a_question_of_fit_needs_no_measures(text: str) -> None:
    made = reading(text)

    assert (made.topic, made.also_other) == (Topic.SIZING, False)


@pytest.mark.parametrize(
    "text",
    [
        "two extra pockets would be nice, i'd like them in brass",
        "i'd like a longer strap",
        "could you leave room for a blanket",
        "would love it in mustard",
        "navy if possible",
        "fancy the stripy one",
        "is it within 18 x 11 x 11 for the train?",
    ],
)
def test_a_wish_for_the_carrier_is_something_else(text: str) -> None:
    made = reading(f"10in tall, 12in long, 9lb. {text}")

    assert (made.topic, made.also_other) == (Topic.SIZING, True)


@pytest.mark.parametrize(
    "text",
    [
        "train to Cork on the 19th, no rush",
        "we fly on the 3rd of May",
        "my friend has the blue one and loves it",
        "i bought one at the fair two years ago",
        "she hates the rain and loves cheese",
        "i've paid the deposit",
        "hope that's all you need",
        "is that enough?",
        "which size should i order so it's here in time?",
    ],
)
def test_what_is_only_told_wants_no_answer(text: str) -> None:
    made = reading(f"10in tall, 12in long, 9lb. {text}")

    assert (made.topic, made.also_other) == (Topic.SIZING, False)


@pytest.mark.parametrize("text", ["yes", "Yep.", "no", "correct", "no its not", "ja"])
def test_a_bare_yes_or_no_to_a_doubt_has_the_question_put_again(text: str) -> None:
    dog = known("Rex", length=13, height=11, width=17)

    assert topic(text, dogs=[dog], asked=["width/girth"], first=False) is Topic.SIZING


@pytest.mark.parametrize("text", ["ok", "thanks", "yes will check tonight", "true, will redo it tonight"])
def test_a_promise_after_a_doubt_wants_no_answer(text: str) -> None:
    dog = known("Rex", length=13, height=11, width=17)

    assert topic(text, dogs=[dog], asked=["width/girth"], first=False) is Topic.NONE


def test_a_bare_yes_where_nothing_was_doubted_wants_no_answer() -> None:
    dog = known("Rex", length=13, height=11)

    assert topic("yes", dogs=[dog], asked=["width"], first=False) is Topic.NONE


def test_a_bare_question_is_about_what_stands_before_it() -> None:
    assert topic("need it by the 3rd of may, doable?", dogs=[known(height=10)]) is Topic.OTHER
    assert topic("is that ok?", dogs=[known(height=10)]) is Topic.SIZING
    assert topic("is that ok?") is Topic.OTHER


def test_a_question_that_the_customer_answers_herself_is_a_heading() -> None:
    assert not other("How tall? 11 in. How long? 12 in. How heavy? 9 lb. How patient? Not at all.")


def test_what_is_said_in_jest_is_not_asked() -> None:
    assert not other("do you take payment in biscuits? jk. 10in tall, 12in long")


# --- complaints ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        "the strap tore, she is only 9 lb",
        "my order hasn't come",
        "still no reply",
        "it came apart after a week",
        "got the wrong colour",
        "charged twice",
        "the website won't let me pay",
        "i put the wrong postcode on my order",
        "two weeks and not a word from you",
        "one side of the bag hangs lower than the other",
    ],
)
def test_a_complaint_wants_an_answer_and_makes_no_question_of_fit_of_a_weight(text: str) -> None:
    made = reading(text)

    assert (made.topic, made.dogs) == (Topic.OTHER, ())


@pytest.mark.parametrize(
    "text",
    [
        "my tape broke, will get another",
        "he chewed the ruler lol",
        "she won't stand still",
        "i wrote it down wrong, sorry",
        "haven't measured yet",
        "no tape in the house",
        "he's not happy about it haha, he hates the tape",
    ],
)
def test_what_goes_wrong_at_home_is_no_complaint(text: str) -> None:
    assert topic(text) is Topic.NONE


def test_a_weight_beside_a_question_before_buying_is_a_question_of_fit() -> None:
    made = reading("how much is one for a 12 lb westie")

    assert (made.topic, made.also_other) == (Topic.SIZING, True)


# --- nothing to answer -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        "danke!",
        "merci beaucoup",
        "muchas gracias",
        "grazie mille",
        "tak skal du have",
        "okey dokey, 10-4",
        "will measure tonight",
        "how are you? hope all is well",
        "anyone there?",
        "it came today and she loves it",
        "let me know if you need anything else",
        "can't wait!",
        "payment sent",
    ],
)
def test_greetings_thanks_promises_and_tellings_want_no_answer(text: str) -> None:
    made = reading(text)

    assert (made.topic, made.dogs) == (Topic.NONE, ())


# --- what holds for all cases ----------------------------------------------------------------------------------------

NONE, OTHER, FIT, BOTH = (texts(name) for name in ("nothing_to_answer", "something_else", "only_fit", "also_asks"))


def mixed(first: list[str], second: list[str], joint: str) -> list[tuple[str, str]]:
    chance = random.Random(f"{len(first)} {len(second)} {joint}")
    return [(one, f"{one}{joint}{chance.choice(second)}") for one in first]


@pytest.mark.parametrize("joint", ["\n", ". ", "! "])
def test_pleasantries_change_nothing(joint: str) -> None:
    for texts_of_a_kind in (NONE, OTHER, FIT, BOTH):
        for alone, with_more in mixed(texts_of_a_kind, [*NONE, "thanks", "no rush"], joint):
            if len(alone.split()) > 1:
                one, other_one = reading(alone), reading(with_more)
                assert (one.topic, one.also_other) == (other_one.topic, other_one.also_other), with_more


def test_a_question_about_something_else_is_heard_beside_any_question_of_fit() -> None:
    asked = "do you ship to norway?"
    heard = [text for text in FIT if reading(f"{text}\n{asked}").also_other]

    assert heard == FIT


@pytest.mark.parametrize("change", [str.upper, str.lower, lambda text: text.replace(" ", "\u00a0")])
def test_capitals_and_kinds_of_blanks_change_nothing(change: object) -> None:
    assert callable(change)
    for text in (*NONE, *OTHER):
        assert topic(change(text)) is topic(text), text
