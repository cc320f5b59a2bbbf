"""Takes a raw mail apart into its parts, in time and memory that its writer cannot stretch. Pure.

The standard library's parser holds each line against the boundary of every part that it is in, and follows parts within
parts by recursion. So the lines and boundaries are counted first, and of a mail that would take too long only as much
of the beginning is read as will not; what its writer meant for people stands there.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from email.message import Message
from email.parser import BytesHeaderParser, BytesParser
from email.policy import Compat32

from bot.channels.email.charsets import decode
from bot.channels.email.headers import LONGEST

MOST_STEPS = 8_000_000
"""Lines times boundaries that are held against one another: a few seconds."""
MOST_LINES = 1_500_000
LONGEST_HEAD = 256 * 1024
"""Bytes of the headers before the first empty line."""
_BOUNDARY = re.compile(rb"boundary\s{0,20}=", re.IGNORECASE)
_HEAD_ENDS = re.compile(rb"\r?\n\r?\n|\r\r")


@dataclass(frozen=True, slots=True, kw_only=True)
class Parsed:
    """A mail in its parts.

    cut   only its beginning was read
    """

    message: Message
    cut: bool = False


class _Policy(Compat32):
    """Headers of a bearable length, in characters."""

    def header_source_parse(self, sourcelines: Sequence[str]) -> tuple[str, str]:
        name, _, value = sourcelines[0].partition(":")
        value = "".join([value, *sourcelines[1:]])[:LONGEST].strip()
        if any("\udc80" <= character <= "\udcff" for character in value):
            value = decode(value.encode("ascii", "surrogateescape"), None)
        return name[:200], value


_POLICY = _Policy()


def parse(raw: bytes) -> Parsed:
    """Take a mail apart. Never raises."""
    bounded = _bounded(raw)
    try:
        return Parsed(message=BytesParser(policy=_POLICY).parsebytes(bounded), cut=len(bounded) < len(raw))
    except (RecursionError, ValueError, LookupError, TypeError, AssertionError):
        return Parsed(message=parse_head(bounded), cut=True)


def parse_head(raw: bytes) -> Message:
    """Give a mail's headers; all that follows them stays in one piece."""
    return BytesHeaderParser(policy=_POLICY).parsebytes(raw)


def _bounded(raw: bytes) -> bytes:
    end = _HEAD_ENDS.search(raw, 0, LONGEST_HEAD + 4)
    if end is None:
        raw = raw[:LONGEST_HEAD]
    while True:
        lines = raw.count(b"\n") + raw.count(b"\r")
        boundaries = len(_BOUNDARY.findall(raw))
        if lines <= MOST_LINES and lines * (boundaries + 1) <= MOST_STEPS:
            return raw
        raw = raw[: len(raw) // 2]
