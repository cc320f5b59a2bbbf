"""Cuts a message into marks: numbers, known phrases, other words, and the signs and line ends that part them."""

import re
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from replies.reading.lexicon import NO_SENSES, Sense, Senses, key
from replies.reading.quantity import Quantities, Quantity
from replies.reading.regions import find_regions
from replies.reading.small_words import Small
from replies.reading.tidy import Tidied
from replies.reading.tokens import BLANK, GLUED, LINE, WORD, Token
from replies.reading.words import Words

NUMBER, PHRASE, STOP = 0, 1, 2
SENTENCE_ENDS = frozenset((".", "!", "?", "\n", "\n\n", ";", "|"))
"""What a mark is."""
_END = "\0"
_NONE: frozenset[Small] = frozenset()


Piece = tuple[int, str, int, int, int, bool]
"""What it is, its text, its place, the index of its quantity, and whether it is glued to the one before."""


class Mark(NamedTuple):
    """A number, a phrase, or a sign, with its place in the tidied text.

    text      folded; of a line end "\\n", of a blank line "\\n\\n"; apostrophes within words left out
    senses    of a phrase: what it stands for; () for a word that is in no list
    quantity  of a number: its index; else -1
    glued     nothing stands between it and the mark before
    compound  two known words written as one
    small     the lists of small_words.toml in which it stands
    """

    kind: int
    text: str
    start: int
    end: int
    senses: Senses = NO_SENSES
    quantity: int = -1
    glued: bool = False
    compound: bool = False
    small: frozenset[Small] = _NONE

    def name(self, kind: str) -> str | None:
        """Give the name under which the phrase stands in the lists of a kind; None: it stands in none."""
        return self.senses.name(kind)

    def has(self, *kinds: str) -> bool:
        """Does the phrase stand in a list of one of these kinds."""
        return not self.senses.kinds.isdisjoint(kinds)

    def among(self, *lists: Small) -> bool:
        """Does the word or phrase stand in one of these lists of small words."""
        return bool(self.small) and not self.small.isdisjoint(lists)


def find_words(pieces: Sequence[Piece], tidied: Tidied) -> list[Mark]:
    """Make marks of the pieces of a text, one word each, without any senses."""
    marks: list[Mark] = []
    for kind, text, start, end, quantity, glued in pieces:
        if kind == STOP and text == "," and tidied.text[start:end] == ".":
            text = "."
        plain = kind != PHRASE or text.isascii()
        marks.append(Mark(kind, text if plain else key(text), start, end, NO_SENSES, quantity, glued))
    return marks


def find_marks(pieces: Sequence[Piece], tidied: Tidied, words: Words) -> list[Mark]:
    """Make marks of the pieces of a text, in order. In linear time."""
    marks: list[Mark] = []
    texts = [key(piece[1]) if piece[0] == PHRASE else _END for piece in pieces]
    texts.append(_END)
    lexicon, letters, among = words.lexicon, words.letters, words.small.among
    at = 0
    while at < len(pieces):
        kind, text, start, end, quantity, glued = pieces[at]
        if kind == PHRASE and _LETTERS.fullmatch(text) and len({letters.get(one) for one in text} - {None}) >= 3:
            marks += _letter_marks(text, start, letters)
            at += 1
            continue
        if kind != PHRASE:
            marks.append(Mark(kind, text, start, end, NO_SENSES, quantity, glued))
            at += 1
            continue
        found = lexicon.find(texts, at) or _find_elided(texts, at, tidied.text[start:end], words)
        compound = False
        if found is None:
            senses, compound = _alone(texts[at], tidied.text[start:end], words)
            size = 1
        else:
            size, senses = found
            end = pieces[at + size - 1][3]
        letter = letters.get(text[0]) if size == 1 and (len(text) == 1 or (len(text) == 2 and text[1] == "x")) else None
        if letter:
            senses = senses.with_one(Sense("letter", letter))
        said = texts[at] if size == 1 else " ".join(texts[at : at + size])
        marks.append(Mark(PHRASE, said, start, end, senses, -1, glued, compound, among.get(said, _NONE)))
        at += size
    return marks


def _find_elided(texts: list[str], at: int, raw: str, words: Words) -> tuple[int, Senses] | None:
    """Look a word up without the article that was drawn into it: "all'attaccatura", "l'épaule"."""
    article, sign, rest = raw.partition("'")
    if not sign or len(rest) < 3 or key(article) not in words.small.lists[Small.DRAWN_IN]:
        return None
    texts[at] = key(rest)
    found = words.lexicon.find(texts, at)
    if found is None:
        texts[at] = key(article + rest)
    return found


_CELL_END = re.compile(r"\t|   ")
"""A tab, or blanks that stand for one."""
_LETTERS = re.compile(r"[lwhbt](?:x?[lwhbt]){2,3}")
"""Letters for measures in one word: "LxWxH", "LWH"."""


def _letter_marks(word: str, start: int, letters: Mapping[str, str]) -> list[Mark]:
    return [
        Mark(PHRASE, letter, start + at, start + at + 1, Senses((Sense("letter", letters[letter]),)), -1, at > 0)
        for at, letter in enumerate(word)
        if letter != "x"
    ]


