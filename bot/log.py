"""Log lines: ids, states and durations, never a customer's words, name or address, nor a key.

What may be logged is a set of named values that cannot hold any of these; a line is made in one place.
"""

import logging
import sys
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from enum import StrEnum
from typing import IO

_ROOT = "tapeline"
Value = int | float | StrEnum | None


def start_log(stream: IO[str] | None = None, *, level: int = logging.INFO) -> None:
    """Write log lines to `stream` (standard error), one a line, with the time in UTC."""
    handler = logging.StreamHandler(stream or sys.stderr)
    form = logging.Formatter("%(asctime)sZ %(levelname)s %(message)s", "%Y-%m-%dT%H:%M:%S")
    form.converter = time.gmtime
    handler.setFormatter(form)
    log = logging.getLogger(_ROOT)
    log.handlers[:] = [handler]
    log.propagate = False
    log.setLevel(level)


def note(event: str, **values: Value) -> None:
    """Write one line of what happened in the course of things.

    event    what happened, in words of ours
    values   ids, counts, seconds and states; a text is refused, for it could be a customer's
    Raises   TypeError for a text
    """
    _write(logging.INFO, event, values)


def trouble(event: str, **values: Value) -> None:
    """Write one line of what somebody should look at; `values` as for `note`."""
    _write(logging.WARNING, event, values)


def _write(level: int, event: str, values: Mapping[str, Value]) -> None:
    for name, value in values.items():
        if isinstance(value, str) and not isinstance(value, StrEnum):
            raise TypeError(f"{name} is a text: the log takes ids, states and durations alone")
    told = " ".join(f"{name}={_shown(value)}" for name, value in values.items())
    logging.getLogger(_ROOT).log(level, "%s", f"{event} {told}".rstrip())


@contextmanager
def timed(event: str, **values: Value) -> Iterator[None]:
    """Write one line with how long it took, also where it broke off."""
    start = time.monotonic()
    try:
        yield
    finally:
        note(event, **{**values, "seconds": time.monotonic() - start})


def _shown(value: Value) -> str:
    return f"{value:.3f}" if isinstance(value, float) else str(value)
