"""Reads the engine's own data files, each once; the engine's only contact with a disk."""

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

from sizing.errors import DataError


@cache
def text(name: str) -> str:
    """Give the text of a data file of this package.

    name     such as "caution.toml"
    Raises   DataError when it cannot be read
    """
    try:
        return files("sizing").joinpath(name).read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise DataError(f"sizing/{name} cannot be read ({error}): install tapeline again") from error


@cache
def table(name: str) -> dict[str, Any]:
    """Give a TOML file of this package; whoever asks must not change it.

    Raises   DataError when it cannot be read or is not TOML
    """
    try:
        return tomllib.loads(text(name))
    except tomllib.TOMLDecodeError as error:
        raise DataError(f"sizing/{name} is not TOML ({error}): mend it or install tapeline again") from error
