"""Setting up a shop."""

import stat
from pathlib import Path

import pytest

from bot.settings import load_settings
from tests.bot.commands.terminal import Terminal
from tests.bot.commands.test_maker_side import type_at_a_terminal


def test_what_is_written_can_be_used_at_once(nowhere: Terminal, tmp_path: Path) -> None:
    folder = tmp_path / "shop"

    done = nowhere("init", "--shop", str(folder), "--name", "Ottoline", "--units", "cm", "--time-zone", "Europe/Oslo")

    settings = load_settings(folder)
    assert done.code == 0
    assert (settings.own.maker.name, settings.own.time_zone) == ("Ottoline", "Europe/Oslo")
    assert (settings.shop.length_unit, settings.shop.weight_unit) == ("cm", "kg")
    assert not settings.asks_by_itself("telegram")
    assert "tapeline check" in done.out


def test_nobody_else_may_look_into_a_new_shop(nowhere: Terminal, tmp_path: Path) -> None:
    nowhere("init", "--shop", str(tmp_path / "shop"))

    assert stat.S_IMODE((tmp_path / "shop").stat().st_mode) == 0o700


def test_an_old_file_is_never_written_over_without_being_told(tapeline: Terminal) -> None:
    assert tapeline.folder is not None
    file = tapeline.folder / "shop.toml"
    before = file.read_text()

    done = tapeline("init", "--name", "Somebody Else")

    assert done.code == 1
    assert "--overwrite" in done.err
    assert file.read_text() == before


def test_an_old_file_that_is_written_over_is_kept_beside_it(tapeline: Terminal) -> None:
    assert tapeline.folder is not None
    before = (tapeline.folder / "shop.toml").read_text()

    for _ in range(2):
        assert tapeline("init", "--overwrite", "--name", "Somebody Else").code == 0

    assert (tapeline.folder / "shop.toml.old").read_text() == before
    assert (tapeline.folder / "shop.toml.old1").exists()


@pytest.mark.parametrize(
    "answer", [("--time-zone", "Middle/Earth"), ("--name", "two\nlines")], ids=["no such zone", "two lines"]
)
def test_an_answer_that_cannot_be_leaves_everything_as_it_was(tapeline: Terminal, answer: tuple[str, str]) -> None:
    assert tapeline.folder is not None
    before = sorted(tapeline.folder.iterdir())

    done = tapeline("init", "--overwrite", *answer)

    assert done.code == 1
    assert sorted(tapeline.folder.iterdir()) == before


def test_a_town_alone_is_answered_with_its_time_zone(nowhere: Terminal, tmp_path: Path) -> None:
    done = nowhere("init", "--shop", str(tmp_path / "shop"), "--time-zone", "Oslo")

    assert done.code == 1
    assert "did you mean Europe/Oslo?" in done.err


def test_at_a_terminal_a_town_alone_is_answered_with_its_time_zone_and_asked_again(tmp_path: Path) -> None:
    code, _ = type_at_a_terminal(
        str(tmp_path / "shop"),
        ["init", "--name", "", "--workshop", "", "--units", "cm", "--no-questions-by-themselves"],
        [("time zone", "Oslo\n"), ("did you mean Europe/Oslo?", "Europe/Oslo\n")],
    )

    assert code == 0
    assert load_settings(tmp_path / "shop").own.time_zone == "Europe/Oslo"


def test_at_a_terminal_it_asks_five_questions(tmp_path: Path) -> None:
    code, screen = type_at_a_terminal(
        str(tmp_path / "shop"),
        ["init"],
        [("Your name", "Ottoline\n"), ("workshop", "Quillback Bags\n"), ("Inches or centimetres", "cm\n"),
         ("time zone", "Europe/Oslo\n"), ("go out without you", "y\n")],
    )  # fmt: skip

    settings = load_settings(tmp_path / "shop")
    assert code == 0
    assert screen.count(": ") >= 5
    assert settings.own.maker.workshop == "Quillback Bags"
    assert settings.asks_by_itself("telegram")
