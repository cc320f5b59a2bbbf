"""The size chart and the settings of a shop."""

from itertools import pairwise
from typing import Any

import pytest
from pydantic import ValidationError

from sizing.chart import Shop, builtin_shop, read_shop
from sizing.errors import Fault, ShopError
from tests.sizing.shops import ease, shop, size


def faults(settings: dict[str, Any]) -> list[str]:
    with pytest.raises(ShopError) as refused:
        read_shop(settings)
    return [str(fault) for fault in refused.value.faults]


def test_a_shop_that_says_nothing_has_the_built_in_settings() -> None:
    assert read_shop() == read_shop({}) == builtin_shop()


def test_the_built_in_chart_has_six_nested_sizes() -> None:
    insides = [one.inside for one in builtin_shop().sizes]

    assert [one.name for one in builtin_shop().sizes] == [f"No. {n}" for n in range(1, 7)]
    assert all(a.length < b.length and a.width < b.width and a.height < b.height for a, b in pairwise(insides))


def test_a_setting_replaces_the_built_in_one_and_leaves_the_others() -> None:
    changed = shop(ease={"length": {"most": ease(3, 0.2)}})

    assert changed.ease.length.most.at(10) == 5.0
    assert changed.ease.length.least == builtin_shop().ease.length.least


def test_own_sizes_replace_the_built_in_ones_altogether() -> None:
    assert [one.name for one in shop(sizes=[size("Small", 10, 5, 10)]).sizes] == ["Small"]


def test_a_shop_may_make_everything_to_measure() -> None:
    assert shop(sizes=[]).sizes == ()


def test_a_size_is_found_by_its_name() -> None:
    assert builtin_shop().size("No. 2").opening == 6
    with pytest.raises(KeyError, match=r"the chart has no size 'No\. 9'"):
        builtin_shop().size("No. 9")


def test_a_shop_cannot_be_changed() -> None:
    with pytest.raises(ValidationError, match="frozen"):
        builtin_shop().pad = 1.0  # type: ignore[misc]


@pytest.mark.parametrize(
    ("settings", "fault", "right"),
    [
        (
            {"ease": {"length": {"most": ease(0.6, 0.05), "aim": ease(0.55, 0.05)}}},
            "ease.length = least 0.5 in, aim 0.55 in, most 0.6 in",
            "most must be at least one cutting step, 0.25 in, more than least",
        ),
        (
            {"ease": {"drop": {"most": ease(0.75), "aim": ease(0.5)}}},
            "ease.drop = least 0.77 in, aim 0.5 in, most 0.75 in at 26 in",
            "least must not be more than aim, nor aim more than most",
        ),
        (
            {"sizes": [size("Big", 12, 6, 12), size("Small", 10, 5, 10)]},
            "sizes.Small.inside = 10 in x 5 in x 10 in",
            "it holds no more than Big before it: list the sizes from small to large",
        ),
        (
            {"sizes": [size("One", 10, 5, 10, opening=10)]},
            "sizes.One.opening = 10 in",
            "the opening's lower edge must lie below the inside height, 10 in",
        ),
        (
            {"sizes": [size("One", 10, 5, 10, opening=0.5)]},
            "sizes.One.opening = 0.5 in",
            "the opening's lower edge must lie above the pad, 0.5 in",
        ),
        (
            {"sizes": [size("One", 10, 5, 10), size("One", 12, 5, 10)]},
            "sizes.One.name = One",
            "each size needs a name of its own",
        ),
        (
            {"sewn": {"least": {"width": 20}}},
            "sewn.least.width = 20 in",
            "it must not be more than sewn.most.width, 14 in",
        ),
        (
            {"sewn": {"least": {"opening": 26, "height": 5}, "most": {"opening": 30}}},
            "sewn.least.opening = 26 in",
            "the lowest opening must lie below the largest inside height, 26 in",
        ),
        ({"pad": 26}, "pad = 26 in", "the pad must be thinner than the largest inside height, 26 in"),
        (
            {"caution": {"carry_most": 16}},
            "caution.carry_most = 16 lb",
            "at most the published 15.4324 lb: the shop may make the caution stricter, never laxer",
        ),
        (
            {"caution": {"short_carry_most": 30}},
            "caution.short_carry_most = 30 lb",
            "at most the published 28.6601 lb: the shop may make the caution stricter, never laxer",
        ),
        (
            {"caution": {"short_carry_most": 10}},
            "caution.short_carry_most = 10 lb",
            "it must not be less than caution.carry_most, 15.4324 lb: lower that as well",
        ),
        (
            {"pockets": 0.5},
            "pockets = 0.5 lb",
            "at least 1 lb: the shop may make the caution stricter, never laxer",
        ),
        ({"step": 0}, "step = 0", "a number above 0"),
        ({"elbow": 1}, "elbow = 1", "a number below 1"),
        ({"wall": True}, "wall = True", "a number without quotes or unit"),
        ({"wall": "1/4"}, "wall = '1/4'", "a number without quotes or unit"),
        ({"pad": float("nan")}, "pad = nan", "a finite number"),
        ({"puppy": "hope"}, "puppy = 'hope'", "one of 'wait' or 'leave_room'"),
        ({"ese": {}}, "ese = {}", "no such setting: did you mean ease?"),
        (
            {"sizes": [size("One", 10, 5, 10, rated_lode=9)]},
            "sizes.One.rated_lode = 9",
            "no such setting: did you mean rated_load?",
        ),
        ({"sizes": [{"name": "One"}]}, "sizes.One.opening", "it is needed: write it"),
        ({"sizes": [size("", 10, 5, 10)]}, "sizes.1.name = ''", "words in quotes, not empty"),
        ({"sizes": [size("One\nTwo", 10, 5, 10)]}, "sizes.1.name = 'One\\nTwo'", "words in one line"),
        ({"sizes": "many"}, "sizes = 'many'", "a list of tables"),
        ({"ease": 3}, "ease = 3", "a table of settings"),
    ],
)
def test_a_setting_that_cannot_be_is_refused_by_name_with_what_would_be_right(
    settings: dict[str, Any], fault: str, right: str
) -> None:
    assert any(found.startswith(f"{fault}: ") and right in found for found in faults(settings))


