"""Customers' words where they come back in a draft: on one line, and never markup, a mention or a marked place."""

import re
import unicodedata

LONGEST_NAME = 30
LONGEST_QUOTE = 160

_NAME = re.compile(
    r"""
    \w[\w\ '’\-&]*           # letters and digits of any script, blanks, apostrophes, hyphens, "and"
    (?:\.(?=\ |$)[\w\ '’\-&]*)*   # a full stop only at the end of a word: a name is never an address
""",
    re.VERBOSE,
)
_INERT = str.maketrans({"[": "(", "]": ")", "@": "＠", "`": "'", "<": "‹", ">": "›"})


def plain_name(name: str | None) -> str | None:
    """Give a dog's name as a draft may use it.

    Returns   None where none was told or what was taken for one is no name

    >>> plain_name("Pickle 🐶"), plain_name("O'Malley"), plain_name("@everyone"), plain_name("{{7*7}}")
    ('Pickle', "O'Malley", None, None)
    """
    kept = "".join(char for char in one_line(name or "") if unicodedata.category(char) != "So" and char != "\ufe0f")
    kept = " ".join(kept.split())
    letters = any(char.isalpha() for char in kept)
    return kept if letters and len(kept) <= LONGEST_NAME and _NAME.fullmatch(kept) and "_" not in kept else None


def quoted(words: str) -> str:
    """Give a customer's words to be set between quotation marks, shortened where they are long.

    >>> quoted("do you ship to\\n[here]?")
    'do you ship to (here)?'
    """
    line = one_line(words).translate(_INERT).replace('"', "'").replace("“", "'").replace("”", "'")
    return line if len(line) <= LONGEST_QUOTE else line[: LONGEST_QUOTE - 1].rstrip() + "…"


def one_line(words: str) -> str:
    """Take out what does not print (control, direction and invisible characters) and all but single blanks.

    >>> one_line("Pi\\u202eckle\\r\\nBcc: x")
    'Pickle Bcc: x'
    """
    spaced = "".join(_printing(char) for char in words)
    return " ".join(spaced.split())


def _printing(char: str) -> str:
    category = unicodedata.category(char)
    if category in ("Cc", "Zl", "Zp"):
        return " "
    return "" if category in ("Cf", "Cs", "Co", "Cn") else char
