"""Word lists: read, checked whole, and added to by a maker."""

from pathlib import Path

import pytest
from pydantic import Field

from replies.errors import WordListError
from replies.reading.words import load_words
from replies.words import WordList, parse_word_list, read_word_list


class Colours(WordList):
    warm: list[str]
    shades: dict[str, int] = Field(default_factory=dict)


def test_a_word_list_is_read(tmp_path: Path) -> None:
    (tmp_path / "colours.toml").write_text('warm = ["red"]\n', encoding="utf-8")

    assert read_word_list(tmp_path / "colours.toml", Colours).warm == ["red"]


def test_the_makers_own_words_are_added() -> None:
    own = {"warm": ["ochre"], "shades": {"dark": 2}}
    colours = parse_word_list('warm = ["red"]\nshades = {light = 1}', Colours, "colours.toml", own)

    assert (colours.warm, colours.shades) == (["red", "ochre"], {"light": 1, "dark": 2})


FAULTS = [
    ("no TOML", "warm = [", None, "colours.toml", "the whole file"),
    ("a key that is not known", 'warm = []\ncold = ["blue"]', None, "colours.toml", "cold"),
    ("a key that is missing", "", None, "colours.toml", "warm"),
    ("a number for a word", "warm = [1]", None, "colours.toml", "warm.0"),
    ("a single word of her own", "warm = []", {"warm": "ochre"}, "words.toml", "colours.warm"),
    ("a list of her own for a table", "warm = []\nshades = {}", {"shades": [1]}, "words.toml", "colours.shades"),
    ("a list of her own for the whole", "warm = []", [], "words.toml", "colours"),
    ("a number for a word of her own", 'warm = ["red"]', {"warm": ["ochre", 3]}, "words.toml", "colours.warm.2"),
    ("a slip in her own key", "warm = []", {"wram": []}, "words.toml", "colours.wram"),
]


@pytest.mark.parametrize(("text", "own", "file", "key"), [row[1:] for row in FAULTS], ids=[row[0] for row in FAULTS])
def test_a_fault_is_named_by_file_key_and_remedy(text: str, own: dict[str, object] | None, file: str, key: str) -> None:
    with pytest.raises(WordListError) as raised:
        parse_word_list(text, Colours, "colours.toml", own)

    assert (raised.value.file, raised.value.key) == (file, key)
    assert raised.value.remedy
    assert str(raised.value).startswith(f"{file}: {key}: ")


def test_a_slip_in_her_own_key_is_told_with_the_keys_that_there_are() -> None:
    with pytest.raises(WordListError, match="no such key; use one of warm, shades"):
        parse_word_list("warm = []\nshades = {}", Colours, "colours.toml", {"wram": []})


@pytest.mark.parametrize(
    ("own", "told"),
    [
        ({"labels": "x"}, "words.toml: labels: write a table here, such as [labels], not 'x'"),
        ({"lables": {}}, "words.toml: lables: there is no such list; use one of labels, dogs,"),
        ({"labels": {"words": {"BACK": {"nouns": "spine"}}}}, "words.toml: labels.words.BACK.nouns: write a list here"),
    ],
    ids=["a word for a list of words", "an unknown list", "a word for a list"],
)
def test_a_slip_in_words_toml_names_that_file(own: dict[str, object], told: str) -> None:
    with pytest.raises(WordListError) as raised:
        load_words(own)

    assert str(raised.value).startswith(told)


def test_a_file_that_is_gone_is_named(tmp_path: Path) -> None:
    with pytest.raises(WordListError, match=r"gone\.toml: the file: it cannot be read"):
        read_word_list(tmp_path / "gone.toml", Colours)
