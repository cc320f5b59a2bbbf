"""What a rehearsal gives, line by line."""

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.bot.commands.terminal import PICKLE, ROOT, Terminal, process

WORDS = """
Pickle Otis 13 lb 11 in 14 1/2 12,5 cm kg width wide tall long throat back is was not no and or x to the girth sorry
actually about ~ ? . , : ( ) collar rump height weight 5'2" two dogs
"""


def lines(*messages: dict[str, Any]) -> str:
    return "".join(json.dumps(message) + "\n" for message in messages)


def rehearsed(tapeline: Terminal, *messages: dict[str, Any]) -> list[dict[str, Any]]:
    done = tapeline("rehearse", "-", "--json", given=lines(*messages))
    return [json.loads(line) for line in done.out.splitlines()]


def test_a_line_has_every_field_of_the_interface(tapeline: Terminal) -> None:
    (answer,) = rehearsed(tapeline, {"id": "a", "text": PICKLE})

    (dog,) = answer["dogs"]
    assert list(answer) == ["id", "topic", "also_other", "dogs", "draft"]
    assert (answer["id"], answer["topic"], answer["also_other"]) == ("a", "sizing", False)
    assert list(dog) == ["name", "measures", "missing", "doubts", "outcome"]
    assert (dog["name"], dog["missing"], dog["doubts"]) == ("Pickle", [], [])
    assert dog["measures"]["width"] == {
        "low": 4.5,
        "high": 4.5,
        "words": "4.5 in",
        "span": [PICKLE.index("4.5 in"), PICKLE.index("4.5 in") + 6],
        "message": "a",
    }
    assert {key: dog["outcome"][key] for key in ("kind", "size", "fallback", "opening", "concern", "caution")} == {
        "kind": "standard",
        "size": "No. 4",
        "fallback": None,
        "opening": 8,
        "concern": None,
        "caution": "short_carry",
    }
    assert dog["outcome"]["inside"] == {"length": 15.5, "width": 6.25, "height": 14}
    assert 0 < dog["outcome"]["sure"] < 1
    assert answer["draft"]["kind"] == "answer"
    assert "No. 4" in answer["draft"]["text"]


def test_nothing_known_of_any_dog_gives_no_dogs_and_a_question(tapeline: Terminal) -> None:
    (answer,) = rehearsed(tapeline, {"id": "a", "text": "Hi, which size do I need for my dog?"})

    assert (answer["dogs"], answer["draft"]["kind"]) == ([], "question")


def test_lines_of_one_conversation_build_on_one_another(tapeline: Terminal) -> None:
    first, other, second = rehearsed(
        tapeline,
        {"id": "a", "conversation": "x", "text": "Pickle: 12.5 in long, 11 in tall, 13 lb. Which size?"},
        {"id": "b", "text": "thank you!"},
        {"id": "c", "conversation": "x", "text": "4.5 in wide, throat 8.25 in"},
    )

    assert first["dogs"][0]["missing"] == ["width", "throat_height"]
    assert (other["topic"], other["dogs"], other["draft"]) == ("none", [], {"kind": "none", "text": ""})
    assert second["dogs"][0]["missing"] == []
    assert {key: value["message"] for key, value in second["dogs"][0]["measures"].items()} == {
        "length": "a",
        "height": "a",
        "weight": "a",
        "width": "c",
        "throat_height": "c",
    }


def test_bare_numbers_answer_what_the_question_before_asked_for(tapeline: Terminal) -> None:
    _, second = rehearsed(
        tapeline,
        {"id": "a", "conversation": "x", "text": "Pickle: 12.5 in long, 11 in tall, 13 lb. Which size?"},
        {"id": "b", "conversation": "x", "text": "4.5 and 8.25 in"},
    )

    measures = second["dogs"][0]["measures"]
    assert (measures["width"]["low"], measures["throat_height"]["low"]) == (4.5, 8.25)


def test_what_had_been_asked_can_be_told(tapeline: Terminal) -> None:
    (answer,) = rehearsed(tapeline, {"id": "a", "text": "9 in", "asked": ["throat_height"]})

    assert answer["dogs"][0]["measures"]["throat_height"]["low"] == 9


def test_ids_may_come_twice(tapeline: Terminal) -> None:
    _, second = rehearsed(
        tapeline,
        {"id": "a", "conversation": "x", "text": "11 in tall at the shoulder"},
        {"id": "a", "conversation": "x", "text": "back is 12.5 in long"},
    )

    assert {value["words"] for value in second["dogs"][0]["measures"].values()} == {"11 in", "12.5 in"}


