"""A summary as a surface with little room shows it: the draft whole, everything else shortened. Pure."""

from collections.abc import Iterator

from bot.approval.summary import Summary
from bot.approval.summary_text import Line, to_lines

LONGEST_LINE = 600
"""Characters of a line that is not the draft's; a draft is always shown whole."""
LONGEST_SAID = 2000
"""Characters of the customer's own messages; all of them stand in `tapeline show`."""


def lines_of(summary: Summary) -> Iterator[Line]:
    """Give the lines of a summary."""
    whole = set(summary.draft.splitlines())
    for line in to_lines(summary):
        words = line.text if line.text in whole else shortened(line.text, LONGEST_LINE)
        yield Line(text=words, strong=line.strong)


def said_in(summary: Summary) -> str:
    """Give the customer's own words; "": she said none."""
    said = "\n\n".join(text.strip() for text in summary.said if text.strip())
    left = len(said) - LONGEST_SAID
    return said if left <= 0 else f"{said[:LONGEST_SAID]}… ({left} more characters: tapeline show {summary.enquiry})"


def shortened(text: str, longest: int) -> str:
    """Give a text of at most `longest` characters."""
    return text if len(text) <= longest else f"{text[: longest - 1]}…"
