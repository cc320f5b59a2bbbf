"""A maker's morning at her terminal, without a bot: paste, look, decide, copy."""

import json
import os
import pty
import select
import sqlite3
import subprocess
import sys
import termios
import time
from contextlib import closing

import pytest

from tests.bot.commands.terminal import PICKLE, ROOT, Terminal


def test_a_pasted_message_comes_back_as_an_enquiry_with_its_draft(tapeline: Terminal) -> None:
    done = tapeline("paste", "--from", "Marit", given=PICKLE)

    assert done.code == 0
    screen = done.out
    order = [
        screen.index(words) for words in ("No. 4", "front edge", "16 lb 2 oz in all", "“4.5 in wide”", "1.1  an answer")
    ]
    assert order == sorted(order)
    assert "No. 3, the next smaller" in screen
    assert "tapeline approve 1.1" in screen


def test_of_two_dogs_each_has_its_name_above_the_sizes_beside_it(tapeline: Terminal) -> None:
    both = "Nana: 21 cm high, 23 cm long, 8.5 cm wide, throat 15 cm, 2.9 kg. " + PICKLE.removeprefix("Hi! ")

    screen = tapeline("paste", "--from", "Marit", given=both).out

    beside = screen[screen.index("Quillback Bags") :]
    assert beside.index("for Nana") < beside.index("No. 1, the next smaller") < beside.index("for Pickle")


def test_an_approved_text_goes_to_standard_output_alone(tapeline: Terminal) -> None:
    tapeline("paste", "--from", "Marit", given=PICKLE)

    done = tapeline("approve", "1.1")

    assert done.code == 0
    assert done.out.startswith("Hello to you and Pickle,")
    assert done.out.endswith("Quillback Bags\n")
    assert "Copy this" in done.err


def test_what_was_copied_waits_no_longer(tapeline: Terminal) -> None:
    tapeline("paste", "--from", "Marit", given=PICKLE)
    assert "1.1" in tapeline("waiting").out

    tapeline("approve", "1.1")

    assert tapeline("waiting").out == "Nothing waits for you.\n"


def test_a_draft_that_is_damaged_in_the_store_is_shown_anew_and_said_to_be(tapeline: Terminal) -> None:
    tapeline("paste", "--from", "Marit", given=PICKLE)
    assert tapeline.folder is not None
    with closing(sqlite3.connect(tapeline.folder / "tapeline.db")) as store, store:
        store.execute("UPDATE draft SET result_json = '{\"basis\": '")

    done = tapeline("show", "1")

    assert done.code == 0
    assert "the store is damaged" in " ".join(done.out.split())
    assert "1.2  an answer" in done.out
    assert tapeline("approve", "1.2").out.startswith("Hello to you and Pickle,")


def test_an_approved_text_can_be_copied_again(tapeline: Terminal) -> None:
    tapeline("paste", given=PICKLE)
    first = tapeline("approve", "1.1").out

    assert tapeline("copy", "1.1").out == first


def test_the_same_customers_next_message_goes_on_where_it_was(tapeline: Terminal) -> None:
    tapeline("paste", "--from", "Marit", given="Pickle is 13 lb and 11 in tall at the shoulder. What size?")
    tapeline("approve", "1.1")

    done = tapeline("paste", "--from", "marit", given="12 1/2 in, 4.5 in and 8 1/4 in")

    assert "enquiry 1 " in done.out
    assert "No. 4" in done.out


def test_the_same_text_pasted_twice_is_one_message(tapeline: Terminal) -> None:
    tapeline("paste", "--from", "Marit", given=PICKLE)

    done = tapeline("paste", "--from", "Marit", given=PICKLE)

    assert "there already" in done.err
    assert [item["number"] for item in json.loads(tapeline("waiting", "--json").out)] == ["1.1"]


def test_a_measure_set_by_the_maker_counts(tapeline: Terminal) -> None:
    tapeline("paste", given=PICKLE)

    done = tapeline("correct", "1", "width", "5.5")

    assert done.code == 0
    assert "set by you" in done.out
    assert "1.2  an answer" in done.out


