"""General-purpose quantity readers, each behind the same small interface, run in a process of its own.

Called by tests/bench/reading.py with the interpreter of an environment into which the readers were installed by hand;
it imports nothing of this project. Reads one JSON text a line, writes one line each: seconds, and amounts as
[kind, low, high] with kind "length" (inches), "weight" (pounds) or "bare" (no unit).
"""

import json
import re
import sys
import time
from collections.abc import Callable, Iterable

Amount = tuple[str, float, float]
Reader = Callable[[str], list[Amount]]

SPAN = re.compile(r"(\d+(?:[.,]\d+)?(?:\s+\d+/\d+)?)\s*([A-Za-z\"']{1,12})")
BARE = re.compile(r"\d+(?:[.,]\d+)?(?:\s+\d+/\d+)?")
INCHES = {
    "inch": 1.0, "in": 1.0, "foot": 12.0, "feet": 12.0, "ft": 12.0, "centimetre": 1 / 2.54, "centimeter": 1 / 2.54,
    "cm": 1 / 2.54, "millimetre": 1 / 25.4, "millimeter": 1 / 25.4, "mm": 1 / 25.4, "metre": 100 / 2.54,
    "meter": 100 / 2.54, "m": 100 / 2.54,
}  # fmt: skip
KILOGRAM = 1 / 0.45359237
POUNDS = {
    "pound": 1.0, "lb": 1.0, "pound-mass": 1.0, "ounce": 1 / 16, "oz": 1 / 16, "stone": 14.0, "kilogram": KILOGRAM,
    "kilogramme": KILOGRAM, "kg": KILOGRAM, "gram": KILOGRAM / 1000, "gramme": KILOGRAM / 1000, "g": KILOGRAM / 1000,
}  # fmt: skip


def amount(unit: str, low: float, high: float) -> Amount | None:
    name = unit.strip().lower()
    for form in (name, name.removesuffix("s"), name.removesuffix("es")):
        if form in INCHES:
            return "length", low * INCHES[form], high * INCHES[form]
        if form in POUNDS:
            return "weight", low * POUNDS[form], high * POUNDS[form]
    return None


def known(found: Iterable[Amount | None]) -> list[Amount]:
    return [one for one in found if one is not None]


def ms_recognizers() -> Reader:
    from ms_recognizers_number import NumberRecognizer
    from ms_recognizers_number_with_unit import NumberWithUnitRecognizer
    from ms_recognizers_text import Culture

    model = NumberWithUnitRecognizer(Culture.English).get_dimension_model()
    numbers = NumberRecognizer(Culture.English).get_number_model()

    def read(text: str) -> list[Amount]:
        taken: list[tuple[int, int]] = []
        found: list[Amount | None] = []
        for one in model.parse(text):
            taken.append((one.start, one.end))
            values = one.resolution or {}
            try:
                value = float(values.get("value"))
            except (TypeError, ValueError):
                continue
            found.append(amount(str(values.get("unit")), value, value))
        for one in numbers.parse(text):
            if not any(start <= one.start <= end for start, end in taken):
                value = float(one.resolution["value"])
                found.append(("bare", value, value))
        return known(found)

    return read


def quantulum3() -> Reader:
    from quantulum3 import parser

    def read(text: str) -> list[Amount]:
        found: list[Amount | None] = []
        for one in parser.parse(text):
            low, high = float(one.value), float(one.value)
            if one.uncertainty:
                low, high = low - float(one.uncertainty), high + float(one.uncertainty)
            found.append(("bare", low, high) if one.unit.name == "dimensionless" else amount(one.unit.name, low, high))
        return known(found)

    return read


