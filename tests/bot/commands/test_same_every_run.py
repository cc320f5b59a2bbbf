"""The same messages read the same in every run, however Python mixes the words of a set."""

import json
import tomllib
from collections.abc import Iterator
from pathlib import Path

from tests.bot.commands.terminal import process

ROOT = Path(__file__).parents[3]
SCOPES = ROOT / "replies" / "reading" / "scopes.toml"
CASES = ROOT / "tests" / "replies" / "cases"


def phrases(table: object) -> Iterator[str]:
    """Give every phrase of a word list, each word that stands for another as the first of them."""
    if isinstance(table, str):
        yield " ".join(word.strip("[]()").split("|")[0] for word in table.split())
    elif isinstance(table, list):
        for one in table:
            yield from phrases(one)
    elif isinstance(table, dict):
        for key, one in table.items():
            if key != "note":
                yield from phrases(one)


def messages() -> list[str]:
    """Messages of all kinds, and two with each phrase that says of whom or of when a number is."""
    listed = list(phrases(tomllib.loads(SCOPES.read_text(encoding="utf-8"))))
    texts = [f"he is 12 kg {phrase}, 30 cm tall" for phrase in listed]
    texts += [f"12 lb her brother, {phrase} 9 lb, 10 tall" for phrase in listed]
    for path in ("doubts.toml", "several_dogs.toml", "whose.toml", "measures.toml"):
        cases = tomllib.loads((CASES / path).read_text(encoding="utf-8"))["case"]
        texts += [case["text"] for case in cases if "text" in case]
    return texts


def test_what_is_read_is_the_same_in_every_run() -> None:
    given = "".join(json.dumps({"id": str(at), "text": text}) + "\n" for at, text in enumerate(messages()))

    first, second = (process("rehearse", "-", "--json", given=given, PYTHONHASHSEED=seed).out for seed in ("1", "2"))

    assert first.count("\n") == given.count("\n")
    assert first.splitlines() == second.splitlines()