def test_a_stale_version_is_refused_and_the_new_one_named(tapeline: Terminal) -> None:
    tapeline("paste", given=PICKLE)
    tapeline("correct", "1", "width", "5.5")

    done = tapeline("approve", "1.1")

    assert (done.code, done.out) == (1, "")
    assert "1.1 is old: a measure was corrected; 1.2 stands in its place" in done.err


def test_a_changed_chart_makes_a_draft_stale(tapeline: Terminal) -> None:
    assert tapeline.folder is not None
    tapeline("paste", given=PICKLE)
    file = tapeline.folder / "shop.toml"
    file.write_text(file.read_text().replace("empty_weight = 2.1", "empty_weight = 2.2"))

    done = tapeline("approve", "1.1")

    assert (done.code, done.out) == (1, "")
    assert "your sizes, ease or wording" in done.err


def test_a_text_with_an_unfilled_place_goes_only_at_a_second_yes(tapeline: Terminal) -> None:
    tapeline("paste", given="Where is my order? It should have been here on Monday.")

    refused = tapeline("approve", "1.1")
    assert (refused.code, refused.out) == (1, "")
    assert "a place is not filled in" in refused.err

    assert tapeline("approve", "1.1", "--sure").code == 0


def test_a_draft_can_be_put_in_her_own_words(tapeline: Terminal) -> None:
    tapeline("paste", given="Where is my order? It should have been here on Monday.")

    changed = tapeline("change", "1", "--text", "-", given="It left here on Friday.")

    assert "1.2 waits for your yes" in changed.out
    assert tapeline("approve", "1.2").out == "It left here on Friday.\n"


def test_a_caution_cut_out_of_an_answer_is_named(tapeline: Terminal) -> None:
    tapeline("paste", given=PICKLE)

    changed = tapeline("change", "1", "--text", "-", given="Take my No. 4.")

    assert "the weight caution is not whole" in changed.err
    assert tapeline("approve", "1.2").code == 1


def test_without_a_terminal_there_is_no_editor(tapeline: Terminal) -> None:
    tapeline("paste", given=PICKLE)

    done = tapeline("change", "1")

    assert done.code == 1
    assert "--text" in done.err


def test_a_draft_set_aside_is_not_sent_and_can_be_drafted_again(tapeline: Terminal) -> None:
    tapeline("paste", given=PICKLE)

    assert tapeline("set-aside", "1").code == 0
    assert tapeline("waiting").out == "Nothing waits for you.\n"
    assert tapeline("approve", "1.1").code == 1
    assert "1.2" in tapeline("show", "1", "--draft-again").out


def test_a_closed_enquiry_waits_for_nobody(tapeline: Terminal) -> None:
    tapeline("paste", given=PICKLE)

    assert tapeline("close", "1").code == 0

    assert tapeline("waiting").out == "Nothing waits for you.\n"
    assert "closed" in tapeline("show", "1").out


@pytest.mark.parametrize(
    "arguments",
    [("show", "9"), ("approve", "9.1"), ("approve", "x"), ("change", "9", "--text", "-"), ("correct", "9", "width 5"),
     ("set-aside", "9"), ("close", "9"), ("copy", "9.1"), ("settle", "9.1", "went"), ("show", "-1e3")],
    ids=" ".join,
)  # fmt: skip
def test_what_is_not_there_is_said_in_one_line(tapeline: Terminal, arguments: tuple[str, ...]) -> None:
    done = tapeline(*arguments)

    assert done.code in (1, 2)
    assert done.out == ""
    assert "Traceback" not in done.err


@pytest.mark.parametrize("measure", ["width", "widht 5", "width 5 kg", "5", "width 5 in or 6"])
def test_a_correction_that_cannot_be_read_changes_nothing(tapeline: Terminal, measure: str) -> None:
    tapeline("paste", given=PICKLE)

    assert tapeline("correct", "1", measure).code == 1
    assert "1.1" in tapeline("waiting").out


def test_an_empty_paste_is_no_message(tapeline: Terminal) -> None:
    assert tapeline("paste", given=" \n ").code == 1
    assert tapeline("waiting").out == "Nothing waits for you.\n"


def test_a_message_in_an_old_encoding_is_read(tapeline: Terminal) -> None:
    done = tapeline("paste", given="Bramble für 5½ in width".encode("cp1252"))

    assert "für 5½ in width" in done.out


