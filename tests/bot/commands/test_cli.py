"""The command line as a whole: help, exit codes, and one line for whoever has to act."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from bot import cli
from bot.cli import COMMANDS, run
from tests.bot.commands.terminal import PICKLE, ROOT, Terminal, process

NAMES = [name for section in COMMANDS.values() for name in section]


def test_help_lists_every_command_and_there_is_a_file_for_each(nowhere: Terminal) -> None:
    done = nowhere("--help")

    files = {path.stem.replace("_", "-") for path in (ROOT / "bot/commands").glob("*.py")}
    assert done.code == 0
    assert all(f"  {name} " in done.out for name in NAMES)
    assert set(NAMES) <= files


@pytest.mark.parametrize("name", NAMES)
def test_every_command_tells_about_itself(nowhere: Terminal, name: str) -> None:
    done = nowhere(name, "--help")

    assert done.code == 0
    assert done.out.startswith(f"Usage: tapeline {name} ")


@pytest.mark.parametrize(
    "arguments",
    [
        ["nonsense"],
        ["size", "--nonsense"],
        ["show"],
        ["rehearse", "no-such-file.jsonl"],
        ["size"],
        ["settle", "1.1", "x"],
    ],
    ids=" ".join,
)
def test_a_wrong_call_ends_with_2(nowhere: Terminal, arguments: list[str]) -> None:
    done = nowhere(*arguments)

    assert (done.code, done.out) == (2, "")
    assert "Error: " in done.err


def test_what_the_maker_must_mend_ends_with_1_and_one_line(nowhere: Terminal, tmp_path: Path) -> None:
    done = nowhere("waiting", environment={"TAPELINE_SHOP": str(tmp_path)})

    assert (done.code, done.out) == (1, "")
    assert "there is no shop.toml" in done.err
    assert "tapeline init" in done.err


def test_an_interruption_ends_with_130(nowhere: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(cli.tapeline, "main", interrupted)

    assert nowhere("chart").code == 130


def test_a_fault_of_our_own_ends_with_3_and_writes_no_word_of_a_customer(
    nowhere: Terminal, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise RuntimeError("Pickle is 13 lb")

    log = tmp_path / "faults.log"
    monkeypatch.setattr(cli.tapeline, "main", broken)
    monkeypatch.setattr("bot.faults._file", lambda: log)

    done = nowhere("chart")

    assert done.code == 3
    assert done.err.count("\n") == 1
    assert "Traceback" not in done.err
    assert "Pickle" not in done.err + log.read_text()
    assert "RuntimeError" in log.read_text()
    assert "in broken" in log.read_text()


def test_a_fault_that_cannot_be_written_down_is_told_all_the_same(
    nowhere: Terminal, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise RuntimeError

    monkeypatch.setattr(cli.tapeline, "main", broken)

    done = nowhere("chart")

    assert done.code == 3
    assert "could not be written down" in done.err


def test_whoever_stops_reading_our_output_gets_no_complaint() -> None:
    line = b'{"id": "a", "text": "hi"}\n'
    reader = f"{sys.executable} -m bot rehearse - --json | head -n 1"

    done = subprocess.run(reader, shell=True, cwd=ROOT, input=line * 500, capture_output=True)

    assert done.stderr == b""
    assert done.stdout.count(b"\n") == 1


@pytest.mark.parametrize("closed", ["<&-", ">&-", "2>&-", "<&- >&- 2>&-"])
def test_closed_streams_bring_no_traceback(closed: str) -> None:
    command = f"{sys.executable} -m bot read - {closed}"

    done = subprocess.run(command, shell=True, cwd=ROOT, input=PICKLE.encode(), capture_output=True)

    assert done.returncode in (0, 1)
    assert b"Traceback" not in done.stderr


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp1252"])
def test_an_encoding_that_lacks_our_characters_is_no_trouble(encoding: str) -> None:
    given = "Pickle 🐶 ist 11 in tall, width 5 in \u202e"

    done = subprocess.run(
        [sys.executable, "-m", "bot", "read", "-"],
        cwd=ROOT,
        input=given.encode(),
        capture_output=True,
        env={**os.environ, "PYTHONIOENCODING": encoding},
    )

    assert (done.returncode, done.stderr) == (0, b"")
    assert "shoulder height" in done.stdout.decode(encoding)


@pytest.mark.parametrize("columns", ["1", "20", "40", "80", "200"])
def test_no_screen_is_wider_than_its_terminal(nowhere: Terminal, columns: str) -> None:
    environment = {"COLUMNS": columns}

    done = nowhere("read", "-", given=PICKLE, environment=environment)

    assert done.code == 0
    assert max(map(len, done.out.splitlines())) <= max(40, min(int(columns), 100))


def test_colours_are_left_out_where_they_are_not_wanted() -> None:
    done = process("read", "-", given=PICKLE, NO_COLOR="1", TERM="xterm-256color")

    assert "\x1b[" not in done.out


def test_run_never_raises() -> None:
    assert run(["chart", "--json"]) == 0
