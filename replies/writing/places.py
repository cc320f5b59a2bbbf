"""Marked places: where the maker must write something before a text can go.

The mark is ours alone: customers' words come without square brackets (see plain.py), and no template holds one.
"""

import re
from collections.abc import Sequence

from replies.reading.facts import Passage
from replies.writing.plain import quoted

OPENS = "[ to fill in:"
_MOST_QUOTES = 3
_PLACE = re.compile(r"\[\s*to\s+fill\s+in\b[^\]\n]*\]?", re.IGNORECASE)


def other_place(passages: Sequence[Passage]) -> str:
    """Give the place for what else a customer asked, with her words beside it; no passages: without them."""
    words = list(dict.fromkeys(quoted(passage.words).rstrip(" ,;:") for passage in passages))
    said = " / ".join(f'"{line}"' for line in words[:_MOST_QUOTES] if line)
    return f"{OPENS} your answer to {said} ]" if said else f"{OPENS} your answer to what else was asked ]"


def opening_place() -> str:
    """Give the place for an opening of which no height serves."""
    return f"{OPENS} where the front edge goes; no cutting step is clear of both throat and elbow ]"


def places_in(text: str) -> tuple[str, ...]:
    """Give the marked places that still stand in a text, changed ones too.

    >>> places_in("Hello [ to fill in: the price ] bye")
    ('[ to fill in: the price ]',)
    """
    return tuple(match.group() for match in _PLACE.finditer(text))