def test_show_can_be_read_by_another_program(tapeline: Terminal) -> None:
    tapeline("paste", given=PICKLE)

    answer = json.loads(tapeline("show", "1", "--json").out)

    assert answer["dogs"][0]["outcome"]["size"] == "No. 4"


def test_a_strangers_words_cannot_work_the_terminal(tapeline: Terminal) -> None:
    done = tapeline("paste", "--from", "\x1b[2JMarit\x07", given="\x1b]0;owned\x07 \x9b2J width 5 in \u202egnirts")

    assert not set("\x1b\x07\x9b\u202e") & set(done.out)


def _listens(terminal: int, typed: str) -> bool:
    """Whether the program has set its terminal up for what is to be typed: single keys, or whole lines."""
    by_lines = bool(termios.tcgetattr(terminal)[3] & termios.ICANON)
    return by_lines is typed.endswith(("\n", "\x04"))


def type_at_a_terminal(folder: str, arguments: list[str], keys: list[tuple[str, str]]) -> tuple[int, str]:
    """Run a command at a real terminal: wait for each text on the screen, then type what belongs to it."""
    ours, theirs = pty.openpty()
    environment = {**os.environ, "TAPELINE_SHOP": folder, "TERM": "xterm", "COLUMNS": "80", "EDITOR": "true"}
    command = [sys.executable, "-m", "bot", *arguments]
    running = subprocess.Popen(command, cwd=ROOT, stdin=theirs, stdout=theirs, stderr=theirs, env=environment)
    os.close(theirs)
    screen, seen, deadline = "", 0, time.monotonic() + 60
    todo = list(keys)
    while time.monotonic() < deadline:
        if todo and todo[0][0] in screen[seen:] and _listens(ours, todo[0][1]):
            seen = len(screen)
            os.write(ours, todo.pop(0)[1].encode())
        if select.select([ours], [], [], 0.1)[0]:
            try:
                more = os.read(ours, 65536)
            except OSError:  # the other end was closed
                break
            if not more:
                break
            screen += more.decode("utf-8", "replace")
        elif running.poll() is not None:
            break
    os.close(ours)
    return running.wait(timeout=10), screen


def test_at_a_terminal_single_keys_decide(tapeline: Terminal) -> None:
    code, screen = type_at_a_terminal(
        str(tapeline.folder),
        ["paste", "--from", "Marit"],
        [("Paste the message", PICKLE + "\n\x04"), ("l later", "m"), ("Which measure", "width 5.5\n"),
         ("l later", "a"), ("Copied?", "y\n")],
    )  # fmt: skip

    assert code == 0
    assert "1.2  an answer" in screen
    assert tapeline("waiting").out == "Nothing waits for you.\n"


def test_a_text_that_was_not_copied_after_all_is_kept(tapeline: Terminal) -> None:
    code, _ = type_at_a_terminal(
        str(tapeline.folder),
        ["paste"],
        [("Paste the message", PICKLE + "\n\x04"), ("l later", "a"), ("Copied?", "n\n")],
    )

    assert code == 0
    assert "approved, to copy" in tapeline("waiting").out


def test_leaving_at_a_terminal_leaves_the_draft_waiting(tapeline: Terminal) -> None:
    type_at_a_terminal(str(tapeline.folder), ["paste"], [("Paste the message", PICKLE + "\n\x04"), ("l later", "\x03")])

    assert "an answer  No. 4" in tapeline("waiting").out


def test_messages_can_be_moved_into_an_enquiry_of_their_own_and_back(tapeline: Terminal) -> None:
    tapeline("paste", "--from", "Marit", given="Pickle is 13 lb, 11 in tall. Which size?")
    tapeline("paste", "--from", "Marit", given="And for our Otis, 20 lb, 14 in tall?")
    tapeline("correct", "1", "Pickle: width 4.5")

    split = tapeline("split", "1", "2")
    assert split.out == "Enquiry 2 is new: tapeline show 2\n"
    assert "you had set width 4 1/2 in" in split.err

    assert tapeline("join", "1", "2").code == 0
    assert "closed" in tapeline("show", "2").out
