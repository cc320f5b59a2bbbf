"""The documents say what is so: commands, settings and dependencies that they name exist, and none is left out."""

import re
import tomllib
from pathlib import Path

import pytest

from bot.cli import COMMANDS
from bot.shop_file import Answers, shop_file_text

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
NAMES = {name for section in COMMANDS.values() for name in section}


def keys(table: dict[str, object]) -> set[str]:
    found = set(table)
    for value in table.values():
        tables = value if isinstance(value, list) else [value]
        for inner in tables:
            if isinstance(inner, dict):
                found |= keys(inner)
    return found


def test_the_readme_opens_with_the_two_commands() -> None:
    for command in (
        "python3 -m venv .venv && .venv/bin/pip install . && .venv/bin/tapeline demo",
        "python3 -m venv .venv && .venv/bin/pip install '.[test]' && .venv/bin/pytest",
    ):
        assert README.index(command) < 1500


def test_every_command_that_the_readme_names_is_there() -> None:
    desk = README[README.index("| at your desk") : README.index("## Where customers write")]
    named = set(re.findall(r"`tapeline ([a-z][a-z-]*)", README))
    named |= {
        cell.split()[0] for row in desk.split("\n")[2:] for cell in re.findall(r"`([^`]+)`", row.partition(" | ")[0])
    }

    assert len(named) > 12
    assert named <= NAMES


def test_every_setting_is_in_the_readme() -> None:
    settings = keys(tomllib.loads(re.sub(r"^# ([a-z_]+ = )", r"\1", shop_file_text(Answers()), flags=re.M)))
    optional = {"rated_load", "price"}
    parts = {"length", "width", "height", "opening"}

    assert {name for name in (settings | optional) - parts if name not in README} == set()


@pytest.mark.parametrize("command", sorted(NAMES))
def test_no_command_is_left_out_of_the_readme(command: str) -> None:
    assert re.search(rf"`(tapeline )?{command}\b|tapeline {command}\b", README)


def test_every_dependency_has_its_reason() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    needed = [*project["dependencies"], *(one for extra in project["optional-dependencies"].values() for one in extra)]
    table = DEVELOPERS[DEVELOPERS.index("## Dependencies") :]

    names = [re.split(r"[<>=!~ \[]", one)[0] for one in needed]
    assert [name for name in names if name not in table] == []


def test_every_file_that_the_developers_are_sent_to_is_there() -> None:
    named = re.findall(r"`((?:sizing|replies|bot|tests)/[\w/.]+)`", DEVELOPERS)

    assert named
    assert [name for name in named if not (ROOT / name).exists()] == []
