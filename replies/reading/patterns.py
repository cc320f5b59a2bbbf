"""Makes patterns of lists of words."""

import re
from collections.abc import Iterable


def any_of(words: Iterable[str], *, blank: str = " ") -> str:
    """Give the pattern of any of these phrases, the longest first.

    blank   the pattern of what parts the words of a phrase
    """
    ordered = sorted(set(words), key=lambda phrase: (-len(phrase), phrase))
    return "|".join(blank.join(map(re.escape, phrase.split())) for phrase in ordered)
