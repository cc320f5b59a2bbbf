"""Reads the word lists that lie beside the modules: the only contact of this package with a disk.

A word list is a TOML file with the stem of the module that reads it. It is checked whole when it is loaded.
"""

import tomllib
from pathlib import Path
from typing import TypeVar

from pydantic import BaseModel, ConfigDict, ValidationError

from replies.errors import WordListError

Words = TypeVar("Words", bound="WordList")


class WordList(BaseModel):
    """The shape of one word list; unknown keys are faults, so that a slip of the pen is not silently ignored."""

    model_config = ConfigDict(extra="forbid", frozen=True)


def read_word_list(path: Path, shape: type[Words]) -> Words:
    """Read the word list at `path` and check it against its shape.

    Raises      WordListError, which names the file, the key and what to do
    """
    try:
        text = path.read_text(encoding="utf-8")
    except OSError as error:
        raise WordListError(str(path), "the file", f"it cannot be read ({error.strerror}); put it back") from error
    return parse_word_list(text, shape, path.name)


def parse_word_list(text: str, shape: type[Words], name: str) -> Words:
    """Check the text of a word list against its shape; `name` stands in messages for the file.

    Raises      WordListError, which names the file, the key and what to do
    """
    try:
        return shape.model_validate(tomllib.loads(text))
    except tomllib.TOMLDecodeError as error:
        raise WordListError(name, "the whole file", f"it is no TOML: {error}; mend that line") from error
    except ValidationError as error:
        first = error.errors()[0]
        key = ".".join(str(part) for part in first["loc"]) or "the whole file"
        raise WordListError(name, key, f"{first['msg']}; it holds {first['input']!r}") from error
