"""Makes a stranger's words harmless at a terminal: they can neither move its cursor nor turn the order of the text."""

import unicodedata

_KEPT = frozenset("\n\t")
_TURNING = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u200e\u200f\u061c")


def inert(text: str) -> str:
    """Give the text with every control character shown as U+FFFD, one for one, so that spans still hold.

    For a name or another short thing that is to stay in its line: replies.writing.plain.one_line.

    >>> inert("13 lb\\x1b[2J")
    '13 lb\\ufffd[2J'
    """
    return "".join(_safe(character) for character in text)


def _safe(character: str) -> str:
    if character in _KEPT or (character not in _TURNING and unicodedata.category(character) not in ("Cc", "Cs")):
        return character
    return "\ufffd"
