"""Whole drafts as a customer would get them: they change only on purpose, and somebody has read them aloud."""

import pytest

from tests.replies.golden_drafts import FOLDER, golden_drafts

DRAFTS = golden_drafts()


@pytest.mark.parametrize("name", DRAFTS)
def test_a_draft_reads_as_it_was_read_aloud(name: str) -> None:
    assert DRAFTS[name].text + "\n" == (FOLDER / f"{name}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", DRAFTS)
def test_a_draft_is_of_the_kind_that_its_file_says(name: str) -> None:
    assert DRAFTS[name].kind == name.split("_")[0]


def test_every_kept_text_belongs_to_a_draft() -> None:
    assert {path.stem for path in FOLDER.iterdir()} == set(DRAFTS)
