"""A customer's message with what was read in it marked below the words: the number, and the words that decided.

The marks are characters below the line and not colours alone, so that they survive a pipe, a plain terminal and eyes
that do not tell colours apart.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rich.cells import cell_len
from rich.text import Text

from bot.screens.cells import EMPTY, joined
from bot.screens.inert import inert


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A stretch of a message that is to be marked.

    start, end   code points [start, end)
    label        what stands below it; "" for nothing
    under        the character that underlines it, one column wide
    style        a style of the terminal
    """

    start: int
    end: int
    label: str
    under: str
    style: str


@dataclass(frozen=True, slots=True)
class _Row:
    start: int
    text: str

    @property
    def end(self) -> int:
        return self.start + len(self.text)

    def column(self, offset: int) -> int:
        """The column at which the code point `offset` of the message stands."""
        return cell_len(self.text[: max(0, offset - self.start)])


def mark_up(text: str, marks: Sequence[Mark], *, width: int) -> list[Text]:
    """Give a message as lines of at most `width` columns, each with its marks and their labels below it."""
    safe = inert(text).replace("\t", " ")
    ordered = sorted(marks, key=lambda mark: (mark.start, mark.end))
    lines: list[Text] = []
    for row in _rows(safe, width):
        here = [mark for mark in ordered if mark.start < row.end and mark.end > row.start]
        lines.append(_styled(row, here))
        if here:
            lines.append(_underline(row, here))
            lines += _labels(row, [mark for mark in here if mark.start >= row.start and mark.label], width)
    return lines


def _rows(text: str, width: int) -> Iterator[_Row]:
    start = 0
    for line in text.split("\n"):
        yield from _wrapped(line, start, width)
        start += len(line) + 1


def _wrapped(line: str, start: int, width: int) -> Iterator[_Row]:
    """Break a line at blanks, and a word that is wider than the screen anywhere."""
    while cell_len(line) > width:
        fits = len(line)
        while cell_len(line[:fits]) > width:
            fits = min(fits - 1, max(1, fits * width // cell_len(line[:fits])))
        while fits < len(line) and cell_len(line[: fits + 1]) <= width:
            fits += 1
        cut = line.rfind(" ", 1, fits + 1) + 1 or fits
        yield _Row(start, line[:cut].rstrip(" "))
        line, start = line[cut:], start + cut
    yield _Row(start, line)


def _styled(row: _Row, marks: Sequence[Mark]) -> Text:
    line = Text(row.text)
    for mark in marks:
        line.stylize(mark.style, max(0, mark.start - row.start), min(len(row.text), mark.end - row.start))
    return line


def _underline(row: _Row, marks: Sequence[Mark]) -> Text:
    cells = [EMPTY] * (cell_len(row.text) + 1)
    for mark in marks:
        first, last = row.column(max(mark.start, row.start)), row.column(min(mark.end, row.end))
        for column in range(first, max(first + 1, last)):
            cells[column] = (mark.under, mark.style)
    return joined(cells)


def _labels(row: _Row, marks: Sequence[Mark], width: int) -> list[Text]:
    """Each label below its mark, on the first line where it has room."""
    rows: list[list[tuple[int, Mark]]] = []
    for mark in marks:
        at = max(0, min(row.column(mark.start), width - cell_len(mark.label)))
        for taken in rows:
            last_at, last = taken[-1]
            if last_at + cell_len(last.label) + 1 <= at:
                taken.append((at, mark))
                break
        else:
            rows.append([(at, mark)])
    return [_label_row(taken) for taken in rows]


def _label_row(taken: Sequence[tuple[int, Mark]]) -> Text:
    line = Text()
    for at, mark in taken:
        line.append(" " * (at - line.cell_len)).append(mark.label, style=mark.style)
    return line
