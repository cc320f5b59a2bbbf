"""Runs the program as a person or a script does: in this process for speed, or as a process of its own."""

import io
import os
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import pytest

from bot.cli import run

ROOT = Path(__file__).parents[3]
PICKLE = "Hi! Pickle is 13 lb, 11 in tall at the shoulder, 12 1/2 in from collar to rump, 4.5 in wide, throat 8 1/4 in"


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """What a command left: its exit code, and what it wrote."""

    code: int
    out: str
    err: str


def process(*arguments: str, given: str | bytes = b"", **environment: str) -> Done:
    """Run the program as a process of its own, with this on its standard input."""
    raw = given.encode() if isinstance(given, str) else given
    done = subprocess.run(
        [sys.executable, "-m", "bot", *arguments],
        cwd=ROOT,
        input=raw,
        capture_output=True,
        env={**os.environ, **environment},
        timeout=120,
    )
    return Done(code=done.returncode, out=done.stdout.decode("utf-8"), err=done.stderr.decode("utf-8"))


class Terminal:
    """Runs commands in this process, with the shop in `folder`; None: there is no shop anywhere."""

    def __init__(
        self, folder: Path | None, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
    ) -> None:
        self.folder = folder
        self._capsys = capsys
        self._monkeypatch = monkeypatch

    def __call__(self, *arguments: str, given: str | bytes = "", environment: Mapping[str, str] | None = None) -> Done:
        raw = given.encode() if isinstance(given, str) else given
        with self._monkeypatch.context() as patch:
            patch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(raw), encoding="utf-8"))
            if self.folder is not None:
                patch.setenv("TAPELINE_SHOP", str(self.folder))
            for name, value in (environment or {}).items():
                patch.setenv(name, value)
            self._capsys.readouterr()
            code = run(arguments)
        written = self._capsys.readouterr()
        return Done(code=code, out=written.out, err=written.err)
