"""The figures of speech of sayings.toml, checked and ready to be looked up."""

import re

from replies.reading.patterns import any_of
from replies.reading.tidy import fold
from replies.words import OneList


class SayingWords(OneList):
    """sayings.toml."""

    def pattern(self) -> re.Pattern[str]:
        """Make one pattern of all of them, longest first."""
        each = any_of(map(fold, self.words), blank="[ -]")
        return re.compile(rf"(?<![\w.,/-])(?:{each})(?![\w/-]|[.,]\d)")
