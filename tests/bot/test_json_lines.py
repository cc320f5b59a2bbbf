"""What a line of a rehearsal must hold, what is left out of it, and what is no line at all."""

import json
import re
from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.json_lines import BadLineError, Line, read_line
from replies.reading.context import Channel
from sizing.measures import Measure

LEAF = st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=5)
JSON = LEAF | st.lists(LEAF, max_size=3) | st.dictionaries(st.text(max_size=3), LEAF, max_size=2)
OPTIONAL = st.sampled_from(["conversation", "channel", "subject", "sent_at", "asked", "n"])


def test_a_whole_line_is_read() -> None:
    raw = (
        b'{"id": "a", "conversation": "x", "channel": "email", "subject": "size?",'
        b' "sent_at": "2026-03-01T10:00:00+01:00", "text": "13 lb",'
        b' "asked": ["width", "throat_height"], "n": 1}'
    )

    assert read_line(raw) == Line(
        id="a",
        text="13 lb",
        conversation="x",
        channel=Channel.EMAIL,
        subject="size?",
        sent_at=datetime(2026, 3, 1, 9, tzinfo=UTC),
        asked=(Measure.WIDTH, Measure.THROAT_HEIGHT),
    )


def test_id_and_text_are_enough() -> None:
    assert read_line(b'{"id": "a", "text": ""}') == Line(id="a", text="")


def test_nothing_asked_is_something_else_than_not_told() -> None:
    assert read_line(b'{"id": "a", "text": "x", "asked": []}').asked == ()
    assert read_line(b'{"id": "a", "text": "x", "asked": null}').asked is None


@pytest.mark.parametrize(
    ("raw", "line_id", "says"),
    [
        pytest.param(b"nope", None, "not JSON", id="no JSON"),
        pytest.param(b'{"id": "a"', None, "not JSON", id="cut off"),
        pytest.param(b"[" * 100_000, None, "not JSON", id="very deep"),
        pytest.param(b'{"id": "a", "text": ' + b"9" * 5000 + b"}", None, "not JSON", id="a number of 5000 digits"),
        pytest.param(b"[1]", None, "a list", id="a list"),
        pytest.param(b'"text"', None, "a text", id="a text"),
        pytest.param(b"null", None, "null", id="null"),
        pytest.param(b"7", None, "a number", id="a number"),
        pytest.param(b'{"text": "x"}', None, '"id" is missing', id="no id"),
        pytest.param(b'{"id": "a"}', "a", '"text" is missing', id="no text"),
        pytest.param(b'{"id": "a", "text": null}', "a", '"text" is missing', id="text null"),
        pytest.param(b'{"id": 7, "text": "x"}', None, '"id" must be a text', id="id a number"),
        pytest.param(b'{"id": "a", "text": ["x"]}', "a", '"text" must be a text', id="text a list"),
        pytest.param(b'{"id": "a", "text": "x", "n": NaN}', "a", "NaN", id="NaN"),
        pytest.param(b'{"id": "a", "text": "x", "n": [-Infinity]}', "a", "-Infinity", id="infinite, deep inside"),
        pytest.param(b'{"id": "a", "text": "x", "n": 1e999}', "a", "1e999", id="beyond every float"),
        pytest.param(b'{"id": "a", "text": "\xff"}', None, "not UTF-8", id="not UTF-8"),
    ],
)
def test_a_bad_line_is_refused_with_the_reason(raw: bytes, line_id: str | None, says: str) -> None:
    with pytest.raises(BadLineError, match=re.escape(says)) as refused:
        read_line(raw)

    assert refused.value.line_id == line_id


@pytest.mark.parametrize(
    ("field", "line"),
    [
        pytest.param('"channel": "fax"', Line(id="a", text="x"), id="a channel nobody knows"),
        pytest.param('"channel": [1]', Line(id="a", text="x"), id="a channel that is a list"),
        pytest.param('"subject": 5', Line(id="a", text="x"), id="a subject that is a number"),
        pytest.param('"sent_at": "yesterday"', Line(id="a", text="x"), id="no time"),
        pytest.param('"sent_at": {}', Line(id="a", text="x"), id="a time that is an object"),
        pytest.param('"conversation": [1]', Line(id="a", text="x"), id="a conversation that is a list"),
        pytest.param('"asked": "width"', Line(id="a", text="x"), id="asked is no list"),
        pytest.param('"asked": ["tail", "width", 3]', Line(id="a", text="x", asked=(Measure.WIDTH,)), id="odd"),
    ],
)
def test_an_optional_field_that_cannot_be_used_is_left_out_and_said_so(field: str, line: Line) -> None:
    read = read_line(f'{{"id": "a", "text": "x", {field}}}'.encode())

    assert read.left_out
    assert (read.channel, read.subject, read.sent_at, read.conversation, read.asked) == (
        line.channel,
        line.subject,
        line.sent_at,
        line.conversation,
        line.asked,
    )


@pytest.mark.parametrize(
    "written", ['"2026-03-01T09:00:00Z"', '"2026-03-01 09:00"', '"2026-03-01T10:00+01:00"', "1772355600"]
)
def test_a_time_may_be_written_in_several_ways(written: str) -> None:
    line = read_line(f'{{"id": "a", "text": "x", "sent_at": {written}}}'.encode())

    assert line.sent_at == datetime(2026, 3, 1, 9, tzinfo=UTC)


def test_half_a_surrogate_pair_is_kept_as_it_is() -> None:
    assert read_line(b'{"id": "a\\ud83d", "text": "\\ud83d\\ude00 \\ud83d"}').text == "\U0001f600 \ud83d"


@given(st.binary())
def test_any_bytes_are_a_line_or_are_refused(raw: bytes) -> None:
    try:
        assert isinstance(read_line(raw), Line)
    except BadLineError as error:
        assert str(error)


@given(st.dictionaries(OPTIONAL, JSON, max_size=4))
def test_optional_fields_may_hold_anything(fields: dict[str, object]) -> None:
    raw = json.dumps({"id": "a", "text": "x", **fields}).encode()

    try:
        assert read_line(raw).id == "a"
    except BadLineError as error:
        assert "is not a number that can be used" in str(error)