def test_spans_count_code_points(tapeline: Terminal) -> None:
    text = "\U0001f436\U0001f436 e\u0301 width 5 in"

    (answer,) = rehearsed(tapeline, {"id": "a", "text": text})

    start, end = answer["dogs"][0]["measures"]["width"]["span"]
    assert text[start:end] == "5 in"


def test_a_bad_line_is_told_in_its_place_and_all_others_are_answered(tapeline: Terminal) -> None:
    given = '{"id": "a", "text": "hi"}\n\nnope\n   \n{"id": "b", "text": NaN}\n{"id": "c", "text": "hi"}\n'

    done = tapeline("rehearse", "-", "--json", given=given)

    answers = [json.loads(line) for line in done.out.splitlines()]
    assert [(answer["id"], "error" in answer) for answer in answers] == [
        ("a", False),
        (None, True),
        ("b", True),
        ("c", False),
    ]
    assert done.code == 1


def test_an_optional_field_that_cannot_be_used_is_told_on_standard_error(tapeline: Terminal) -> None:
    done = tapeline("rehearse", "-", "--json", given='{"id": "a", "text": "hi", "channel": "fax"}')

    assert done.code == 0
    assert "line 1" in done.err
    assert "fax" in done.err


def test_half_a_surrogate_pair_does_no_harm(tapeline: Terminal) -> None:
    text = '{"id": "a\\ud83d", "text": "\\ud83d width 5 in \\udc36"}'

    done = tapeline("rehearse", "-", "--json", given=text)

    answer = json.loads(done.out)
    assert (answer["id"], answer["dogs"][0]["measures"]["width"]["span"]) == ("a\ud83d", [8, 12])


def test_a_file_with_a_byte_order_mark_and_windows_line_ends_is_read(tapeline: Terminal, tmp_path: Path) -> None:
    file = tmp_path / "old.jsonl"
    file.write_bytes(b'\xef\xbb\xbf{"id": "a", "text": "hi"}\r\n{"id": "b", "text": "hi"}\r\n')

    done = tapeline("rehearse", str(file), "--json")

    assert [json.loads(line)["id"] for line in done.out.splitlines()] == ["a", "b"]


def test_without_json_it_sums_up_what_it_would_have_done(tapeline: Terminal) -> None:
    given = lines({"id": "a", "text": PICKLE}, {"id": "b", "text": "thanks!"}) + "nope\n"

    done = tapeline("rehearse", "-", given=given)

    assert done.code == 1
    for words in ("2 messages", "an answer with a size drafted", "No. 4, a standard size", "short carry", "not JSON"):
        assert words in done.out


def test_each_answer_is_written_before_the_next_line_is_read() -> None:
    command = [sys.executable, "-m", "bot", "rehearse", "-", "--json"]
    with subprocess.Popen(command, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE) as running:
        assert running.stdin is not None
        assert running.stdout is not None
        for name in ("a", "b"):
            running.stdin.write(json.dumps({"id": name, "text": "hi"}).encode() + b"\n")
            running.stdin.flush()
            assert json.loads(running.stdout.readline())["id"] == name
        running.stdin.close()


def test_what_is_no_text_at_all_is_answered_line_by_line() -> None:
    done = process("rehearse", "-", "--json", given=b'\xff\xfe\x00\n{"id": "a", "text": "hi"}\n\x00\n')

    assert [json.loads(line)["id"] for line in done.out.splitlines()] == [None, "a", None]
    assert done.code == 1


@pytest.mark.parametrize("channel", ["chat", "email", "paste"])
@settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(texts=st.lists(st.text(max_size=60), min_size=1, max_size=4))
def test_any_text_is_answered(tapeline: Terminal, channel: str, texts: list[str]) -> None:
    messages = [{"id": str(n), "conversation": "x", "channel": channel, "text": text} for n, text in enumerate(texts)]

    answers = rehearsed(tapeline, *messages)

    assert [answer["id"] for answer in answers] == [message["id"] for message in messages]
    assert all("error" not in answer for answer in answers)


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.lists(
        st.sampled_from([*WORDS.split(), "\n"]),
        max_size=25,
    )
)
def test_any_heap_of_the_words_that_customers_use_is_answered(tapeline: Terminal, words: list[str]) -> None:
    (answer,) = rehearsed(tapeline, {"id": "a", "text": " ".join(words)})

    assert "error" not in answer
