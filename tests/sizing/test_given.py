"""Amounts that are given directly."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.errors import AmountError
from sizing.given import Given, read_length, read_weight
from sizing.measures import Amount


def plain(value: float, unit: str, *, stated: bool = True) -> Given:
    return Given(amount=Amount.exactly(value), unit=unit, unit_stated=stated)


@pytest.mark.parametrize(
    ("text", "inches", "unit"),
    [
        ("33cm", 33 / 2.54, "cm"),
        ("33,5 cm", 33.5 / 2.54, "cm"),
        ("13.5in", 13.5, "in"),
        ("13 1/2 in", 13.5, "in"),
        ("13-1/2in", 13.5, "in"),
        ("13½ inches", 13.5, "in"),
        ("½in", 0.5, "in"),
        ('13.5"', 13.5, "in"),
        ("13.5''", 13.5, "in"),
        ("12 in.", 12.0, "in"),
        (".5 in", 0.5, "in"),
        ("1.35e1 in", 13.5, "in"),
        ("1'2\"", 14.0, "in"),
        ("1′ 2 1/2″", 14.5, "in"),
        ("1 ft 2", 14.0, "in"),
        ("1 FT 2 IN", 14.0, "in"),
        ("2 feet", 24.0, "ft"),
        ("330 mm", 33 / 2.54, "mm"),
        ("1m 20cm", 120 / 2.54, "cm"),
        ("0.33 m", 33 / 2.54, "m"),
    ],
)
def test_a_length_is_read_as_sewers_write_it(text: str, inches: float, unit: str) -> None:
    read = read_length(text)

    assert (read.amount.low, read.amount.high) == pytest.approx((inches, inches), rel=1e-15)
    assert (read.unit, read.unit_stated) == (unit, True)


@pytest.mark.parametrize(
    ("text", "pounds", "unit"),
    [
        ("13lb", 13.0, "lb"),
        ("13 lbs 4 oz", 13.25, "oz"),
        ("5.2kg", 5.2 / 0.45359237, "kg"),
        ("5 kilos", 5 / 0.45359237, "kg"),
        ("1st 2lb", 16.0, "lb"),
        ("5kg 300g", 5.3 / 0.45359237, "g"),
        ("8 ounces", 0.5, "oz"),
    ],
)
def test_a_weight_is_read_as_people_write_it(text: str, pounds: float, unit: str) -> None:
    read = read_weight(text)

    assert (read.amount.low, read.unit) == (pytest.approx(pounds, rel=1e-15), unit)


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("12-13in", 12.0, 13.0),
        ("12–13 in", 12.0, 13.0),
        ("12 to 13 in", 12.0, 13.0),
        ("12in - 13in", 12.0, 13.0),
        ("12in-13", 12.0, 13.0),
        ("11 1/2-12 1/4 in", 11.5, 12.25),
        ("1'-1'2\"", 12.0, 14.0),
        ("12in-33.02cm", 12.0, 13.0),
    ],
)
def test_a_range_is_read_with_one_unit_or_two(text: str, low: float, high: float) -> None:
    assert read_length(text).amount == Amount(low=low, high=high)


def test_a_number_without_a_unit_counts_in_the_unit_handed_in() -> None:
    assert read_length("25.4", unit="cm") == plain(10.0, "cm", stated=False)
    assert read_weight("13", unit="lb") == plain(13.0, "lb", stated=False)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("", "it must begin with a number"),
        ("tall", "it must begin with a number"),
        ("0in", "there is no number above 0"),
        ("-5in", "there is no number above 0"),
        ("12 foo", "'foo' is no unit that is known"),
        ("12kg", "kg is no unit of length"),
        ("13-12in", "a range goes from the smaller to the larger"),
        ("1/0in", "nothing is divided by 0"),
        ("1,200mm", "1,200 may be thousands or a decimal comma"),
        ("12 13", "'13' is not understood"),
        ("12-13-14in", "'-14in' is not understood"),
        ("12in nose", "'nose' is not understood"),
        ("1ft 2cm", "after ft there may only come in"),
        ("1e400 in", "the number is too large"),
        ("9" * 400, "that is too long for one amount"),
        ("١٢in", "it must begin with a number"),
    ],
)
def test_what_is_no_length_is_refused_with_the_reason_and_an_example(text: str, why: str) -> None:
    with pytest.raises(AmountError) as refused:
        read_length(text)

    assert f": {why}; write it like 33cm, 13.5in" in str(refused.value)


def test_a_length_is_no_weight() -> None:
    with pytest.raises(AmountError, match="in is no unit of weight; write it like 13lb"):
        read_weight("14in")


@given(st.text(alphabet="0123456789.,/-–'\"½ ′″inchftcmkglbtosz", max_size=120))
def test_any_text_is_read_or_refused(text: str) -> None:
    for read in (read_length, read_weight):
        try:
            amount = read(text).amount
        except AmountError:
            continue
        assert 0 < amount.low <= amount.high


@given(st.integers(min_value=1, max_value=399), st.sampled_from(["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"]))
def test_every_eighth_of_an_inch_is_read_exactly(whole: int, fraction: str) -> None:
    over, _, under = fraction.partition("/")
    value = whole + (int(over) / int(under) if fraction else 0)

    assert read_length(f"{whole} {fraction} in".replace("  ", " ")).amount == Amount.exactly(value)
