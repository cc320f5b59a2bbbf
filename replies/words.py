"""Reads the word lists that lie beside the modules: the only contact of this package with a disk.

A word list is a TOML file with the stem of the module that reads it. It is checked whole when it is loaded, and a maker
may add to it in the same shape.
"""

import tomllib
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ConfigDict, ValidationError

from replies.errors import WordListError

OWN_WORDS = "words.toml"
"""How messages call the maker's own words, whatever she calls the file."""

_Key = tuple[str | int, ...]
Words = TypeVar("Words", bound="WordList")


class WordList(BaseModel):
    """The shape of one word list; unknown keys are faults, so that a slip of the pen is not silently ignored."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class OneList(WordList):
    """A table that holds one list."""

    words: list[str]


def read_word_list(path: Path, shape: type[Words], own: Mapping[str, Any] | None = None) -> Words:
    """Read the word list at `path`, with the maker's own words added, and check it against its shape.

    own         in the shape of the list; lists grow, tables are joined, single values are replaced
    Raises      WordListError, which names the file, the key and what to do
    """
    try:
        text = path.read_text(encoding="utf-8")
    except OSError as error:
        raise WordListError(str(path), "the file", f"it cannot be read ({error.strerror}); put it back") from error
    return parse_word_list(text, shape, path.name, own)


def parse_word_list(text: str, shape: type[Words], name: str, own: Mapping[str, Any] | None = None) -> Words:
    """Check the text of a word list against its shape; `name` stands in messages for the file.

    Raises      WordListError, which names the file, the key and what to do
    """
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise WordListError(name, "the whole file", f"it is no TOML: {error}; mend that line") from error
    if own is None:
        return _checked(table, shape, lambda key, fault: WordListError(name, ".".join(map(str, key)), _told(fault)))
    stem = name.removesuffix(".toml")
    return _checked(
        _with_own(table, own, stem),
        shape,
        lambda key, fault: WordListError(
            OWN_WORDS, f"{stem}.{_own_key(key, table)}", _remedy(fault, _at(table, key[:-1]))
        ),
    )


def _checked(table: object, shape: type[Words], refuse: Callable[[_Key, Mapping[str, Any]], WordListError]) -> Words:
    try:
        return shape.model_validate(table)
    except ValidationError as error:
        first = error.errors()[0]
        place = tuple(part for part in first["loc"] if part != "[key]")
        raise refuse(place or ("the whole file",), dict(first)) from error


def _told(fault: Mapping[str, Any]) -> str:
    return f"{fault['msg']}; it holds {fault['input']!r}"


def _remedy(fault: Mapping[str, Any], beside: object) -> str:
    """Say what to do about a fault in the maker's own words; `beside` is what the standard list has in that place."""
    if fault["type"] == "string_type":
        return f"write each word in quotes, not {fault['input']!r}"
    if fault["type"] != "extra_forbidden" and fault["loc"][-1] != "[key]":
        return f"mend it or take it out ({_told(fault)})"
    known = ", ".join(map(str, beside)) if isinstance(beside, Mapping) else ""
    return f"there is no such key; use one of {known}" if known else "there is no such key; take it out"


def _own_key(key: _Key, standard: object) -> str:
    """Give a key of the joined words as the maker has it: hers stand behind the standard ones, counted from 1."""
    parts = []
    for place, part in enumerate(key):
        before = _at(standard, key[:place])
        length = len(before) if isinstance(before, list) else 0
        parts.append(str(part - length + 1) if isinstance(part, int) else part)
    return ".".join(parts)


def _at(table: object, key: _Key) -> object:
    """Give what stands at a key; None where nothing does."""
    for part in key:
        table = table.get(part) if isinstance(table, Mapping) else None
    return table


def _with_own(standard: Any, own: Any, key: str) -> Any:  # noqa: ANN401 - a TOML value is anything
    """Add the maker's words to the ones that stand there."""
    if isinstance(standard, dict):
        if not isinstance(own, Mapping):
            raise WordListError(OWN_WORDS, key, f"write a table here, such as [{key}], not {own!r}")
        added = {
            part: _with_own(standard[part], value, f"{key}.{part}") if part in standard else value
            for part, value in own.items()
        }
        return {**standard, **added}
    if isinstance(standard, list):
        if not isinstance(own, list):
            raise WordListError(OWN_WORDS, key, f'write a list here, such as ["{own}"]')
        if any(isinstance(word, str) and not word.strip() for word in own):
            raise WordListError(OWN_WORDS, key, "one of the words is empty; take it out")
        return [*standard, *own]
    return own
