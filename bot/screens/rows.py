"""Lines beside their label, each folded within its own column: what most screens are made of."""

from collections.abc import Iterator, Sequence

from rich.console import Console
from rich.text import Text

LABEL = 12
"""Columns of the label."""
WIDE_LABEL = 17


def rows(
    label: str, lines: Sequence[str | Text], screen: Console, *, style: str = "", wide: bool = False
) -> Iterator[Text]:
    """Give lines beside a label, which stands on the first of them alone.

    style   of the lines; a Text keeps its own beside it
    wide    the label may be as long as the name of a measure
    """
    head, column = label, WIDE_LABEL if wide else LABEL
    for line in lines:
        whole = Text.assemble(line, style=style)
        for part in whole.wrap(screen, max(10, screen.width - column)):
            part.rstrip()
            yield Text.assemble((f"{head:<{column}}", "key"), part)
            head = ""
