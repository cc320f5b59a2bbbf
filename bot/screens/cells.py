"""A line that is laid out column by column: each cell a character of one column and its style."""

from collections.abc import Sequence
from itertools import groupby

from rich.text import Text

Cell = tuple[str, str]
EMPTY: Cell = (" ", "")


def joined(cells: Sequence[Cell]) -> Text:
    """Give the cells as one line, without blanks at its end."""
    line = Text()
    for style, run in groupby(cells, key=lambda cell: cell[1]):
        line.append("".join(character for character, _ in run), style=style)
    line.rstrip()
    return line
