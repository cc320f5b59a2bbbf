"""What the screens draw: strangers' words made harmless, marks below the right characters, the fit to scale."""

import io

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from rich.console import Console

from bot.screens.fit import draw, strips
from bot.screens.inert import inert
from bot.screens.marked import Mark, mark_up
from bot.screens.rows import rows
from bot.screens.terminal import console
from sizing.measures import Measure
from sizing.outcome import Direction, Kind, Outcome, Slack

DOG = {Measure.LENGTH: 12.0, Measure.HEIGHT: 11.0, Measure.WIDTH: 4.0, Measure.THROAT_HEIGHT: 8.0}


def plain(width: int = 80) -> Console:
    return console(io.StringIO(), width=width)


def mark(text: str, words: str, label: str = "width") -> Mark:
    start = text.index(words)
    return Mark(start=start, end=start + len(words), label=label, under="^", style="width")


def drawn(slack: Slack, *, width: int = 80, unit: str = "in") -> list[str]:
    outcome = Outcome(kind=Kind.STANDARD, size="No. 4", slacks=(slack,))
    return [line.plain for line in draw(strips(DOG, outcome, pad=0.5, elbow=0.53), plain(width), unit=unit)]


def slack(direction: Direction, room: float, *, least: float = 1, aim: float = 2, most: float = 4) -> Slack:
    return Slack(direction=direction, slack=room, least=least, aim=aim, most=most)


@given(st.text())
def test_inert_words_keep_their_places_and_lose_their_power(text: str) -> None:
    safe = inert(text)

    assert len(safe) == len(text)
    assert not any(ord(character) < 32 and character not in "\n\t" for character in safe)
    assert not {"\x1b", "\x7f", "\x9b", "\u202e", "\u2066"} & set(safe)


@pytest.mark.parametrize(
    "text", ["Pickle is 5 in wide", "\U0001f436\U0001f436 5 in wide", "日本語 5 in wide", "ë ö 5 in", "e\u0301 5 in"]
)
def test_a_mark_stands_below_its_words(text: str) -> None:
    line, under, label = (part.plain for part in mark_up(text, [mark(text, "5 in")], width=40))

    column = cell_len(line[: line.index("5 in")])
    assert under == " " * column + "^^^^"
    assert label == " " * column + "width"


def test_a_mark_that_is_broken_over_two_lines_is_marked_on_both() -> None:
    text = "the width is five inches and a half"

    lines = [part.plain for part in mark_up(text, [mark(text, "five inches and a half")], width=20)]

    assert lines == ["the width is five", "             ^^^^", "             width", "inches and a half", "^" * 17]


def test_labels_that_would_run_into_one_another_stand_one_below_the_other() -> None:
    text = "5 in 11 in"

    lines = [part.plain for part in mark_up(text, [mark(text, "5 in", "back length"), mark(text, "11 in")], width=40)]

    assert lines[2:] == ["back length", "     width"]


@given(st.text(), st.integers(min_value=5, max_value=60))
def test_any_message_is_broken_into_lines_that_fit_and_loses_no_word(text: str, width: int) -> None:
    shown = [part.plain for part in mark_up(text, [], width=width)]

    assert all(cell_len(line) <= max(width, 2) for line in shown)
    assert "".join(shown).replace(" ", "") == inert(text).replace("\t", " ").replace("\n", "").replace(" ", "")


def test_the_cloth_ends_where_the_room_says() -> None:
    tape, ticks, _, strip, _ = drawn(slack(Direction.LENGTH, 3))

    between = ticks.index("┬", ticks.index("┬") + 1) - ticks.index("┬")
    assert tape.split()[:4] == ["in", "0", "2", "4"]
    assert strip.index("┃") - ticks.index("┬") == round(15 * between / 2)
    assert strip.count("█") == round(12 * between / 2)


def test_a_direction_is_named_tight_or_roomy() -> None:
    assert drawn(slack(Direction.LENGTH, 0.5))[2].endswith("tight")
    assert drawn(slack(Direction.WIDTH, 5))[2].endswith("roomy")
    assert drawn(slack(Direction.DROP, 0.5))[2].endswith("too high")


def test_an_edge_never_may_lie_below_the_elbow() -> None:
    _, ticks, _, strip, _ = drawn(slack(Direction.DROP, 1.5))

    between = ticks.index("┬", ticks.index("┬") + 1) - ticks.index("┬")
    assert strip.index("░") - ticks.index("┬") == round((0.5 + 0.53 * 11) * between / 2)


@pytest.mark.parametrize("width", [40, 60, 80, 100])
@pytest.mark.parametrize("unit", ["in", "cm"])
def test_no_drawing_is_wider_than_its_screen(width: int, unit: str) -> None:
    lines = [line for direction in Direction for line in drawn(slack(direction, 3), width=width, unit=unit)]

    assert max(map(cell_len, lines)) <= width


def test_a_folded_line_stays_in_its_column() -> None:
    lines = [line.plain for line in rows("note", ["word " * 30], plain(40))]

    assert lines[0].startswith("note        word")
    assert all(line.startswith(" " * 12 + "word") for line in lines[1:])
    assert max(map(len, lines)) <= 40


def test_a_terminal_without_our_characters_gets_plain_ones() -> None:
    ascii_only = console(io.TextIOWrapper(io.BytesIO(), encoding="ascii"), width=80)
    outcome = Outcome(kind=Kind.STANDARD, size="No. 4", slacks=(slack(Direction.LENGTH, 3),))

    lines = [line.plain for line in draw(strips(DOG, outcome, pad=0.5, elbow=0.53), ascii_only, unit="in")]

    assert "".join(lines).isascii()
