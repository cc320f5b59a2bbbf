"""The commands that look into it: size, chart, read, check."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.bot.commands.terminal import PICKLE, Terminal

MEASURES = ["--length", "12.5in", "--height", "11in", "--width", "4.5in", "--throat", "8.25in", "--weight", "13lb"]
METRIC = ["--length", "31.75cm", "--height", "27,94 cm", "--width", "114.3mm", "--throat", "20.955cm"]


def size(tapeline: Terminal, *arguments: str) -> dict[str, Any]:
    done = tapeline("size", *arguments, "--json")
    assert done.code == 0
    answer: dict[str, Any] = json.loads(done.out)
    return answer


def test_a_size_is_the_dog_of_a_rehearsal_but_for_where_its_words_stand(nowhere: Terminal) -> None:
    told = size(nowhere, *MEASURES, "--name", "Pickle")

    (rehearsed,) = json.loads(nowhere("read", "-", "--json", given=PICKLE).out)["dogs"]
    assert told["outcome"] == rehearsed["outcome"]
    assert (told["name"], told["missing"], told["doubts"]) == ("Pickle", [], [])
    assert told["measures"]["width"] == {"low": 4.5, "high": 4.5, "words": "4.5in", "span": None, "message": None}


def test_a_size_is_the_same_in_any_unit(nowhere: Terminal) -> None:
    metric = size(nowhere, *METRIC, "--weight", "5.89670081kg")

    assert metric["outcome"] == size(nowhere, *MEASURES)["outcome"]


@pytest.mark.parametrize("written", ["14 1/2 in", "14.5in", "1'2 1/2\"", "14½", "36.83cm", "14,5 in"])
def test_an_amount_may_be_written_in_many_ways(nowhere: Terminal, written: str) -> None:
    assert size(nowhere, "--length", written)["measures"]["length"]["low"] == 14.5


def test_a_range_keeps_both_ends(nowhere: Terminal) -> None:
    length = size(nowhere, "--length", "12-13in")["measures"]["length"]

    assert (length["low"], length["high"]) == (12, 13)


def test_what_is_missing_is_said(nowhere: Terminal) -> None:
    told = size(nowhere, "--weight", "13lb")

    assert (told["missing"], told["outcome"]) == (["length", "height", "width", "throat_height"], None)


def test_every_amount_that_cannot_be_read_is_named(nowhere: Terminal) -> None:
    done = nowhere("size", "--length", "abc", "--weight", "5cm", "--width", "5in")

    assert (done.code, done.out) == (1, "")
    assert "length: 'abc'" in done.err
    assert "weight: '5cm'" in done.err


def test_a_size_is_shown_large_with_the_room_in_each_direction(nowhere: Terminal) -> None:
    screen = nowhere("size", *MEASURES).out

    assert "┃   No. 4   ┃" in screen
    for words in (
        "length      3 in of room",
        "front edge  3/4 in under the throat",
        "the tightest",
        "16 lb 2 oz in all",
    ):
        assert words in screen


def test_the_chart_in_force_holds_all_that_an_outcome_hangs_on(nowhere: Terminal) -> None:
    chart = json.loads(nowhere("chart", "--json").out)

    assert list(chart) == [
        "sizes", "ease", "pad", "wall", "step", "elbow", "sewn", "made_to_measure_rated_load", "pockets",
        "ask_again_below",
    ]  # fmt: skip
    assert chart["sizes"][0] == {
        "name": "No. 1",
        "inside": {"length": 9.5, "width": 4.25, "height": 9},
        "opening": 4.75,
        "empty_weight": 1,
        "rated_load": None,
        "price": None,
    }
    assert chart["ease"]["drop"]["most"] == {"add": 0.75, "share": 0.12}
    assert chart["sewn"]["least"] == {"length": 5, "width": 2.5, "height": 5, "opening": 2}
    assert (chart["pad"], chart["wall"], chart["step"], chart["elbow"], chart["pockets"]) == (0.5, 0.25, 0.25, 0.53, 1)
    assert (chart["made_to_measure_rated_load"], chart["ask_again_below"]) == (None, 0.8)


def test_the_chart_of_a_shop_in_centimetres_is_given_in_inches_and_shown_in_centimetres(
    nowhere: Terminal, tmp_path: Path
) -> None:
    nowhere("init", "--shop", str(tmp_path / "shop"), "--units", "cm")

    chart = json.loads(nowhere("chart", "--json", "--shop", str(tmp_path / "shop")).out)
    shown = nowhere("chart", "--shop", str(tmp_path / "shop")).out

    assert chart["sizes"][0]["inside"]["length"] == pytest.approx(24 / 2.54)
    assert "No. 1      24     11" in shown
    assert "1.45 kg" in shown, "as it is set, not rounded"


def test_five_measures_are_read_out_of_a_message(nowhere: Terminal) -> None:
    screen = nowhere("read", "-", given=PICKLE).out

    for words in ("back length      12 1/2 in", "shoulder height  11 in", "width            4 1/2 in",
                  "throat height    8 1/4 in", "weight           13 lb", "by “wide”"):  # fmt: skip
        assert words in screen
    marked = screen.splitlines()
    below = marked[1]
    assert marked[0][below.index("━") :].startswith("13 lb")


def test_what_was_left_is_shown_with_the_reason(nowhere: Terminal) -> None:
    screen = nowhere("read", "-", given="Olive is 3 years old and 11 in tall").out

    assert "left" in screen
    assert "“3 years" in screen


def test_a_check_of_what_is_built_in_finds_nothing_to_mend(nowhere: Terminal) -> None:
    done = nowhere("check")

    assert done.code == 0
    assert "templates tried" in done.out
    assert "overlap     No. 3 and No. 4" in done.out


def test_a_check_names_what_is_wrong_in_the_wording(tapeline: Terminal) -> None:
    assert tapeline.folder is not None
    (tapeline.folder / "wording").mkdir()
    (tapeline.folder / "wording" / "next.jinja").write_text("This bag was tested. {{ foo }}")

    done = tapeline("check")

    assert done.code == 1
    assert "wording/next.jinja" in done.out
    assert "'foo' is undefined" in done.out


def test_a_check_tells_every_fault_of_the_settings_at_once(tapeline: Terminal) -> None:
    assert tapeline.folder is not None
    file = tapeline.folder / "shop.toml"
    file.write_text(file.read_text().replace("pad = 0.5 ", 'pad = "x" ').replace("settle_s = 45", "settle_s = -3"))

    done = tapeline("check")

    assert (done.code, done.out) == (1, "")
    assert "shop.toml: messages.settle_s is -3" in done.err
    assert "shop.toml: pad is 'x'" in done.err


def test_a_check_can_be_read_by_another_program(nowhere: Terminal) -> None:
    told = json.loads(nowhere("check", "--json").out)

    assert told["faults"] == []
    assert told["ladder"]["sizes"][0][0] == "No. 1"
