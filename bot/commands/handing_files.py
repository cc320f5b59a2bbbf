"""Writes what came with an enquiry's messages into a folder: files, and messages as they came. Opens none of them."""

import os
from collections.abc import Iterator
from pathlib import Path

from bot.desk import Desk
from bot.errors import DeclinedError
from bot.history import load_history
from bot.store.messages import files_of, original_of

_LONGEST = 120
"""Bytes of a name; file systems take 255."""


def write_files(desk: Desk, enquiry: int, folder: Path) -> list[Path]:
    """Write everything into `folder`, which is made where it does not exist; nothing in it is written over.

    Returns   what was written: "2 Pickle.jpg" came with the second message, "2.eml" is that message as it came
    Raises    NotThereError when there is no such enquiry; DeclinedError where the folder cannot be written to
    """
    found = list(_files(desk, enquiry))
    written = []
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        for name, content in found:
            path = _free(folder, name)
            with os.fdopen(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as file:
                file.write(content)
            written.append(path)
    except OSError as error:
        raise DeclinedError(f"{folder} cannot be written to ({error.strerror})") from error
    return written


def _files(desk: Desk, enquiry: int) -> Iterator[tuple[str, bytes]]:
    with desk.database.read() as connection:
        for place, row in enumerate(load_history(connection, enquiry).messages, start=1):
            original = original_of(connection, row.id)
            if original is not None:
                yield f"{place}.eml", original
            for file in files_of(connection, row.id):
                if file.bytes:
                    yield f"{place} {_short(file.name)}", file.bytes


def _short(name: str) -> str:
    """The name as its sender gave it holds no path, and cannot be the whole name: a number stands before it."""
    name = name.replace("/", "_").replace("\\", "_").replace("\0", "_")
    stem, dot, ending = name.rpartition(".")
    ending = f".{ending}" if dot and len(ending) <= 8 else ""
    stem = stem if ending else name
    return stem.encode()[: _LONGEST - len(ending)].decode(errors="ignore") + ending


def _free(folder: Path, name: str) -> Path:
    path, number = folder / name, 2
    while path.exists():
        path = folder / f"{Path(name).stem} ({number}){Path(name).suffix}"
        number += 1
    return path
