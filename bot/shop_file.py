"""Writes the settings file of a new shop: every setting with its default, its unit and what it is for."""

import math
import os
import tempfile
from collections.abc import Container, Iterator, Mapping
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path

from jinja2 import Environment, StrictUndefined
from pydantic_core import to_json

from bot.errors import DeclinedError
from bot.sections import Maker
from bot.settings import FILE_NAME, parse_settings
from sizing.chart import builtin_shop
from sizing.guideline import guideline
from sizing.own_units import in_own_units

TEMPLATE = Path(__file__).with_name("shop.toml.jinja")


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """What a maker is asked when she sets up her shop.

    length_unit   "in" or "cm"
    weight_unit   "lb" or "kg"
    time_zone     as in the tz database
    questions_by_themselves   on the chat channels
    """

    maker_name: str = ""
    workshop: str = ""
    length_unit: str = "in"
    weight_unit: str = "lb"
    time_zone: str = "UTC"
    questions_by_themselves: bool = False


def shop_file_text(answers: Answers) -> str:
    """Give the text of the settings file for these answers."""
    environment = Environment(
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        autoescape=False,  # noqa: S701 - it makes TOML, no markup
    )
    environment.filters["toml"] = _toml
    maker = Maker()
    text = environment.from_string(TEMPLATE.read_text(encoding="utf-8")).render(
        **_numbers(answers.length_unit, answers.weight_unit),
        **_caution(answers.weight_unit),
        lengths="inches" if answers.length_unit == "in" else "centimetres",
        weights="pounds" if answers.weight_unit == "lb" else "kilograms",
        maker_name=answers.maker_name,
        workshop=answers.workshop,
        time_zone=answers.time_zone,
        questions_by_themselves=answers.questions_by_themselves,
        greeting=maker.greeting,
        farewell=maker.farewell,
    )
    return "".join(_aligned(text.splitlines()))


def write_shop_file(folder: Path, answers: Answers, *, overwrite: bool = False) -> Path:
    """Write the settings file into `folder`, which is made where it does not exist.

    Returns   the file, whole: it appears under its name only when all of it is on the disk
    Raises    DeclinedError where there is one and `overwrite` is false; SettingsError for answers that cannot be
    """
    text = shop_file_text(answers)
    parse_settings(text, folder=folder)
    path = folder / FILE_NAME
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        _write(path, text, overwrite=overwrite)
    except FileExistsError:
        raise DeclinedError(f"{path} exists and was left as it is") from None
    except OSError as error:
        raise DeclinedError(f"{path} cannot be written ({error.strerror})") from error
    return path


def _write(path: Path, text: str, *, overwrite: bool) -> None:
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}-")
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        if overwrite or not _linked(Path(temporary), path):
            Path(temporary).replace(path)
    finally:
        Path(temporary).unlink(missing_ok=True)


def _linked(temporary: Path, path: Path) -> bool:
    """Give a file its name unless the name is taken; False: this disk knows no second names, and the name is free."""
    try:
        path.hardlink_to(temporary)
    except FileExistsError:
        raise
    except OSError:
        if path.exists():
            raise FileExistsError from None
        return False
    return True


def _toml(value: str | bool) -> str:
    """A JSON text or truth value is one of TOML too; but for DEL, which JSON leaves as it is."""
    return to_json(value).decode().replace("\x7f", "\\u007f")


def _aligned(lines: list[str]) -> Iterator[str]:
    """Set the comments of lines that stand together one under another."""
    for _, together in groupby(lines, key=lambda line: "  # " in line):
        parts = [line.rpartition("  # ") for line in together]
        width = max(len(setting.rstrip()) for setting, _, _ in parts)
        for setting, mark, rest in parts:
            yield f"{setting.rstrip():<{width}}{mark}{rest}\n" if mark else f"{rest}\n"


def _caution(weight_unit: str) -> dict[str, str]:
    """The published figures, rounded down: laxer ones would be refused."""
    published = guideline()
    if weight_unit == "kg":
        return {"carry_most": f"{published.carry_kg:g}", "short_carry_most": f"{published.short_carry_kg:g}"}
    most = (published.carry_lb, published.short_carry_lb)
    return dict(zip(("carry_most", "short_carry_most"), (f"{math.floor(m * 10) / 10:g}" for m in most), strict=True))


_CM = {"sizes": 0.5, "sewn": 0.5, "pad": 0.1, "wall": 0.1, "handle_drop": 0.5, "add": 0.1}
_KG = {"empty_weight": 0.05, "pockets": 0.1}
"""What a maker who works in centimetres or kilograms would round a converted setting to."""


def _numbers(length_unit: str, weight_unit: str) -> dict[str, object]:
    """The built-in settings in the maker's units."""
    builtin = builtin_shop().model_dump(exclude_none=True) | {"length_unit": length_unit, "weight_unit": weight_unit}
    steps = (_CM if length_unit == "cm" else {}) | (_KG if weight_unit == "kg" else {})
    exact = _KG if weight_unit == "lb" else {}
    numbers = {key: _round(value, steps, exact, key) for key, value in in_own_units(builtin).items()}
    return numbers | {"step": 0.5} if length_unit == "cm" else numbers


def _round(value: object, steps: Mapping[str, float], exact: Container[str], key: str, step: float = 0.0) -> object:
    step = 0.0 if key in exact else steps.get(key, step)
    if isinstance(value, Mapping):
        return {below: _round(inner, steps, exact, below, step) for below, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_round(inner, steps, exact, key, step) for inner in value]
    if isinstance(value, float):
        return f"{round(value / step) * step if step else value:.6g}"
    return value
