"""The invented morning, from its first message to its last line."""

import tempfile
from pathlib import Path

import pytest

from bot.commands.demo import morning
from tests.bot.commands.terminal import Done, Terminal


@pytest.fixture
def played(nowhere: Terminal, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Done:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    return nowhere("demo")


def test_the_morning_has_eight_enquiries(played: Done) -> None:
    assert len(morning().enquiries) == 8
    assert played.code == 0
    assert all(f"{number} of 8" in played.out for number in range(1, 9))


def test_it_shows_the_fit_the_caution_and_the_draft(played: Done) -> None:
    for words in ("┃   No. 4   ┃", "cloth may end here", "short carry", "Hello to you and Pickle,", "tapeline init"):
        assert words in played.out


def test_every_kind_of_draft_and_outcome_comes_up(played: Done) -> None:
    for words in (
        "a standard size ·", "opening recut", "made to measure", "may have been measured around",
        "a question", "an answer", "yours to write", "not to be lifted with the dog inside", "would be No. 4",
    ):  # fmt: skip
        assert words in " ".join(played.out.split())


def test_it_approves_by_itself_where_nobody_sits(played: Done) -> None:
    assert "10 drafts: 10 approved and gone" in played.out


def test_nothing_is_left_of_it(played: Done, tmp_path: Path) -> None:
    assert list(tmp_path.glob("tapeline-demo-*")) == []


def test_its_messages_are_of_different_kinds() -> None:
    scenes = morning().enquiries

    assert len({scene.about for scene in scenes}) == 8
    assert {scene.channel.value for scene in scenes} == {"telegram", "discord", "email"}


def test_only_dogs_are_measured(played: Done) -> None:
    greeted = [line for line in played.out.splitlines() if line.startswith(" │ Hello to you")]

    assert [line.removeprefix(" │ Hello to you") for line in greeted] == [
        " and Pickle,", " and Bramble,", " and Filou,", " and Otis,", ", Nana and Pippo,", " and Lotte,", " and Brutus,"
    ]  # fmt: skip
