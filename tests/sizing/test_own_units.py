"""Settings in centimetres and kilograms."""

from sizing.chart import builtin_shop, read_shop
from sizing.own_units import in_inches_and_pounds, in_own_units
from sizing.units import to_inches


def test_every_length_and_weight_of_a_metric_shop_is_converted() -> None:
    metric = in_own_units({**builtin_shop().model_dump(), "length_unit": "cm", "weight_unit": "kg"})

    assert metric["sizes"][0]["inside"]["length"] == 24.13  # type: ignore[index]
    assert metric["pad"] == 1.27
    assert read_shop(metric).model_copy(update={"length_unit": "in", "weight_unit": "lb"}) == builtin_shop()


def test_a_metric_shop_cuts_in_half_centimetres_unless_it_says_otherwise() -> None:
    assert read_shop({"length_unit": "cm"}).step == to_inches(0.5, "cm")
    assert read_shop({"length_unit": "cm", "step": 1.0}).step == to_inches(1.0, "cm")


def test_shares_and_probabilities_are_no_lengths() -> None:
    settings = {"length_unit": "cm", "ease": {"length": {"least": {"add": 2.54, "share": 0.05}}}, "elbow": 0.5}

    converted = in_inches_and_pounds(settings)

    assert converted["ease"] == {"length": {"least": {"add": 1.0, "share": 0.05}}}
    assert converted["elbow"] == 0.5


def test_what_is_no_number_stays_for_the_check_to_find() -> None:
    settings = {
        "length_unit": "cm",
        "weight_unit": "kg",
        "pad": "thick",
        "wall": True,
        "sizes": "many",
        "pockets": None,
    }

    assert in_inches_and_pounds(settings) == {**settings, "step": to_inches(0.5, "cm")}


def test_inches_and_pounds_stay_as_they_are() -> None:
    assert in_inches_and_pounds({"pad": 0.5, "pockets": 1}) == {"pad": 0.5, "pockets": 1}
