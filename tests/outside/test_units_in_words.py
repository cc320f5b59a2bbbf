"""Units and numbers as the Unicode Common Locale Data Repository writes them (through babel, which carries its data).

Source: Unicode CLDR, unit patterns and number formats of the seven languages that customers mostly think in.
"""

import pytest
from babel.numbers import format_decimal
from babel.units import format_unit

from replies.reading.quantities import find_quantities
from replies.reading.tidy import tidy

LANGUAGES = ("en", "de", "fr", "es", "it", "pt", "nl")
UNITS = {
    "length-inch": "in",
    "length-foot": "ft",
    "length-centimeter": "cm",
    "length-millimeter": "mm",
    "mass-pound": "lb",
    "mass-ounce": "oz",
    "mass-kilogram": "kg",
    "mass-gram": "g",
}
POUNDS_OF_500_G = {("de", "long"), ("fr", "long")}
"""There the everyday pound is half a kilogram, which CLDR's mass-pound is not; common practice, no source."""

ALSO_ENGLISH = ("once",)
"""French and Italian ounces, which in an English message are not: left alone on purpose."""


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("length", ["long", "short"])
@pytest.mark.parametrize("unit", UNITS)
def test_a_unit_is_read_as_the_locale_writes_it(unit: str, length: str, language: str) -> None:
    if unit == "mass-pound" and (language, length) in POUNDS_OF_500_G:
        (found,) = find_quantities(tidy(format_unit(10, unit, locale=language)))
        assert (found.low, found.unit) == (5000, "g")
        return
    for value in (57.5, 250) if unit == "mass-gram" else (1, 2, 57.5):
        text = format_unit(value, unit, length=length, locale=language)
        if text.split()[-1] in ALSO_ENGLISH:
            continue
        found = [(one.low, one.unit) for one in find_quantities(tidy(f"- {text}"))]
        assert found == [(value, UNITS[unit])], text


@pytest.mark.parametrize("language", LANGUAGES)
def test_decimals_are_read_as_the_locale_writes_them(language: str) -> None:
    for value in (0.5, 4.5, 12.25, 33.0, 105.75):
        text = format_decimal(value, locale=language)
        assert [one.low for one in find_quantities(tidy(f"- {text} cm"))] == [value], text


@pytest.mark.parametrize("language", LANGUAGES)
def test_thousands_of_grams_are_read_as_the_locale_parts_them(language: str) -> None:
    for value in (1200, 4800, 12400):
        text = format_decimal(value, locale=language)
        assert [one.low for one in find_quantities(tidy(f"- {text} g"))] == [value], text
