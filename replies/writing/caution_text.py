"""The weight-safety caution as it stands in an answer: how heavy it gets for each dog, and what holds for all."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from replies.enquiry import Enquiry
from replies.errors import WordingError, WordingFault
from replies.writing.wording import Wording, render
from sizing.caution import Caution, Level
from sizing.units import from_inches, from_pounds, to_inches


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """A carrier with what is in it: how the dog, or both, are called, and the engine's caution."""

    calling: str
    caution: Caution


def caution_text(loads: Sequence[Load], enquiry: Enquiry, wording: Wording) -> str:
    """Write the caution.

    loads    the carriers that are offered
    Returns  "" where none is
    Raises   WordingError, also where the wording leaves out how heavy it gets
    """
    if not loads:
        return ""
    levels = [
        _level(level, alike, enquiry, wording)
        for level in Level
        if (alike := [load for load in loads if load.caution.level is level])
    ]
    values = {
        "levels": levels,
        "dog": loads[0].calling if len(loads) == 1 else "a dog",
        "lifted": any(not load.caution.heaviest for load in loads),
    }
    text = render(wording, "caution.jinja", values)
    if not text or not all(level in text for level in levels):
        problem, remedy = "it leaves out how heavy it gets", 'put {{ levels | join(" ") }} back into it'
        own = "caution.jinja" in wording.own
        raise WordingError([WordingFault(template="caution.jinja", line=None, problem=problem, remedy=remedy, own=own)])
    return text


def _level(level: Level, loads: Sequence[Load], enquiry: Enquiry, wording: Wording) -> str:
    """Write what holds for the carriers of one level."""
    totals = [{"dog": load.calling, "total": _about(load.caution.total_lb, enquiry.weight_unit)} for load in loads]
    rest = loads[0].caution.rest_within_m
    values = {"loads": totals, "rest": _rest(rest, enquiry.length_unit) if rest is not None else ""}
    return render(wording, f"levels/{level.value}.jinja", values)


def _about(pounds: float, unit: str) -> str:
    """A load in whole pounds or half kilograms, upwards: it is never made lighter than it is."""
    if unit in ("kg", "g"):
        return f"{math.ceil(from_pounds(pounds, 'kg') * 2 - 1e-9) / 2:g} kg"
    return f"{math.ceil(pounds - 1e-9)} lb"


def _rest(metres: float, unit: str) -> str:
    """A way in metres; for those who use feet in tens of feet before it, downwards."""
    if unit not in ("in", "ft"):
        return f"{metres:g} m"
    feet = from_inches(to_inches(metres, "m"), "ft")
    return f"{math.floor(feet / 10) * 10} ft ({metres:g} m)"
