"""The ladder of median dogs as a drawing: each size a strip on a tape of shoulder heights, with gaps and overlaps."""

import math
from collections.abc import Iterator

from rich.cells import cell_len
from rich.console import Console
from rich.text import Text

from bot.approval.words import kind_words
from bot.ladder import Ladder, Stretch
from bot.screens.rows import LABEL, rows
from bot.screens.terminal import Glyphs, glyphs
from replies.writing.plain import one_line
from sizing.units import from_inches, to_inches
from sizing.written import length_with_unit, length_written


def ladder_screen(ladder: Ladder, screen: Console, *, unit: str) -> Iterator[Text]:
    """Give the drawing, then the gaps and overlaps in words.

    unit   "in" or "cm"
    """
    reached = [stretch for _, stretch in ladder.sizes if stretch is not None]
    if reached:
        yield from _drawing(ladder, reached, screen, unit)
    useless = [one_line(name) for name, stretch in ladder.sizes if stretch is None]
    yield from rows("no dog", [f"{name} serves no dog of median proportions" for name in useless], screen, style="care")
    gaps = [f"{_written(stretch, unit)} tall: {kind_words(kind)}" for stretch, kind in ladder.gaps]
    yield from rows("gap", gaps, screen, style="care")
    both = [f"{one_line(a)} and {one_line(b)}: {_written(stretch, unit)} tall" for a, b, stretch in ladder.overlaps]
    yield from rows("overlap", both, screen)
    if reached and not (gaps or useless):
        yield from rows("", ["No gap between the smallest and the largest dog."], screen, style="good")


def _drawing(ladder: Ladder, reached: list[Stretch], screen: Console, unit: str) -> Iterator[Text]:
    shapes = glyphs(screen)
    label = min(24, max(LABEL, *(cell_len(one_line(name)) + 2 for name, _ in ladder.sizes)))
    every = 2 if unit == "in" else 5
    first = math.floor(from_inches(min(one.low for one in reached), unit) / every) * every
    last = math.ceil(from_inches(max(one.high for one in reached), unit) / every) * every
    between = max(4, (screen.width - label - 1) * every // max(every, last - first))
    per_inch, start = between / every * from_inches(1, unit), to_inches(first, unit)
    numbers = "".join(f"{value:<{between}}" for value in range(first, last + 1, every)).rstrip()
    yield Text(f"{unit:>{label - 2}}  {numbers}", style="quiet")
    for name, stretch in ladder.sizes:
        head = Text(one_line(name), style="key")
        head.truncate(label - 2, overflow="ellipsis")
        head.append(" " * (label - head.cell_len))
        yield head.append_text(_strip(stretch, start, per_inch, shapes)) if stretch else head


def _strip(stretch: Stretch, start: float, per_inch: float, shapes: Glyphs) -> Text:
    first, last = round((stretch.low - start) * per_inch), round((stretch.high - start) * per_inch)
    return Text(" " * first).append(shapes.dog * max(1, last - first + 1), style="dog")


def _written(stretch: Stretch, unit: str) -> str:
    if stretch.low == stretch.high:
        return length_with_unit(stretch.low, unit)
    return f"{length_written(stretch.low, unit)} to {length_with_unit(stretch.high, unit)}"
