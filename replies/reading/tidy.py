"""Makes plain characters of what phones and word processors write, and finds the way back to the text as it came.

One idea: a list of replacements, each of a stretch of the original by a stretch of plain characters.
"""

import re
import unicodedata
from bisect import bisect_right
from dataclasses import dataclass, field
from functools import lru_cache
from html import unescape
from pathlib import Path

from replies.reading.facts import Passage
from replies.reading.patterns import any_of
from replies.words import WordList, read_word_list


class _TidyWords(WordList):
    """tidy.toml: the plain form, and the characters that become it."""

    examples: list[str]
    plain: dict[str, str]


_WORDS = read_word_list(Path(__file__).with_name("tidy.toml"), _TidyWords)
_PLAIN = {character: plain for plain, characters in _WORDS.plain.items() for character in characters}
_ODD = re.compile(
    r"(?P<long>(?<=[\u3041-\u30ff])\u30fc)"  # the sign of a long vowel, no dash
    r"|"
    r"[⁰¹²³⁴-⁹]{1,3}[⁄∕/÷][₀-₉0-9]{1,3}"  # a fraction in raised and lowered figures
    r"|</?(?:b|i|u|p|a|br|hr|em|strong|span|div|font|table|tbody|thead|tr|td|th|ul|ol|li|h[1-6]|small|big|html|body)"
    r"(?:[ \t][^<>\n]{0,300})?/?>"  # marks of a web page
    r"|\r\n?"
    r"|[·∙⋅‧]{2,}|(?<=\w)~{2,}(?=\w)|_{2,}|={2,}|\.{4,}"  # what leads the eye from a name to its number
    r"|[^\x00-\x7f][\u0300-\u036f\u20e3\ufe0e\ufe0f]*"
    r"|[\x00-\x7f][\u0300-\u036f\u20e3\ufe0e\ufe0f]+"  # keycaps and accents above a plain letter
    r"|[\x00-\x08\x0b\x0c\x0e-\x1f\x7f`]"
    r"|&(?:#\d{1,6}|#[xX][0-9a-fA-F]{1,5}|[A-Za-z]{2,8}\d{0,2});"  # entities of HTML
)
_ODD_IN_ASCII = re.compile(r"(?m)^/[a-z]|[\x00-\x08\x0b-\x1f\x7f`&]|<[/A-Za-z]|~~|__|==|\.{4}")
"""What may be odd in a text in plain letters: a quick look, for most texts hold none of it."""
_CODE = re.compile(r"`([^`\n]{1,400})`")
"""A stretch between two signs that set it in a typewriter's letters: no mark of feet."""
_COMMAND = re.compile(r"(?m)^/[a-z]{3,20}(?=[ \t]|$)")
"""A line that begins as a command to a machine begins."""
_EXAMPLE = re.compile(rf"(?i)\((?:{any_of(_WORDS.examples)})[ :][^()\n]{{1,40}}\)(?=[ \t]*[:=])")
"""A form's own example, in brackets before the colon."""
_ENDS_LINE = re.compile(r"<(?:br|hr|/(?:p|div|tr|li|h[1-6]|table))\b")
_ENDS_CELL = re.compile(r"</t[dh]\b")
_LEADER = "→"
_KEYCAP = "\u20e3\ufe0e\ufe0f"
"""Marks that make a keycap or an emoji of a character."""
_ALIKE = {"ı": "i", "ς": "σ"}
"""Letters that are looked up as another one: the dotless i, and the sigma at the end of a word."""
_FIGURE = re.compile(r"\d")
_ACCENTED = re.compile(r"[^\x00-\x7f]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Tidied:
    """A text in plain characters.

    text      what the other steps read
    folded    the same, character for character, in small letters without accents: what words are looked up in
    original  the text as it came
    """

    text: str
    folded: str
    original: str
    _starts: tuple[int, ...] = field(default=(0,), repr=False)
    """Where in `text` each stretch begins: turn about one that stands as it came, and one that was replaced."""
    _origins: tuple[int, ...] = field(default=(0,), repr=False)
    _replaced: tuple[bool, ...] = field(default=(False,), repr=False)

    def passage(self, start: int, end: int) -> Passage:
        """Give the code points of the original that `text[start:end]` came from, with the words that stand there."""
        first, last = self.origin(start), self.origin(end, end=True)
        return Passage(start=first, end=last, words=self.original[first:last])

    def origin(self, offset: int, *, end: bool = False) -> int:
        """Give the place in the original of an offset in `text`.

        end   the offset closes a passage: inside a replaced stretch the whole of it counts
        """
        if len(self._starts) == 1:
            return min(max(offset, 0), len(self.original))
        at = max(bisect_right(self._starts, offset - 1 if end and offset else offset) - 1, 0)
        if not self._replaced[at]:
            place = self._origins[at] + offset - self._starts[at]
        elif end:
            place = self._origins[at + 1] if at + 1 < len(self._origins) else len(self.original)
        else:
            place = self._origins[at]
        return min(max(place, 0), len(self.original))


def tidy(text: str) -> Tidied:
    """Write a text in plain characters: figures, quotes, dashes, blanks and fractions as a keyboard has them.

    Never raises, in linear time.

    >>> tidy("13½″ – 14″").text
    '13 1/2" - 14"'
    """
    original = text
    if "(" in text:
        text = _EXAMPLE.sub(lambda match: " " * len(match.group()), text)
    if text.isascii() and not _ODD_IN_ASCII.search(text):
        return Tidied(text=text, folded=text.lower(), original=original)
    if "`" in text:
        text = _CODE.sub(r" \1 ", text)
    if "/" in text:
        text = _COMMAND.sub(lambda match: " " * len(match.group()), text)
    pieces: list[str] = []
    starts, origins, replaced = [0], [0], [False]
    length = done = 0
    for match in _ODD.finditer(text):
        start, end = match.span()
        plain = match.group() if match.lastgroup else _plain(match.group())
        if start > done:
            pieces.append(text[done:start])
            length += start - done
        if _is_fraction(plain):
            before = text[start - 1] if start else ""
            after = text[end] if end < len(text) else ""
            plain = (" " if before.isdecimal() else "") + plain + (" " if after.isdecimal() else "")
        if len(plain) != end - start:
            starts += [length, length + len(plain)]
            origins += [start, end]
            replaced += [True, False]
        pieces.append(plain)
        length += len(plain)
        done = end
    if not done:
        return Tidied(text=text, folded=text.lower(), original=original)
    pieces.append(text[done:])
    tidied = "".join(pieces)
    return Tidied(
        text=tidied,
        folded=fold(tidied),
        original=original,
        _starts=tuple(starts),
        _origins=tuple(origins),
        _replaced=tuple(replaced),
    )


def fold(text: str) -> str:
    """Give the text in small letters without accents, character for character, as words are looked up."""
    if text.isascii():
        return text.lower()
    return _ACCENTED.sub(lambda match: _bare(match.group()), text).lower()


@lru_cache(maxsize=4096)
def _bare(letter: str) -> str:
    """Give the letter below the accents; the letter itself where that is not exactly one."""
    bare = "".join(part for part in unicodedata.normalize("NFD", letter) if not unicodedata.combining(part)).lower()
    if len(bare) == 1:
        return _ALIKE.get(bare, bare)
    small = _ALIKE.get(letter) or letter.lower()
    return small if len(small) == 1 else letter[:1] if letter[:1].lower() == letter[:1] else "?"


def _is_fraction(plain: str) -> bool:
    return "/" in plain and plain[:1].isdigit()


@lru_cache(maxsize=4096)
def _plain(odd: str) -> str:
    """Give the plain form of an odd character, with the marks above and around it."""
    if odd[0] == "&":
        return _meant(odd)
    if odd[0] == "<" and len(odd) > 2:
        return "\t" if _ENDS_CELL.match(odd) else "\n" if _ENDS_LINE.match(odd) else ""
    if len(odd) > 1 and any(mark in odd for mark in "⁄∕/÷"):
        return unicodedata.normalize("NFKC", odd).replace("⁄", "/").replace("∕", "/").replace("÷", "/")
    if odd[0] == "\r":
        return "\n"
    if len(odd) > 1 and odd[0] in "·∙⋅‧~_=.":
        return _LEADER
    marks = "".join(mark for mark in odd[1:] if mark not in _KEYCAP)
    plain = _plain_character(odd[0])
    if not marks:
        return plain
    joined = unicodedata.normalize("NFC", plain + marks)
    return "".join(part for part in joined if not unicodedata.combining(part))


def _meant(entity: str) -> str:
    """Give what an entity stands for; one for a plain letter or figure stays, and "&" begins no further entity."""
    meant = unescape(entity)
    if meant == entity or any(letter.isascii() and (letter.isalnum() or letter in ";#") for letter in meant):
        return entity
    return "& " if meant == "&" else tidy(meant).text


def _plain_character(character: str) -> str:
    """Give the plain form of one character: from tidy.toml, else by what Unicode says it is."""
    if character in _PLAIN:
        return _PLAIN[character]
    if character.isascii():
        return character if (character >= " " and character != "\x7f") or character in "\t\n" else " "
    category = unicodedata.category(character)
    if category == "Nd":
        return str(unicodedata.decimal(character))
    if category == "No":
        return _plain_number(character)
    if category == "Pd":
        return "-"
    if category == "Zs":
        return " "
    if category in ("Zl", "Zp"):
        return "\n"
    if category in ("Cf", "Mn", "Me", "Cc", "Cs", "Co", "Cn"):
        return " " if category == "Cc" else ""
    wide = unicodedata.normalize("NFKC", character)
    wide = "".join(part for part in wide if unicodedata.category(part) not in ("Mn", "Me"))
    return wide if wide.isprintable() and " " not in wide and not _FIGURE.search(wide) else character


def _plain_number(character: str) -> str:
    """Write a fraction character as 1/2, a figure in a circle as the figure and a blank; leave raised figures."""
    compatible = unicodedata.normalize("NFKC", character)
    if "⁄" in compatible:
        return compatible.replace("⁄", "/")
    how = unicodedata.decomposition(character)
    if compatible.isascii() and compatible.isdigit() and "super" not in how:
        return compatible if "sub" in how else compatible + " "
    return character
