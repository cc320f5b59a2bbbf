"""Lines beside their label, each folded within its own column: what most screens are made of."""

from collections.abc import Iterator, Sequence

from rich.console import Console
from rich.text import Text

LABEL = 12
"""Columns of the label."""


def rows(label: str, lines: Sequence[str | Text], screen: Console, *, style: str = "") -> Iterator[Text]:
    """Give lines beside a label, which stands on the first of them alone.

    style   of the lines; a Text keeps its own beside it
    """
    head = label
    for line in lines:
        whole = Text.assemble(line, style=style)
        for part in whole.wrap(screen, max(10, screen.width - LABEL)):
            part.rstrip()
            yield Text(f"{head:<{LABEL}}", style="key").append_text(_plainly(part))
            head = ""


def _plainly(part: Text) -> Text:
    """The label's bold is not for what stands beside it."""
    return Text("", style="not bold").append_text(part) if part.plain else part
