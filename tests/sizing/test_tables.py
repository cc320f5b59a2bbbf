"""The engine's own data files."""

import pytest

from sizing import tables
from sizing.errors import DataError


def test_a_table_is_read_once() -> None:
    assert tables.table("chart.toml") is tables.table("chart.toml")


def test_a_missing_file_is_named_with_the_remedy() -> None:
    with pytest.raises(DataError, match=r"sizing/absent\.toml cannot be read .*: install tapeline again"):
        tables.text("absent.toml")


def test_a_file_that_is_no_toml_is_named_with_the_remedy() -> None:
    with pytest.raises(DataError, match=r"sizing/breeds\.csv is not TOML .*: mend it or install tapeline again"):
        tables.table("breeds.csv")
