"""Reads the word lists that lie beside the modules: the only contact of this package with a disk.

A word list is a TOML file with the stem of the module that reads it. It is checked whole when it is loaded, and a maker
may add to it in the same shape.
"""

import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ConfigDict, ValidationError

from replies.errors import WordListError

Words = TypeVar("Words", bound="WordList")


class WordList(BaseModel):
    """The shape of one word list; unknown keys are faults, so that a slip of the pen is not silently ignored."""

    model_config = ConfigDict(extra="forbid", frozen=True)


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
    if own:
        table = _with_own(table, own, name, "")
        name = f"your own words for {name}"
    try:
        return shape.model_validate(table)
    except ValidationError as error:
        first = error.errors()[0]
        key = ".".join(str(part) for part in first["loc"]) or "the whole file"
        raise WordListError(name, key, f"{first['msg']}; it holds {first['input']!r}") from error


def _with_own(standard: Any, own: Any, name: str, key: str) -> Any:  # noqa: ANN401 - a TOML value is anything
    """Add the maker's words to the ones that stand there."""
    if isinstance(standard, dict):
        if not isinstance(own, Mapping):
            raise WordListError(name, key, f"write a table here, not {own!r}")
        added = {
            part: _with_own(standard[part], value, name, f"{key}.{part}".lstrip(".")) if part in standard else value
            for part, value in own.items()
        }
        return {**standard, **added}
    if isinstance(standard, list):
        if not isinstance(own, list):
            raise WordListError(name, key, f'write a list here, such as ["{own}"]')
        return [*standard, *own]
    return own
