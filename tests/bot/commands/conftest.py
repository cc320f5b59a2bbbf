"""A shop of its own for each test, and a terminal in front of it."""

from pathlib import Path

import pytest

from bot.shop_file import Answers, write_shop_file
from tests.bot.commands.terminal import Terminal


@pytest.fixture
def tapeline(tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Terminal:
    """The program, in front of a shop that was just set up."""
    folder = tmp_path / "shop"
    write_shop_file(folder, Answers(maker_name="Ottoline", workshop="Quillback Bags"))
    return Terminal(folder, capsys, monkeypatch)


@pytest.fixture
def nowhere(tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Terminal:
    """The program, where no shop was set up yet."""
    monkeypatch.chdir(tmp_path)
    return Terminal(None, capsys, monkeypatch)
