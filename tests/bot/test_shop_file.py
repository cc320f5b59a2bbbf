"""The settings file of a new shop: whole, commented, never over another, and taken as it is written."""

import re
import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.errors import DeclinedError, SettingsError
from bot.sections import Sections
from bot.settings import load_settings, parse_settings
from bot.shop_file import Answers, shop_file_text, write_shop_file
from sizing.chart import Shop, builtin_shop

OPTIONAL = {"caution", "made_to_measure_rated_load"}


def test_in_inches_and_pounds_it_says_what_is_built_in() -> None:
    settings = parse_settings(shop_file_text(Answers()), folder=Path())

    assert settings.shop == builtin_shop()
    assert settings.own == Sections()


@pytest.mark.parametrize("weight_unit", ["lb", "kg"])
@pytest.mark.parametrize("length_unit", ["in", "cm"])
def test_in_any_units_it_is_a_shop_near_the_built_in_one(length_unit: str, weight_unit: str) -> None:
    text = shop_file_text(Answers(length_unit=length_unit, weight_unit=weight_unit))
    shop = parse_settings(text, folder=Path()).shop

    assert (shop.length_unit, shop.weight_unit) == (length_unit, weight_unit)
    for size, built_in in zip(shop.sizes, builtin_shop().sizes, strict=True):
        assert size.inside.length == pytest.approx(built_in.inside.length, abs=0.1)
        assert size.opening == pytest.approx(built_in.opening, abs=0.1)
        assert size.empty_weight == pytest.approx(built_in.empty_weight, abs=0.06)


def test_every_setting_stands_in_it_with_what_it_is_for() -> None:
    text = shop_file_text(Answers())
    written = set(tomllib.loads(text))

    assert set(Sections.model_fields) <= written
    assert set(Shop.model_fields) - OPTIONAL <= written
    for section, field in Sections.model_fields.items():
        for name in getattr(field.annotation, "model_fields", {}):
            assert name in tomllib.loads(text)[section], f"{section}.{name}"
    bare = [line for line in text.splitlines() if re.match(r"\w+ = ", line) and "#" not in line and "{" not in line]
    assert [line for line in bare if not line.startswith(("name", "opening", "empty_weight"))] == []


def test_what_is_commented_out_in_it_may_be_put_in_force() -> None:
    text = re.sub(r"(?m)^# (\w+ = )", r"\1", shop_file_text(Answers()))

    settings = parse_settings(text, folder=Path())

    assert settings.shop.made_to_measure_rated_load == 15
    assert settings.shop.caution.carry_most == 15.4


@given(st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=40))
def test_a_makers_name_comes_back_as_she_gave_it(name: str) -> None:
    text = shop_file_text(Answers(maker_name=name, workshop=name))

    assert parse_settings(text, folder=Path()).own.maker.name == name


@pytest.mark.parametrize("name", ['x"\n[files]\nwording = "y', "a  # b", "{{ 7*7 }}", "\x7f", "\\"])
def test_a_makers_name_cannot_become_a_setting(name: str) -> None:
    text = shop_file_text(Answers(maker_name=name))

    assert tomllib.loads(text)["maker"]["name"] == name


def test_it_is_written_and_can_be_loaded(tmp_path: Path) -> None:
    path = write_shop_file(tmp_path / "new" / "shop", Answers(maker_name="Ann", time_zone="Europe/London"))

    assert load_settings(path.parent).own.maker.name == "Ann"
    assert [one.name for one in path.parent.iterdir()] == ["shop.toml"]


def test_one_that_is_there_stays_as_it_is(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_text("pad = 0.75\n", encoding="utf-8")

    with pytest.raises(DeclinedError, match="left as it is"):
        write_shop_file(tmp_path, Answers())

    assert (tmp_path / "shop.toml").read_text(encoding="utf-8") == "pad = 0.75\n"
    assert [one.name for one in tmp_path.iterdir()] == ["shop.toml"]


def test_one_that_is_there_is_replaced_when_told_to(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_text("pad = 0.75\n", encoding="utf-8")

    write_shop_file(tmp_path, Answers(), overwrite=True)

    assert load_settings(tmp_path).shop.pad == 0.5


def test_answers_that_cannot_be_are_refused_before_anything_is_written(tmp_path: Path) -> None:
    with pytest.raises(SettingsError, match="time_zone"):
        write_shop_file(tmp_path / "shop", Answers(time_zone="Nowhere/Atall"))

    assert not (tmp_path / "shop").exists()
