"""Texts are cut and marked as Telegram counts."""

from hypothesis import given
from hypothesis import strategies as st

from bot.channels.telegram.text import LIMIT, Mark, in_pieces
from bot.paragraphs import utf16_units

TEXTS = st.text(alphabet=st.sampled_from("a \n.é½\U0001f415"), max_size=300)


@given(
    text=TEXTS.filter(lambda text: bool(text.strip())),
    places=st.lists(st.tuples(st.integers(0, 300), st.integers(0, 300))),
)
def test_bold_stretches_mark_the_same_words_in_every_piece(text: str, places: list[tuple[int, int]]) -> None:
    bold = [Mark(start=a, end=min(b, len(text))) for a, b in places if a < min(b, len(text))]

    for piece in in_pieces(text, bold):
        for entity in piece.entities:
            raw = piece.text.encode("utf-16-le")
            words = raw[2 * entity.offset : 2 * (entity.offset + entity.length)].decode("utf-16-le")
            assert words in text
            assert words


def test_a_long_text_becomes_pieces_that_each_fit() -> None:
    text = "size\n" + "\U0001f415" * 3000 + "\n\nopening"

    pieces = in_pieces(text, [Mark(start=0, end=4), Mark(start=len(text) - 7, end=len(text))])

    assert [utf16_units(piece.text) <= LIMIT for piece in pieces] == [True] * len(pieces)
    assert [len(piece.entities) for piece in pieces] == [1] + [0] * (len(pieces) - 2) + [1]


def test_a_text_of_spaces_has_no_pieces() -> None:
    assert in_pieces(" \n ", []) == []
