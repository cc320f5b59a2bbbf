"""What a text lacks that it should not go without: a place that nobody filled, or its caution. Pure."""

from collections.abc import Sequence

from replies.writing.places import places_in


def lacks(text: str, cautions: Sequence[str]) -> tuple[str, ...]:
    """Give in words what is missing from a text.

    cautions   the paragraphs of the caution as they were drafted; () where none belongs in it
    Returns    (): nothing is missing

    >>> lacks("Hello [ to fill in: the price ]", ["Clip first."])
    ('a place is not filled in: [ to fill in: the price ]', 'the weight caution is not whole: "Clip first."')
    """
    unfilled = [f"a place is not filled in: {place}" for place in places_in(text)]
    squeezed = _squeezed(text)
    cut = [one for one in cautions if _squeezed(one) not in squeezed]
    return (*unfilled, *(f'the weight caution is not whole: "{_shortened(one)}"' for one in cut))


def _squeezed(text: str) -> str:
    """Line breaks and blanks may be changed; words may not."""
    return " ".join(text.split())


def _shortened(text: str) -> str:
    line = _squeezed(text)
    return line if len(line) <= 70 else f"{line[:69]}…"
