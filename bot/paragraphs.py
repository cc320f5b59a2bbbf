"""Cuts a long text into parts that a channel takes, at paragraphs where that is possible. Pure."""

from collections.abc import Callable

_BREAKS = ("\n\n", "\n", ". ", " ")


def in_parts(text: str, most: int | None, *, size: Callable[[str], int] = len) -> list[str]:
    """Cut a text into parts of at most `most`, as `size` counts; None: it stays whole.

    Returns   the parts in order, none of them blank; [] for a blank text

    >>> in_parts("One two.\\n\\nThree.", 9)
    ['One two.', 'Three.']
    """
    rest = text.strip()
    if most is None:
        return [rest] if rest else []
    parts = []
    while size(rest) > most:
        end = _end(rest, _longest(rest, most, size))
        parts.append(rest[:end].strip())
        rest = rest[end:].strip()
    return [part for part in [*parts, rest] if part]


def utf16_units(text: str) -> int:
    """Give the length of a text as Telegram counts it."""
    return len(text.encode("utf-16-le", "surrogatepass")) // 2


def _longest(text: str, most: int, size: Callable[[str], int]) -> int:
    """How many characters fit, found by halving."""
    fits, too_many = 1, min(len(text), most) + 1
    while too_many - fits > 1:
        middle = (fits + too_many) // 2
        fits, too_many = (middle, too_many) if size(text[:middle]) <= most else (fits, middle)
    return fits


def _end(text: str, longest: int) -> int:
    """Where the first part ends: at the last break that leaves it at least half full."""
    for mark in _BREAKS:
        place = text.rfind(mark, longest // 2, longest)
        if place > 0:
            return place + len(mark.rstrip(" "))
    return longest
