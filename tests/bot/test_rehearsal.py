"""A rehearsal says what a live enquiry would have said: each message read once comes to the same as all read again."""

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.json_lines import Line
from bot.rehearsal import Rehearsal
from bot.workshop import judge, open_workshop
from replies.draft import DraftKind
from replies.enquiry import Event, SentEvent
from replies.fold import fold

TODAY = date(2026, 3, 4)
WORKSHOP = open_workshop(None)
MESSAGES = [
    "Pickle is 13 lb, 11 in tall. Which size?",
    "12 1/2 in and 4.5 in",
    "sorry, the width is 5 1/2 in",
    "and our Otis: 20 lb, 14 in tall at the shoulder",
    "all in cm by the way",
    "throat 8 1/4",
    "thanks!",
    "do you have it in green?",
    "no idea, maybe 6 in wide",
]


@settings(max_examples=30)
@given(st.lists(st.sampled_from(MESSAGES), min_size=1, max_size=6))
def test_a_message_read_once_comes_to_the_same_as_all_read_again(texts: list[str]) -> None:
    rehearsal, events = Rehearsal(WORKSHOP, today=TODAY), list[Event]()

    for number, text in enumerate(texts, start=1):
        line = Line(id=f"m{number}", text=text, conversation="x")
        judged, _ = rehearsal.hear(line)
        events.append(line.event(str(number)))
        again = judge(fold(events, WORKSHOP.shop, WORKSHOP.words), WORKSHOP, TODAY)
        if again.draft.kind is not DraftKind.NONE:
            events.append(SentEvent(asks=again.draft.asks))

        assert judged == again


def test_what_was_heard_is_not_changed_by_what_is_heard_later() -> None:
    rehearsal = Rehearsal(WORKSHOP, today=TODAY)
    first, _ = rehearsal.hear(Line(id="a", text=MESSAGES[0], conversation="x"))
    kept = (dict(first.enquiry.readings), first.enquiry.dogs)

    rehearsal.hear(Line(id="b", text=MESSAGES[1], conversation="x"))

    assert (dict(first.enquiry.readings), first.enquiry.dogs) == kept


@pytest.mark.parametrize("name", [None, "x"])
def test_lines_without_a_conversation_stand_alone(name: str | None) -> None:
    rehearsal = Rehearsal(WORKSHOP, today=TODAY)
    rehearsal.hear(Line(id="a", text=MESSAGES[0], conversation=name))

    judged, _ = rehearsal.hear(Line(id="b", text="thanks!", conversation=name))

    assert len(judged.enquiry.dogs) == (1 if name else 0)
