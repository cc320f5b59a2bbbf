"""What came with an enquiry is written into a folder, whole, and under names that nobody outside chose."""

from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from bot.cli import tapeline
from bot.commands.handing_files import write_files
from bot.desk import utc_now
from bot.errors import DeclinedError, NotThereError
from bot.message import Attachment
from tests.fakes import FIVE, message, say, shop_desk

PICTURE = Attachment(name="Pickle.jpg", type="image/jpeg", bytes=b"\xff\xd8")


def test_files_and_the_message_as_it_came_are_written(tmp_path: Path) -> None:
    with shop_desk(tmp_path / "shop", clock=utc_now) as desk:
        say(desk, "Hi!")
        desk.keep(replace(message(FIVE), attachments=(PICTURE, PICTURE), original=b"From: x\r\n\r\nwidth 5"))

        written = write_files(desk, 1, tmp_path / "out")

    assert [path.name for path in written] == ["2.eml", "2 Pickle.jpg", "2 Pickle (2).jpg"]
    assert [path.read_bytes() for path in written] == [b"From: x\r\n\r\nwidth 5", b"\xff\xd8", b"\xff\xd8"]
    assert {path.stat().st_mode & 0o777 for path in written} == {0o600}


@pytest.mark.parametrize("name", ["..", ".", "x" * 100 + ".jpg", "ä" * 100, "-rf", "a:b?.jpg", "", "../../x", "a\\b"])
def test_any_name_is_a_file_within_the_folder(tmp_path: Path, name: str) -> None:
    with shop_desk(tmp_path / "shop", clock=utc_now) as desk:
        desk.keep(replace(message(FIVE), attachments=(replace(PICTURE, name=name),)))

        (written,) = write_files(desk, 1, tmp_path / "out")

    assert written.parent == tmp_path / "out"
    assert list((tmp_path / "out").iterdir()) == [written]


def test_a_file_without_bytes_is_a_note_and_not_written(tmp_path: Path) -> None:
    with shop_desk(tmp_path / "shop", clock=utc_now) as desk:
        desk.keep(replace(message(FIVE), attachments=(replace(PICTURE, bytes=b""),)))

        assert write_files(desk, 1, tmp_path / "out") == []


def test_the_command_prints_what_it_wrote(tmp_path: Path) -> None:
    with shop_desk(tmp_path / "shop", clock=utc_now) as desk:
        desk.keep(replace(message(FIVE), attachments=(PICTURE,)))

    out = tmp_path / "out"
    done = CliRunner().invoke(tapeline, ["show", "1", "--files", str(out), "--shop", str(tmp_path / "shop")])

    assert done.output == f"{out / '1 Pickle.jpg'}\n"


def test_what_cannot_be_done_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    with shop_desk(tmp_path / "shop", clock=utc_now) as desk:
        say(desk, FIVE)
        with pytest.raises(NotThereError):
            write_files(desk, 9, tmp_path / "out")
        with pytest.raises(DeclinedError, match="cannot be written to"):
            write_files(desk, 1, tmp_path / "file" / "out")
