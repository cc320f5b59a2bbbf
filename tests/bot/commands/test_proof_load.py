"""The command that says what to hang in a carrier."""

import pytest

from tests.bot.commands.terminal import Terminal


def test_a_rating_gets_a_load_by_each_yardstick_with_its_source(nowhere: Terminal) -> None:
    done = nowhere("proof-load", "20lb")

    assert "60 lb (27.3 kg)  3 times (ASTM F2549-22)" in done.out
    assert "40 lb (18.2 kg)  2 times (OSHA" in done.out
    assert "100 lb (45.4 kg)  5 times (ASME B30.9)" in done.out


def test_a_load_in_kilograms_is_never_less_than_the_rating_asks_for(nowhere: Terminal) -> None:
    done = nowhere("proof-load", "9.01kg")

    assert "(27.1 kg)" in done.out


def test_whoever_hangs_a_load_is_sent_to_a_qualified_person(nowhere: Terminal) -> None:
    assert "A qualified person and local rules decide." in " ".join(nowhere("proof-load", "9kg").out.split())


@pytest.mark.parametrize("rating", ["cats", "0lb", "-3", "10in"])
def test_what_is_no_weight_is_refused_with_how_to_write_one(nowhere: Terminal, rating: str) -> None:
    done = nowhere("proof-load", "--", rating)

    assert (done.code, done.out) == (1, "")
    assert "write it like 13lb" in done.err
