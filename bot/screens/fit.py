"""The fit drawn as tape and cloth edge: each direction one strip on a common tape, the tightest named.

A strip begins at the board or at the back wall. It shows the dog as far as it reaches, where the cloth may end (the
shop's ease, from least to most), and where it does end.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from rich.console import Console
from rich.text import Text

from bot.approval.words import DIRECTIONS, room_words, tightest, verdict
from bot.screens.cells import EMPTY, joined
from bot.screens.rows import LABEL, rows
from bot.screens.terminal import Glyphs, glyphs
from sizing.measures import Measure
from sizing.outcome import Direction, Outcome, Slack
from sizing.units import from_inches
from sizing.written import length_written

_NUMBER_WIDTH = 4
_MEASURES = {
    Direction.LENGTH: Measure.LENGTH,
    Direction.WIDTH: Measure.WIDTH,
    Direction.HEIGHT: Measure.HEIGHT,
    Direction.DROP: Measure.THROAT_HEIGHT,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """One direction on the tape, in inches from the board or the back wall.

    start    where the dog begins: above the pad for what is measured upwards
    body     where it ends; for the front edge the throat hollow
    low, high   where the cloth may end
    edge     where it does end
    """

    direction: Direction
    start: float
    body: float
    low: float
    high: float
    edge: float
    slack: Slack


def strips(measures: Mapping[Measure, float], outcome: Outcome, *, pad: float, elbow: float) -> tuple[Strip, ...]:
    """Lay the four directions of a recommended carrier on the tape.

    measures   of the dog, inches, the middles of ranges
    pad        thickness of the pad, inches
    elbow      height of the elbow as a share of the shoulder height
    Returns    () where nothing serves
    """
    return tuple(_strip(slack, measures, pad, elbow) for slack in outcome.slacks)


def _strip(slack: Slack, measures: Mapping[Measure, float], pad: float, elbow: float) -> Strip:
    upwards = slack.direction in (Direction.HEIGHT, Direction.DROP)
    start = pad if upwards else 0.0
    body = start + measures[_MEASURES[slack.direction]]
    if slack.direction is Direction.DROP:
        lowest = start + elbow * measures[Measure.HEIGHT]
        low, high = max(lowest, body - slack.most), body - slack.least
        return Strip(
            direction=slack.direction, start=start, body=body, low=low, high=high, edge=body - slack.slack, slack=slack
        )
    return Strip(
        direction=slack.direction,
        start=start,
        body=body,
        low=body + slack.least,
        high=body + slack.most,
        edge=body + slack.slack,
        slack=slack,
    )


def draw(strips_: Sequence[Strip], screen: Console, *, unit: str) -> Iterator[Text]:
    """Draw the strips below their tape.

    unit    "in" or "cm": of the tape and the words
    """
    if not strips_:
        return
    shapes, columns = glyphs(screen), max(20, screen.width - LABEL)
    tape = _Tape.as_long_as(max(max(strip.high, strip.edge, strip.body) for strip in strips_), columns, unit)
    yield from tape.lines(shapes)
    nearest = tightest(tuple(strip.slack for strip in strips_))
    for strip in strips_:
        words = _words(strip.slack, unit, is_tightest=strip.slack is nearest)
        yield from rows(DIRECTIONS[strip.direction], [words], screen)
        yield Text(" " * LABEL).append_text(_cells(strip, columns, tape.per_inch, shapes))
    yield from rows("", [_legend(shapes)], screen)


@dataclass(frozen=True, slots=True)
class _Tape:
    """A tape with a number every so many units, and a whole number of columns between two of them."""

    every: int
    columns_between: int
    count: int
    unit: str

    @classmethod
    def as_long_as(cls, longest: float, columns: int, unit: str) -> "_Tape":
        units = max(from_inches(longest, unit), 1e-9)
        every = {"in": 2, "cm": 5}[unit]
        while (columns - 2) * every / units < _NUMBER_WIDTH:
            every *= 2
        count = math.ceil(units / every)
        return cls(every, max(1, (columns - 2) // count), count, unit)

    @property
    def per_inch(self) -> float:
        """Columns an inch."""
        return self.columns_between / self.every * from_inches(1, self.unit)

    def lines(self, shapes: Glyphs) -> list[Text]:
        numbers = "".join(f"{n * self.every:<{self.columns_between}}" for n in range(self.count + 1)).rstrip()
        ticks = shapes.tick + (shapes.line * (self.columns_between - 1) + shapes.tick) * self.count
        head = Text(f"{self.unit:>{LABEL - 2}}  {numbers}", style="quiet")
        return [head, Text(" " * LABEL + ticks, style="quiet")]


def _words(slack: Slack, unit: str, *, is_tightest: bool) -> Text:
    least, aim, most = (length_written(inches, unit) for inches in (slack.least, slack.aim, slack.most))
    line = Text(f"{room_words(slack, unit)} ").append(f"({least} to {most}, aim {aim})", style="quiet")
    if fault := verdict(slack):
        line.append(f"  {fault}", style="bad")
    elif is_tightest:
        line.append("  the tightest", style="care")
    return line


def _cells(strip: Strip, columns: int, scale: float, shapes: Glyphs) -> Text:
    cells = [EMPTY] * columns

    def fill(start: float, end: float, glyph: str, style: str) -> None:
        for column in range(max(0, round(start * scale)), min(columns, round(end * scale))):
            cells[column] = (glyph, style)

    fill(0, strip.start, shapes.pad, "quiet")
    drop = strip.direction is Direction.DROP
    cloth = (shapes.line, "cloth") if drop else (shapes.dog, "dog")
    fill(strip.start, strip.edge if drop else strip.body, *cloth)
    fill(strip.low, strip.high, shapes.band, "band")
    marks = [(strip.edge, shapes.edge, "cloth")]
    if drop:
        marks.insert(0, (strip.body, shapes.throat, "dog"))
    for at, glyph, style in marks:
        cells[min(columns - 1, max(0, round(at * scale)))] = (glyph, style)
    return joined(cells)


def _legend(shapes: Glyphs) -> Text:
    entries = (
        (shapes.dog, "dog", "dog"),
        (shapes.pad, "quiet", "pad"),
        (shapes.throat, "dog", "throat"),
        (shapes.band, "band", "cloth may end here"),
        (shapes.edge, "cloth", "ends here"),
    )
    line = Text()
    for number, (glyph, style, meaning) in enumerate(entries):
        line.append("  " if number else "").append(glyph, style=style).append(f" {meaning}", style="quiet")
    return line
