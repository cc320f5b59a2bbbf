"""The published table of breeds, and the words by which people name a breed."""

import csv
import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import sizing.tables as tables
from sizing.errors import DataError

_TABLE = "breeds.csv"
_NAMES = "breeds.toml"
_FIGURES = ("height_min_in", "height_max_in", "weight_min_lb", "weight_max_lb", "length_to_height")
_JOINT = re.compile(r"[\s-]+")
_SEX = re.compile(r" \[[MF]\]$", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class BreedRow:
    """One row of breeds.csv: what one source says of one breed.

    breed      name without the sex
    heights    least and most, inches at the shoulder; None: not stated
    weights    least and most, pounds; None: not stated
    ratio      length over height in the sense of `text`; None: not stated
    text       what the source says of the proportions; begins with BODY, BACK or BACK-LIKE where it gives a length
    source     where the figures come from
    """

    breed: str
    heights: tuple[float | None, float | None]
    weights: tuple[float | None, float | None]
    ratio: float | None
    text: str
    source: str


@cache
def breed_rows() -> tuple[BreedRow, ...]:
    """Read breeds.csv.

    Raises   DataError naming the row and the column of a figure that cannot be used
    """
    lines = tables.text(_TABLE).splitlines()
    return tuple(_row(number, cells) for number, cells in enumerate(csv.DictReader(lines), start=2))


def _row(line: int, cells: dict[str, str]) -> BreedRow:
    where = f"{_TABLE}, line {line}"
    if not (cells.get("breed") and cells.get("source") and cells.get("read_or_memory")):
        raise DataError(f"{where}: breed, source and read_or_memory must be filled in")
    h0, h1, w0, w1, ratio = (_figure(where, name, cells.get(name)) for name in _FIGURES)
    for low, high, what in ((h0, h1, "height"), (w0, w1, "weight")):
        if low is not None and high is not None and low > high:
            raise DataError(f"{where}: the least {what}, {low}, is above the most, {high}; exchange them")
    return BreedRow(
        breed=base_name(cells["breed"]),
        heights=(h0, h1),
        weights=(w0, w1),
        ratio=ratio,
        text=cells["proportion_text"],
        source=cells["source"],
    )


def _figure(where: str, name: str, text: str | None) -> float | None:
    if not text:
        return None
    try:
        value = float(text)
    except ValueError:
        value = 0.0
    if not 0 < value < 1000:
        raise DataError(f"{where}: {name} is {text!r}; write a positive number or leave it blank")
    return value


def base_name(breed: str) -> str:
    """Give the name of a breed without the mark of a sex.

    >>> base_name("Cairn Terrier [F]")
    'Cairn Terrier'
    """
    return _SEX.sub("", breed)


def find_breed(words: str) -> tuple[str, ...]:
    """Give the breeds that a text names, in the order in which they are named.

    A name as in breeds.csv, or one that has no row there. Several for a cross, and for a word that
    covers several rows. () where no breed is named.

    >>> find_breed("our JRT x min pin")
    ('Jack Russell Terrier', 'Russell Terrier', 'Miniature Pinscher')
    """
    return tuple(dict.fromkeys(name for _, _, names in breed_words(words) for name in names))


def breed_words(text: str) -> Iterator[tuple[int, int, tuple[str, ...]]]:
    """Find the words in a text that name a breed: start, end and the breeds that each may mean."""
    pattern, meanings = _vocabulary()
    for match in pattern.finditer(_flat(text)):
        names = meanings[_JOINT.sub("", match[1])]
        if names:
            yield match.start(), match.end(), names


@cache
def _vocabulary() -> tuple[re.Pattern[str], dict[str, tuple[str, ...]]]:
    meanings = spoken_breeds()
    longest_first = sorted((_JOINT.split(_flat(words)) for words in meanings), key=lambda parts: -sum(map(len, parts)))
    body = "|".join(r"[\s-]*".join(map(re.escape, parts)) for parts in longest_first)
    return re.compile(rf"(?<!\w)({body})(?:e?s)?(?!\w)"), {_key(words): names for words, names in meanings.items()}


@cache
def spoken_breeds() -> dict[str, tuple[str, ...]]:
    """Give every name by which people speak of breeds, with the breeds that each may mean; () for none."""
    said = tables.table(_NAMES)
    known = {row.breed for row in breed_rows()}
    meanings: dict[str, tuple[str, ...]] = {spoken: (breed,) for breed in sorted(known) for spoken in _spoken(breed)}
    for section in ("other_names", "crosses"):
        for word, names in said[section].items():
            if unknown := [name for name in names if name not in known]:
                raise DataError(f"sizing/{_NAMES}, {section}.{word}: no row in {_TABLE} is named {unknown}")
            meanings[word] = tuple(names)
    for word in said["no_row"]["words"]:
        meanings.setdefault(word, (word.title(),))
    return meanings


def _spoken(breed: str) -> Iterator[str]:
    kinds = re.fullmatch(r"(.+) \((.+)\)", breed)
    names = [breed] if kinds is None else [breed, f"{kinds[2]} {kinds[1]}", f"{kinds[1]} {kinds[2]}"]
    for name in names:
        yield name
        if "miniature" in name.casefold():
            yield name.casefold().replace("miniature", "mini")


def _flat(text: str) -> str:
    """Take off case and accents, character for character, so that places in the text stay true."""
    return "".join(_plain(letter) for letter in text)


def _plain(letter: str) -> str:
    if letter in "’‘`´":
        return "'"
    first = unicodedata.normalize("NFKD", letter)[0].lower()
    return first if len(first) == 1 else letter


def _key(words: str) -> str:
    return _JOINT.sub("", _flat(words))
