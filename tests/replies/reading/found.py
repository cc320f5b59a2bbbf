"""What is found in a text, written short: "13.5 in", "12-13", "date", with what is known besides behind it."""

from replies.reading.quantities import read_quantities
from replies.reading.quantity import Quantity
from replies.reading.shapes import Shape
from replies.reading.tidy import tidy


def found(text: str) -> list[str]:
    return [written(one) for one in read_quantities(tidy(text)).found]


def amounts(text: str) -> list[str]:
    return [written(one) for one in read_quantities(tidy(text)).found if one.shape in (Shape.AMOUNT, Shape.HASH)]


def words_of(text: str) -> list[str]:
    """The words of the original for each quantity."""
    tidied = tidy(text)
    return [tidied.passage(one.start, one.end).words for one in read_quantities(tidied).found]


def written(quantity: Quantity) -> str:
    if quantity.shape != Shape.AMOUNT:
        return quantity.shape.value + (f" {quantity.low:g}" if quantity.shape in (Shape.HASH, Shape.ENUMERATOR) else "")
    value = f"{quantity.low:g}" if quantity.low == quantity.high else f"{quantity.low:g}-{quantity.high:g}"
    told = [
        name
        for name, is_so in (
            ("shared", quantity.unit_shared),
            ("hedged", quantity.hedged),
            ("guessed", quantity.guessed),
            ("again", quantity.restates),
        )
        if is_so
    ]
    return " ".join([value, *([quantity.unit] if quantity.unit else []), *told])
