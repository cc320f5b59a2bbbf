"""The terminal as the screens use it: how wide it is, which characters it can show, and the few styles there are."""

import sys
from dataclasses import dataclass
from typing import TextIO

from rich.console import Console
from rich.theme import Theme

WIDEST = 100
"""Lines longer than this are tiring to read."""
NARROWEST = 40

STYLES = Theme(
    {
        "heading": "bold",
        "key": "bold",
        "quiet": "dim",
        "good": "green",
        "bad": "bold red",
        "care": "yellow",
        "large.good": "bold green",
        "large.bad": "bold red",
        "dog": "yellow",
        "band": "green",
        "cloth": "bold",
        "length": "cyan",
        "height": "green",
        "width": "magenta",
        "throat_height": "blue",
        "weight": "yellow",
        "girth": "dim",
        "neck": "dim",
    },
    inherit=True,
)


def console(stream: TextIO | None = None, *, width: int | None = None) -> Console:
    """Give a console for a screen.

    stream   None: standard output
    width    in characters; None: the terminal's, at most WIDEST
    """
    made = Console(file=stream or sys.stdout, theme=STYLES, highlight=False, markup=False, emoji=False, width=width)
    if width is None:
        made.width = max(NARROWEST, min(made.width, WIDEST))
    return made


@dataclass(frozen=True, slots=True)
class Glyphs:
    """The characters that a drawing is made of, each one column wide."""

    dog: str
    pad: str
    band: str
    edge: str
    throat: str
    line: str
    tick: str
    bar: str
    under: str
    decided: str
    left: str
    heavy: str
    corners: str
    between: str
    done: str


_FULL = Glyphs("█", "▒", "░", "┃", "○", "─", "┬", "│", "━", "┄", "×", "━", "┏┓┗┛", " · ", "✓")
_PLAIN = Glyphs("#", "%", ".", "|", "o", "-", "+", "|", "~", "-", "x", "=", "++++", "; ", "*")


def glyphs(made: Console) -> Glyphs:
    """Give what this console's encoding can show."""
    try:
        "█▒░┃○─┬│━┄×┏┓┗┛·✓".encode(made.encoding)
    except (UnicodeEncodeError, LookupError):
        return _PLAIN
    return _FULL