def test_all_faults_are_named_at_once_those_that_cannot_be_read_and_those_that_cannot_be() -> None:
    found = faults({"step": "fine", "pockets": 0, "sizes": [size("One", 10, 5, 10, opening=12), {"name": "Two"}]})

    assert [fault.split(" = ")[0].split(": ")[0] for fault in found] == [
        "sizes.Two.inside",
        "sizes.Two.opening",
        "sizes.Two.empty_weight",
        "step",
        "sizes.One.opening",
        "pockets",
    ]


def keys(settings: dict[str, Any]) -> list[str]:
    return [fault.split(" = ")[0].split(": ")[0] for fault in faults(settings)]


@pytest.mark.parametrize(
    ("second", "own_fault"),
    [
        (size("One", 9, 5, 10, empty_weight=-2), "sizes.One.empty_weight"),
        (size("One", 9, 5, 10, opening="six"), "sizes.One.opening"),
        (size("One", 9, 5, 10, colour="red"), "sizes.One.colour"),
    ],
    ids=["a weight below nothing", "no number", "no such setting"],
)
def test_a_shared_name_and_sizes_that_shrink_are_told_beside_what_cannot_be_read(
    second: dict[str, Any], own_fault: str
) -> None:
    assert keys({"sizes": [size("One", 10, 5, 10), second]}) == [own_fault, "sizes.One.name", "sizes.One.inside"]


def test_a_size_without_a_readable_name_is_told_to_shrink_by_its_number() -> None:
    assert keys({"sizes": [size("One", 10, 5, 10), size("", 9, 5, 10)]}) == ["sizes.2.name", "sizes.2.inside"]


def test_a_shared_name_is_told_though_the_inside_of_one_cannot_be_read() -> None:
    assert keys({"sizes": [size("One", 10, 5, 10), size("One", "x", 5, 10)]}) == [
        "sizes.One.inside.length",
        "sizes.One.name",
    ]


def test_a_carrying_limit_that_is_too_lax_is_told_once_without_what_follows_from_it() -> None:
    assert keys({"caution": {"carry_most": 99}}) == ["caution.carry_most"]


def test_a_fault_is_told_in_the_units_that_the_maker_works_in() -> None:
    small = size("Klein", 25, 12, 25, opening=26)

    assert faults({"length_unit": "cm", "weight_unit": "kg", "sizes": [small], "caution": {"carry_most": 8}}) == [
        "sizes.Klein.opening = 26 cm: the opening's lower edge must lie below the inside height, 25 cm: measure it up "
        "from the board",
        "caution.carry_most = 8 kg: at most the published 7 kg: the shop may make the caution stricter, never laxer",
    ]


def test_a_shop_made_without_reading_settings_is_checked_as_well() -> None:
    with pytest.raises(ValidationError) as refused:
        Shop.model_validate({**builtin_shop().model_dump(), "pockets": 0.0})

    cause = refused.value.errors()[0]["ctx"]["error"]
    assert [fault.key for fault in cause.faults] == ["pockets"]


def test_a_fault_without_a_value_leaves_it_out() -> None:
    assert str(Fault(key="sizes", given="", right="write it")) == "sizes: write it"
