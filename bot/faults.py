"""Writes down a fault of our own: where it happened, without a word of what a customer wrote."""

import os
import traceback
from datetime import UTC, datetime
from pathlib import Path

from platformdirs import user_log_path


def record(error: BaseException) -> str:
    """Write a fault down, and give the line that the user is told.

    The message of an error may hold a customer's words, so only its kind and the lines of our code go into the file.
    """
    told = f"a fault of our own ({type(error).__name__})"
    try:
        path = _file()
        _append(path, _frames(error))
    except OSError as refused:
        return f"{told}, at {_last_frame(error)}; it could not be written down: {refused}"
    return f"{told}; nothing was sent. Where it happened stands in {path}"


def _file() -> Path:
    return user_log_path("tapeline", appauthor=False, ensure_exists=True) / "faults.log"


def _append(path: Path, text: str) -> None:
    with os.fdopen(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600), "a", encoding="utf-8") as file:
        file.write(text)


def _frames(error: BaseException) -> str:
    lines = [f"{datetime.now(UTC):%Y-%m-%d %H:%M:%S}Z"]
    seen: BaseException | None = error
    while seen is not None:
        lines.append(type(seen).__qualname__)
        lines += [
            f"  {frame.filename}:{frame.lineno} in {frame.name}" for frame in traceback.extract_tb(seen.__traceback__)
        ]
        seen = seen.__cause__ or seen.__context__
    return "\n".join(lines) + "\n\n"


def _last_frame(error: BaseException) -> str:
    frames = traceback.extract_tb(error.__traceback__)
    return f"{Path(frames[-1].filename).name}:{frames[-1].lineno}" if frames else "an unknown place"
