"""Where a command reads from: a file, or standard input when the name is "-"."""

import sys
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

import click

SOURCE = click.Path(exists=True, dir_okay=False, readable=True, allow_dash=True)


@contextmanager
def open_source(name: str) -> Iterator[BinaryIO]:
    """Open a file, or standard input, for bytes.

    Raises   click.ClickException when standard input is closed
    """
    if name != "-":
        with Path(name).open("rb") as file:
            yield file
        return
    if sys.stdin is None or sys.stdin.closed:
        raise click.ClickException("standard input is closed: name a file, or pipe the text in")
    yield sys.stdin.buffer


@contextmanager
def watched(file: BinaryIO, name: str, *, screen_is_free: bool) -> Iterator[Iterable[bytes]]:
    """Give a file's lines, with a bar for whoever watches that shows how far they are read.

    screen_is_free   nothing else is written to the terminal meanwhile
    """
    if name == "-" or not screen_is_free or sys.stderr is None or not sys.stderr.isatty():
        yield file
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as progress:
        yield progress.wrap_file(file, total=Path(name).stat().st_size, description=Path(name).name)


def read_text(name: str) -> str:
    """Read a whole text. A byte that is not UTF-8 does not lose the rest: the old Western encoding is tried.

    Raises   click.ClickException when standard input is closed
    """
    with open_source(name) as file:
        raw = file.read()
    return decode(raw)


def decode(raw: bytes) -> str:
    """Give the text of a file that a maker saved: UTF-8, with or without a mark, UTF-16 with one, or else cp1252."""
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return raw.decode("utf-16", "replace")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        return raw.decode("cp1252", "replace")
