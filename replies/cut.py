"""What a changed text lacks: a marked place that nobody filled in, a part of the caution that was cut out.

Such a text goes only with a second, explicit yes of the maker.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from replies.draft import Draft
from replies.writing.places import places_in

_QUOTES = str.maketrans({"’": "'", "‘": "'", "“": '"', "”": '"', "–": "-", "—": "-", "\u00a0": " "})


@dataclass(frozen=True, slots=True, kw_only=True)
class Lack:
    """What a text lacks.

    places     marked places as they stand in it, still to be filled in
    cautions   paragraphs of the caution that it no longer has
    """

    places: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.places or self.cautions)


def lacks(text: str, draft: Draft) -> Lack:
    """Tell what a text lacks of the draft that it was made from. Blanks, line breaks and kinds of quotes do not count.

    text   the draft's own text, or what the maker made of it
    """
    return Lack(places=places_in(text), cautions=_cut_out(text, draft.cautions))


def _cut_out(text: str, cautions: Sequence[str]) -> tuple[str, ...]:
    stands = _plain(text)
    return tuple(caution for caution in cautions if _plain(caution) not in stands)


def _plain(text: str) -> str:
    return " ".join(text.translate(_QUOTES).split())
