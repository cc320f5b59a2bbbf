"""Log lines hold ids, states and durations, and cannot hold a word of anybody's."""

import io
import re

import pytest

from bot.log import note, start_log, timed, trouble
from bot.states import DepartureState


@pytest.fixture
def stream() -> io.StringIO:
    stream = io.StringIO()
    start_log(stream)
    return stream


def test_a_line_says_what_happened_with_ids_and_states(stream: io.StringIO) -> None:
    note("departure", draft=7, part=1, state=DepartureState.GONE)

    assert re.fullmatch(r"\S+Z INFO departure draft=7 part=1 state=gone\n", stream.getvalue())


def test_trouble_stands_out(stream: io.StringIO) -> None:
    trouble("channel lost", attempt=3)

    assert " WARNING channel lost attempt=3\n" in stream.getvalue()


def test_a_text_is_refused(stream: io.StringIO) -> None:
    with pytest.raises(TypeError, match="who is a text"):
        note("kept", who="Mira")

    assert stream.getvalue() == ""


def test_a_duration_is_noted_also_where_it_broke_off(stream: io.StringIO) -> None:
    with pytest.raises(RuntimeError), timed("reading", enquiry=1):
        raise RuntimeError("her words")

    assert re.search(r"reading enquiry=1 seconds=\d+\.\d{3}\n", stream.getvalue())
    assert "her words" not in stream.getvalue()
