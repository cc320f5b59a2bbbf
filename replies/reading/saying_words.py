"""The figures of speech of sayings.toml, checked and ready to be looked up."""

import re

from replies.reading.tidy import fold
from replies.words import WordList


class SayingWords(WordList):
    """sayings.toml."""

    words: list[str]

    def pattern(self) -> re.Pattern[str]:
        """Make one pattern of all of them, longest first."""
        rows = sorted({fold(words) for words in self.words}, key=len, reverse=True)
        each = "|".join(r"[ -]".join(map(re.escape, row.split())) for row in rows)
        return re.compile(rf"(?<![\w.,/-])(?:{each})(?![\w/-]|[.,]\d)")
