"""What a text lacks that it should not go without, in words: a place that nobody filled in, or its caution. Pure."""

from collections.abc import Sequence

from replies import cut
from replies.draft import Draft, DraftKind

_LONGEST = 70


def lacks(text: str, cautions: Sequence[str]) -> tuple[str, ...]:
    """Give what is missing from a text.

    cautions   the paragraphs of the caution as they were drafted; () where none belongs in it
    Returns    (): nothing is missing

    >>> lacks("Hello [ to fill in: the price ]", ["Clip first."])
    ('a place is not filled in: [ to fill in: the price ]', 'the weight caution is not whole: "Clip first."')
    """
    found = cut.lacks(text, Draft(kind=DraftKind.ANSWER, cautions=tuple(cautions)))
    return (
        *(f"a place is not filled in: {place}" for place in found.places),
        *(f'the weight caution is not whole: "{_shortened(caution)}"' for caution in found.cautions),
    )


def _shortened(text: str) -> str:
    line = " ".join(text.split())
    return line if len(line) <= _LONGEST else f"{line[: _LONGEST - 1]}…"
