"""A mark of everything that a draft depends on besides its enquiry: chart, ease, words, wording and engine.

A draft with another mark than today's is old: it was not made with what holds now.
"""

import hashlib
from collections.abc import Iterator
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable

from bot import __version__
from bot.settings import Settings
from bot.workshop import Workshop

_MADE_OF = (".py", ".toml", ".csv", ".jinja")


def fingerprint(settings: Settings, workshop: Workshop) -> str:
    """Mark what holds now, as 64 hexadecimal digits."""
    mark = hashlib.sha256(_engine().encode())
    mark.update(workshop.shop.model_dump_json().encode())
    mark.update(settings.words_file.read_bytes() if settings.words_file.is_file() else b"")
    mark.update(repr(workshop.wording.signature).encode("utf-8", "surrogatepass"))
    mark.update(repr(sorted(workshop.wording.texts.items())).encode("utf-8", "surrogatepass"))
    return mark.hexdigest()


@cache
def _engine() -> str:
    """Mark the engine by its version and by what it is made of, so that no change in it goes unseen."""
    mark = hashlib.sha256(__version__.encode())
    for package in ("sizing", "replies"):
        for name, content in sorted(_files(files(package), package)):
            mark.update(f"{name} {len(content)} ".encode())
            mark.update(content)
    return mark.hexdigest()


def _files(folder: Traversable, above: str) -> Iterator[tuple[str, bytes]]:
    for entry in folder.iterdir():
        name = f"{above}/{entry.name}"
        if entry.is_dir():
            yield from _files(entry, name)
        elif entry.name.endswith(_MADE_OF):
            yield name, entry.read_bytes()