def _alone(word: str, raw: str, words: Words) -> tuple[Senses, bool]:
    """Give the senses of a word that is in no list as it stands: with "'s", misspelt, or of two known words."""
    if raw[-2:].lower() == "'s":
        found = words.lexicon.find([word[:-1], _END], 0)
        if found:
            return found[1], False
    meant = words.typos.meant(word)
    if meant:
        found = words.lexicon.find([meant, _END], 0)
        return (found[1] if found else NO_SENSES), False
    both = words.compounds.parts(word)
    return (Senses(both), True) if both else (NO_SENSES, False)


def cut(tidied: Tidied, found: Quantities, words: Words) -> list[Piece]:
    """Put tokens and quantities in one row: a quantity is one piece, and so is a word with its apostrophes."""
    tokens, quantities = found.tokens, found.found
    folded, raw = tidied.folded, tidied.text
    pieces: list[Piece] = []
    next_number, covered = 0, -1
    last_end = 0
    closed = find_regions(folded)
    region = 0
    for at, (kind, start, end, text, gap) in enumerate(tokens):
        if start < covered:
            continue
        while region < len(closed) and closed[region][1] <= start:
            region += 1
        if region < len(closed) and closed[region][0] <= start:
            if next_number < len(quantities) and start >= quantities[next_number].start:
                pieces.append((NUMBER, "", start, end, next_number, gap == GLUED))
                next_number += 1
            continue
        if gap == BLANK and pieces and _CELL_END.search(folded, last_end, start):
            pieces.append((STOP, "\t", last_end, start, -1, False))
        if gap == LINE and pieces:
            blank = (
                "\n" in folded[last_end:start].replace("\n", "", 1).strip(" \t>")
                or folded.count("\n", last_end, start) > 1
            )
            pieces.append((STOP, "\n\n" if blank else "\n", last_end, start, -1, False))
        last_end = end
        if next_number < len(quantities) and start >= quantities[next_number].start:
            quantity = quantities[next_number]
            pieces.append((NUMBER, "", quantity.start, quantity.end, next_number, gap == GLUED))
            covered = last_end = quantity.end
            next_number += 1
            continue
        if kind == WORD:
            if gap == GLUED and pieces and _joins(pieces, folded, start):
                _join(pieces, text, end)
                continue
            pieces.append((PHRASE, text, start, end, -1, gap == GLUED))
        elif (
            text in "-_/"
            and gap == GLUED
            and _between_words(tokens, at)
            and pieces
            and pieces[-1][0] == PHRASE
            and (text != "/" or _is_short(tokens, at, pieces))
        ):
            continue
        else:
            if text == "." and pieces and pieces[-1][0] == STOP and pieces[-1][1] in (".", "...") and gap == GLUED:
                pieces[-1] = (STOP, "...", pieces[-1][2], end, -1, pieces[-1][5])
                continue
            sign = _sign_of_dot(pieces, raw, end, quantities, next_number, words) if text == "." else text
            if sign:
                pieces.append((STOP, sign, start, end, -1, gap == GLUED))
    return pieces


def _sign_of_dot(
    pieces: Sequence[Piece], raw: str, end: int, quantities: Sequence[Quantity], following: int, words: Words
) -> str:
    """Tell the dot of "in.", "lbs.", "ca.", "wt." from one that ends a sentence: "" part of the word, "," who knows."""
    if not pieces or pieces[-1][3] != end - 1 or not raw[end - 2].isalpha():
        return "."
    rest = raw[end : end + 3].lstrip(" ")
    if pieces[-1][1] in words.abbreviations:
        return "," if len(pieces[-1][1]) == 1 and rest[:1].isalpha() else ""
    if pieces[-1][1] in words.shortened and rest[:1].isdigit() and (len(pieces) < 2 or pieces[-2][0] != NUMBER):
        return ""
    if pieces[-1][0] == NUMBER:
        return "" if not rest or rest[0] in ",;:)-/" else "," if rest[0].islower() else "."
    if following < len(quantities):
        quantity = quantities[following]
        if quantity.hedge_start is not None and quantity.hedge_start <= end - 1 < quantity.start:
            return ""
    return "."


def _between_words(tokens: Sequence[Token], at: int) -> bool:
    following = tokens[at + 1] if at + 1 < len(tokens) else None
    return following is not None and following.kind == WORD and following.gap == GLUED


def _is_short(tokens: Sequence[Token], at: int, pieces: Sequence[Piece]) -> bool:
    """Is it the slash of "w/out", "n/a", not one between two words."""
    return len(pieces[-1][1]) == 1 and tokens[at + 1].text not in ("h", "l", "w", "b", "t")


def _joins(pieces: Sequence[Piece], folded: str, start: int) -> bool:
    """Is this word the rest of one before an apostrophe: "he's"."""
    if len(pieces) < 2:
        return False
    mark, word = pieces[-1], pieces[-2]
    return (
        mark[1] == "'"
        and mark[2] == start - 1
        and word[0] == PHRASE
        and word[3] == mark[2]
        and folded[start - 1] == "'"
    )


def _join(pieces: list[Piece], text: str, end: int) -> None:
    pieces.pop()
    kind, word, start, _, quantity, glued = pieces.pop()
    pieces.append((kind, word + text, start, end, quantity, glued))