def pint_on_spans(prepare: Callable[[str], str] = str) -> Reader:
    import pint

    registry = pint.UnitRegistry()
    names = {'"': "inch", "''": "inch", "'": "foot", "lbs": "lb", "in": "inch", "ins": "inch"}

    def read(text: str) -> list[Amount]:
        text = prepare(text)
        found: list[Amount | None] = []
        taken: list[int] = []
        for match in SPAN.finditer(text):
            number = sum(map(_value, match.group(1).replace(",", ".").split()))
            unit = match.group(2).lower()
            try:
                quantity = number * registry(names.get(unit, unit))
            except Exception:
                continue
            if quantity.check("[length]"):
                value = quantity.to("inch").magnitude
                found.append(("length", value, value))
            elif quantity.check("[mass]"):
                value = quantity.to("pound").magnitude
                found.append(("weight", value, value))
            else:
                continue
            taken.append(match.start())
        for match in BARE.finditer(text):
            if match.start() not in taken:
                value = sum(map(_value, match.group().replace(",", ".").split()))
                found.append(("bare", value, value))
        return known(found)

    return read


def _value(text: str) -> float:
    over, _, under = text.partition("/")
    return float(over) / (float(under) or 1.0) if under else float(over)


def numerizer_and_pint() -> Reader:
    from numerizer import numerize

    return pint_on_spans(numerize)


def text2num_and_pint() -> Reader:
    from text_to_num import alpha2digit

    return pint_on_spans(lambda text: alpha2digit(text, "en"))


def unit_parse() -> Reader:
    import logging

    from unit_parse import parser

    logging.disable(logging.CRITICAL)

    def read(text: str) -> list[Amount]:
        found: list[Amount | None] = []
        for match in BARE.finditer(text):
            span = text[match.start() : match.end() + 14].split(",")[0]
            try:
                quantity = parser(span)
            except Exception:
                quantity = None
            if quantity is None or not hasattr(quantity, "check"):
                value = sum(map(_value, match.group().replace(",", ".").split()))
                found.append(("bare", value, value))
            elif quantity.check("[length]"):
                value = float(quantity.to("inch").magnitude)
                found.append(("length", value, value))
            elif quantity.check("[mass]"):
                value = float(quantity.to("pound").magnitude)
                found.append(("weight", value, value))
            elif quantity.dimensionless:
                found.append(("bare", float(quantity.magnitude), float(quantity.magnitude)))
        return known(found)

    return read


def duckling() -> Reader:
    """A native library: it ends its process on some texts, which the caller notices and counts."""
    import duckling as native

    zones = native.load_time_zones("/usr/share/zoneinfo")
    locale = native.parse_locale("EN_US", native.default_locale_lang(native.parse_lang("EN")))
    context = native.Context(native.parse_ref_time(zones, "UTC", 0), locale)
    dimensions = native.parse_dimensions(["distance", "quantity", "number"])

    def read(text: str) -> list[Amount]:
        found: list[Amount | None] = []
        for one in native.parse(text, context, dimensions, False):
            value = one["value"]
            if value["type"] == "interval":
                low, high = (value.get(end, {}).get("value") for end in ("from", "to"))
                unit = (value.get("from") or value.get("to")).get("unit")
            else:
                low = high = value.get("value")
                unit = value.get("unit")
            if low is not None and high is not None:
                found.append(amount(unit, low, high) if unit else ("bare", low, high))
        return known(found)

    return read


READERS: dict[str, Callable[[], Reader]] = {
    "ms-recognizers": ms_recognizers,
    "duckling": duckling,
    "quantulum3": quantulum3,
    "numerizer + pint": numerizer_and_pint,
    "text2num + pint": text2num_and_pint,
    "pint on spans": pint_on_spans,
    "unit-parse": unit_parse,
}


def main() -> None:
    read = READERS[sys.argv[1]]()
    read("12 in")
    print("ready", flush=True)
    for line in sys.stdin:
        text = json.loads(line)
        began = time.perf_counter()
        try:
            found: list[Amount] | None = read(text)
        except Exception:
            found = None
        print(json.dumps([time.perf_counter() - began, found]), flush=True)


if __name__ == "__main__":
    main()
