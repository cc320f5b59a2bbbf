"""Files that come with messages: how they are called, and what is kept of one that cannot be had. Pure."""

from bot.keeping import sound_text
from bot.message import Attachment

LARGEST = 20 * 1024 * 1024
"""Bytes that are kept; a larger file is kept by its name alone."""
TOO_LARGE = "too large to fetch"
NOT_FETCHED = "could not be fetched"
LONGEST_NAME = 100


def named(name: str, kind: str, content: bytes) -> Attachment:
    """Keep a file under the last part of the name that its sender chose: it is shown, and never a path."""
    return Attachment(name=_shown(name), type=sound_text(kind), bytes=content)


def without_bytes(name: str, kind: str, why: str) -> Attachment:
    """Keep a file by its name alone, with the reason in it."""
    return Attachment(name=f"{_shown(name)} ({why})", type=sound_text(kind), bytes=b"")


def _shown(name: str) -> str:
    last = sound_text(name).replace("\\", "/").rpartition("/")[2].strip()
    return "".join(one if one.isprintable() else " " for one in last)[:LONGEST_NAME] or "file"
