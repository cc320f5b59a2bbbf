"""Sets aside numbers that stand in a figure of speech: "24/7", "ok, 10-4"."""

import re
from functools import cache
from pathlib import Path

from replies.reading.facts import SetAside
from replies.reading.page import Page
from replies.reading.tidy import fold
from replies.words import WordList, read_word_list


class SayingWords(WordList):
    """sayings.toml."""

    words: list[str]


@cache
def _sayings() -> re.Pattern[str]:
    """Make one pattern of all of them, longest first."""
    words = read_word_list(Path(__file__).with_suffix(".toml"), SayingWords).words
    rows = sorted({fold(words) for words in words}, key=len, reverse=True)
    return re.compile(
        rf"(?<![\w.,/-])(?:{'|'.join(r'[ -]'.join(map(re.escape, row.split())) for row in rows)})(?![\w/-]|[.,]\d)"
    )


def set_sayings_aside(page: Page) -> None:
    """Set aside every number in a figure of speech. In linear time."""
    spans = [match.span() for match in _sayings().finditer(page.tidied.folded)]
    at = 0
    for candidate in page.candidates:
        start = page.quantities.found[candidate.number].start
        while at < len(spans) and spans[at][1] <= start:
            at += 1
        if at < len(spans) and spans[at][0] <= start and candidate.aside is None:
            candidate.leave(SetAside.NOT_A_MEASURE, "a figure of speech")
