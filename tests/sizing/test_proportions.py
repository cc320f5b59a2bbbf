"""Every published figure has a source, and a wrong table is named."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest

import sizing.proportions as proportions
import sizing.tables as tables
from sizing.breeds import breed_rows
from sizing.errors import DataError


@pytest.fixture
def table(monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[[dict[str, Any]], None]]:
    read = (proportions.figure, proportions.stages, proportions.breed_figures)

    def put(rows: dict[str, Any]) -> None:
        monkeypatch.setattr(tables, "table", lambda name: rows)
        for one in read:
            one.cache_clear()

    yield put
    for one in read:
        one.cache_clear()


def test_every_figure_can_be_used() -> None:
    whole = tables.table("proportions.toml")

    assert all(proportions.figure(name) > 0 for name, entry in whole.items() if isinstance(entry, dict))
    assert proportions.stages()
    assert proportions.breed_figures().keys() <= {row.breed for row in breed_rows()}


def test_the_stages_of_growth_run_up_to_a_year() -> None:
    stages = proportions.stages()

    assert [stage.under_months for stage in stages] == sorted(stage.under_months for stage in stages)
    assert stages[-1].under_months == 12


GOOD = {"value": 1.5, "flag": "read", "source": "a paper"}


@pytest.mark.parametrize(
    ("entry", "says"),
    [
        ({}, r"\[x\]: give its source"),
        ({**GOOD, "source": ""}, r"\[x\]: give its source"),
        ({**GOOD, "flag": "heard"}, "a flag that is one of read, derived, memory, judgement"),
        ({**GOOD, "value": 0}, r"x\.value is 0: write a positive number"),
        ({**GOOD, "value": "1.5"}, r"x\.value is '1\.5': write a positive number"),
        ({**GOOD, "value": True}, "write a positive number"),
    ],
)
def test_a_wrong_figure_is_named_with_the_remedy(
    table: Callable[[dict[str, Any]], None], entry: dict[str, Any], says: str
) -> None:
    table({"x": entry})

    with pytest.raises(DataError, match=says):
        proportions.figure("x")


@pytest.mark.parametrize("ends", [[3], [4, 3], "34", [0, 1]])
def test_a_wrong_range_is_named(table: Callable[[dict[str, Any]], None], ends: object) -> None:
    table({"breed": [{"name": "Pug", "heights": ends, "flag": "read", "source": "a paper"}]})

    with pytest.raises(DataError, match=r"sizing/proportions\.toml, breed 'Pug'\.heights"):
        proportions.breed_figures()
