"""The figures of speech of sayings.toml, checked and ready to be looked up."""

import re
from itertools import groupby

from replies.reading.patterns import any_of
from replies.reading.tidy import fold
from replies.words import OneList


class SayingWords(OneList):
    """sayings.toml."""

    def pattern(self) -> re.Pattern[str]:
        """Make one pattern of all of them, longest first, parted by their first sign so that few are tried."""
        phrases = groupby(sorted(map(fold, self.words)), key=lambda phrase: phrase[0])
        each = "|".join(f"(?:{any_of(group, blank='[ -]')})" for _, group in phrases)
        return re.compile(rf"(?<![\w.,/-])(?:{each})(?![\w/-]|[.,]\d)")
