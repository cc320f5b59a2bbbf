"""What a shop goes by is put together from the maker's own files; a slip in one names that file."""

from pathlib import Path

import pytest

from bot.errors import SettingsError
from bot.settings import load_settings
from bot.workshop import open_workshop


@pytest.mark.parametrize("name", ["words.toml", "sayings.toml"])
def test_a_slip_in_the_makers_own_words_names_her_file(tmp_path: Path, name: str) -> None:
    (tmp_path / "shop.toml").write_text(f'[files]\nwords = "{name}"\n', encoding="utf-8")
    (tmp_path / name).write_text('labels = "noggin"\n', encoding="utf-8")

    with pytest.raises(SettingsError) as refused:
        open_workshop(load_settings(tmp_path))

    assert str(refused.value) == f"{name}: labels: write a table here, such as [labels], not 'noggin'"
