"""Shops to test with."""

from collections.abc import Mapping
from typing import Any

from sizing.chart import Shop, read_shop


def shop(**settings: Any) -> Shop:
    """Make a shop: the built-in one with these settings over it."""
    return read_shop(settings)


def size(name: str, length: float, width: float, height: float, *, opening: float = 4.0, **more: Any) -> dict[str, Any]:
    inside = {"length": length, "width": width, "height": height}
    return {"name": name, "inside": inside, "opening": opening, "empty_weight": 1.0, **more}


def ease(add: float, share: float = 0.0) -> Mapping[str, float]:
    return {"add": add, "share": share}
