"""What strangers write is data: never a template, markup, a mention, a line of its own or a marked place."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from replies.draft import DraftKind
from replies.reading.facts import Topic
from replies.writing.places import places_in
from replies.writing.plain import one_line
from tests.replies.enquiries import dog, drafted, enquiry, told

HOSTILE = [
    "{{ 7*7 }}",
    "{% for d in dogs %}x{% endfor %}",
    "<b>Rex</b>",
    "<@123456>",
    "@everyone",
    "Rex\r\nBcc: all@workshop.example",
    "[ to fill in: nothing ]",
    "Rex\u202egnp.exe",
    "visit.evil.example",
    "x" * 500,
    "`rm -rf`",
    "Re\x00x\x1b[31m",
    "",
    "   ",
    "🐕",
    "[Rex](https://evil.example)",
]
MEASURES = {"length": 13.0, "height": 11.5, "width": 5.25, "throat_height": 8.25, "weight": 14.0}


@pytest.mark.parametrize("name", HOSTILE)
def test_what_is_no_name_is_not_used_as_one(name: str) -> None:
    assert drafted(enquiry(dog(name, **MEASURES))).text == drafted(enquiry(dog(None, **MEASURES))).text


@given(st.text(max_size=60))
def test_any_name_at_all_keeps_every_paragraph_in_its_place(name: str) -> None:
    plain = drafted(enquiry(dog(None, **MEASURES)))

    named = drafted(enquiry(dog(name, **MEASURES)))

    assert named.text.count("\n") == plain.text.count("\n")
    assert named.places == ()
    assert len(named.cautions) == len(plain.cautions)


@given(st.one_of(st.sampled_from(HOSTILE), st.text(max_size=400)), st.sampled_from([Topic.SIZING, Topic.OTHER]))
def test_what_else_was_asked_is_quoted_in_one_place_and_nowhere_else(words: str, topic: Topic) -> None:
    made = drafted(enquiry(dog("Pickle", **MEASURES), topic=topic, other=words or "?"))

    assert made.kind in (DraftKind.ANSWER, DraftKind.HANDOVER)
    assert len(made.places) == 1
    assert places_in(made.text) == made.places
    assert "@" not in made.text
    assert len(made.places[0]) < 220


@given(st.text(max_size=40))
def test_the_words_of_a_number_are_said_back_only_where_they_are_a_plain_number(words: str) -> None:
    said = drafted(enquiry(dog("Pickle", length=told(13, words=words)))).text
    plain = drafted(enquiry(dog("Pickle", length=13))).text

    assert said == plain or said == plain.replace("13 in long", f"{one_line(words)} long")


def test_a_names_own_capitals_stay() -> None:
    assert (
        "McGee is bigger than I can sew for well"
        in drafted(enquiry(dog("McGee", length=32, height=33, width=12.5, throat_height=24, weight=148))).text
    )


def test_drafting_is_the_same_each_time() -> None:
    given_enquiry = enquiry(dog("Pickle", **MEASURES), other="is it blue?")

    assert drafted(given_enquiry) == drafted(given_enquiry)
