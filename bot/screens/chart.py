"""The size chart as the maker reads it, in her own units."""

from collections.abc import Iterator

from rich.table import Table
from rich.text import Text

from sizing.chart import Shop
from sizing.outcome import Direction
from sizing.sizes import Part
from sizing.units import from_inches, from_pounds
from sizing.written import length_written, weight_with_unit

_WORDS = {"in": "inches", "cm": "centimetres"}


def chart_screen(shop: Shop) -> Iterator[Table | Text]:
    """Give sizes, ease and what else sizing goes by."""
    length, weight = shop.length_unit, shop.weight_unit
    yield Text(f"Sizes: finished inside dimensions in {_WORDS[length]}", style="heading")
    yield _sizes(shop)
    yield Text()
    yield Text(f"Room beyond the dog: {_WORDS[length]} and a share of the measure", style="heading")
    yield _ease(shop)
    yield Text()
    least, most = shop.sewn.least, shop.sewn.most
    told = {
        "pad under the dog's weight": f"{_exact(shop.pad, length)} {length}",
        "wall": f"{_exact(shop.wall, length)} {length}",
        "cutting step": f"{_exact(shop.step, length)} {length}",
        "elbow": f"{shop.elbow:.0%} of the shoulder height",
        "can be sewn": f"{_sides(least, length)} to {_sides(most, length)} {length}",
        "opening": f"{_exact(least.opening, length)} to {_exact(most.opening, length)} {length}",
        "in the pockets": _weight(shop.pockets, weight),
        "rated load, made to measure": _load(shop.made_to_measure_rated_load, weight),
        "one measure again below": f"{shop.ask_again_below:.0%} sure",
    }
    width = max(map(len, told))
    for name, value in told.items():
        yield Text(f"{name:<{width}}  ", style="quiet").append(value, style="not dim")


def _sizes(shop: Shop) -> Table:
    table = Table(box=None, padding=(0, 2, 0, 0), pad_edge=False, header_style="quiet")
    for column in ("size", "length", "width", "height", "opening", "empty", "rated load", "price"):
        table.add_column(column, justify="left" if column in ("size", "price") else "right")
    for size in shop.sizes:
        inside = size.inside
        measures = (inside.length, inside.width, inside.height, size.opening)
        table.add_row(
            Text(size.name, style="key"),
            *(_exact(inches, shop.length_unit) for inches in measures),
            _weight(size.empty_weight, shop.weight_unit),
            _load(size.rated_load, shop.weight_unit),
            size.price or "",
        )
    return table


def _ease(shop: Shop) -> Table:
    table = Table(box=None, padding=(0, 2, 0, 0), pad_edge=False, header_style="quiet")
    for column in ("", "least", "aim", "most"):
        table.add_column(column, justify="left" if not column else "right")
    for direction in Direction:
        ease = getattr(shop.ease, direction)
        name = "front edge (of the height)" if direction is Direction.DROP else direction.value
        table.add_row(
            Text(name, style="key"), *(_part(part, shop.length_unit) for part in (ease.least, ease.aim, ease.most))
        )
    return table


def _part(part: Part, unit: str) -> str:
    share = f" + {part.share:.0%}" if part.share else ""
    return f"{_exact(part.add, unit)}{share}"


def _exact(inches: float, unit: str) -> str:
    """Write a setting as the maker set it: eighths where it is one, never rounded to another value."""
    value = from_inches(inches, unit)
    return length_written(inches, unit) if unit == "in" and value * 8 == round(value * 8) else f"{value:.4g}"


def _weight(pounds: float, unit: str) -> str:
    """Write a weight as the maker set it: pounds with ounces where they are whole, never rounded to another value."""
    value = from_pounds(pounds, unit)
    whole_ounces = unit == "lb" and value * 16 == round(value * 16)
    return weight_with_unit(pounds, unit) if whole_ounces else f"{value:.4g} {unit}"


def _sides(sewable: object, unit: str) -> str:
    return " x ".join(_exact(getattr(sewable, side), unit) for side in ("length", "width", "height"))


def _load(pounds: float | None, unit: str) -> str:
    return _weight(pounds, unit) if pounds is not None else "none stated"
