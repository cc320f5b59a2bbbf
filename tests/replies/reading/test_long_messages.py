"""Messages longer than anybody writes."""

import pytest

from replies.reading.facts import SetAside
from tests.replies.reading.readings import measures, reading

TOLD = "back 13, shoulder 11"
READ = {"length": "13", "height": "11"}


def test_what_is_told_at_the_beginning_of_a_very_long_message_is_read() -> None:
    assert measures(TOLD + " and so on" * 100_000) == READ


def test_what_is_told_below_a_very_long_quoted_mail_is_read() -> None:
    quoted = "On 3 March the workshop wrote:\n" + "> how are you?\n" * 15_000

    assert measures(f"{quoted}\n{TOLD}", channel="email") == READ


@pytest.mark.parametrize("long", ["and so on " * 50_000, "\n" * 70_000 + "x" * 300_000])
def test_where_reading_ended_is_told(long: str) -> None:
    last = reading(TOLD + long).aside[-1]

    assert last.why is SetAside.UNCLEAR
    assert "not read from here on" in last.note
    assert (TOLD + long)[last.at.start : last.at.end] == last.at.words


def test_a_message_as_people_write_them_is_read_whole() -> None:
    assert reading(TOLD).aside == ()
