"""The outcome rules against a second statement of them, in exact fractions and by trying everything.

It is written from the rules as the workshop states them, not from the engine: sizes and cutting steps are enumerated,
nothing is rounded, and no code of the engine is used but the data that goes in.
"""

from collections.abc import Iterator
from fractions import Fraction
from itertools import count
from typing import Any

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from sizing.chart import Shop, builtin_shop
from sizing.fit import Body, fit
from sizing.outcome import Outcome
from tests.sizing.shops import shop

DIRECTIONS = ("length", "width", "height")
Chart = dict[str, Any]


def exact(value: Any) -> Any:
    """Turn every number of a chart into the fraction that was typed."""
    if isinstance(value, dict):
        return {key: exact(below) for key, below in value.items()}
    if isinstance(value, (list, tuple)):
        return [exact(below) for below in value]
    return Fraction(repr(value)) if isinstance(value, (int, float)) and not isinstance(value, bool) else value


def part(ease: Chart, measure: Fraction) -> Fraction:
    return ease["add"] + ease["share"] * measure


def slack(dog: Chart, carrier: Chart, direction: str, chart: Chart) -> Fraction:
    under = chart["pad"] if direction == "height" else Fraction(0)
    return carrier["inside"][direction] - under - dog[direction]


def drop(dog: Chart, opening: Fraction, chart: Chart) -> Fraction:
    return dog["throat_height"] + chart["pad"] - opening


def ends(dog: Chart, direction: str, chart: Chart) -> tuple[Fraction, Fraction, Fraction]:
    measure = dog["height"] if direction == "drop" else dog[direction]
    ease = chart["ease"][direction]
    return part(ease["least"], measure), part(ease["aim"], measure), part(ease["most"], measure)


def is_right(value: Fraction, span: tuple[Fraction, Fraction, Fraction]) -> bool:
    return span[0] <= value <= span[2]


def roomy_enough(dog: Chart, size: Chart, chart: Chart) -> bool:
    return all(is_right(slack(dog, size, d, chart), ends(dog, d, chart)) for d in DIRECTIONS)


def holds(dog: Chart, size: Chart) -> bool:
    return size["rated_load"] is None or dog["weight"] <= size["rated_load"]


def elbow(dog: Chart, chart: Chart) -> Fraction:
    return chart["pad"] + chart["elbow"] * dog["height"]


def distance(dog: Chart, size: Chart, chart: Chart, *, with_drop: bool) -> Fraction:
    values = [(slack(dog, size, d, chart), ends(dog, d, chart)) for d in DIRECTIONS]
    if with_drop:
        values.append((drop(dog, size["opening"], chart), ends(dog, "drop", chart)))
    return sum((((value - aim) / (most - least)) ** 2 for value, (least, aim, most) in values), Fraction(0))


def volume(carrier: Chart) -> Fraction:
    inside = carrier["inside"]
    return inside["length"] * inside["width"] * inside["height"]


def steps(step: Fraction, highest: Fraction) -> Iterator[Fraction]:
    for n in count(0):
        if n * step > highest + step:
            return
        yield n * step


def cut_inside(dog: Chart, direction: str, chart: Chart) -> Fraction:
    least, aim, most = ends(dog, direction, chart)
    base = dog[direction] + (chart["pad"] if direction == "height" else Fraction(0))
    every = list(steps(chart["step"], base + most))
    nearest = max(min(abs(s - base - aim) for s in every), Fraction(0))
    chosen = max(s for s in every if abs(s - base - aim) == nearest)
    if chosen - base < least:
        return min(s for s in every if s - base >= least)
    if chosen - base > most:
        return max(s for s in every if s - base <= most)
    return chosen


def cut_opening(dog: Chart, carrier_height: Fraction, chart: Chart) -> Fraction | None:
    least, aim, most = ends(dog, "drop", chart)
    hollow = dog["throat_height"] + chart["pad"]
    target = max(hollow - aim, elbow(dog, chart))
    low, high = max(elbow(dog, chart), hollow - most), hollow - least
    allowed = [s for s in steps(chart["step"], high) if low <= s <= high and s < carrier_height]
    if not allowed:
        return None
    nearest = min(abs(s - target) for s in allowed)
    return max(s for s in allowed if abs(s - target) == nearest)


def serve(dog: Chart, chart: Chart) -> tuple[Any, ...]:
    """Give kind, size, fallback, inside, opening, concern."""
    sizes = sorted(chart["sizes"], key=volume)
    right = [size for size in sizes if roomy_enough(dog, size, chart)]
    standard = [
        size
        for size in right
        if holds(dog, size)
        and is_right(drop(dog, size["opening"], chart), ends(dog, "drop", chart))
        and size["opening"] >= elbow(dog, chart)
    ]
    if standard:
        best = min(standard, key=lambda size: (distance(dog, size, chart, with_drop=True), volume(size)))
        return "standard", best["name"], None, best["inside"], best["opening"], None
    holding = [size for size in right if holds(dog, size)]
    if holding:
        best = min(holding, key=lambda size: (distance(dog, size, chart, with_drop=False), volume(size)))
        opening = cut_opening(dog, best["inside"]["height"], chart)
        return "altered_opening", best["name"], None, best["inside"], opening, None if opening else "opening"
    if right:
        return "not_safe", None, None, None, None, None
    return to_measure(dog, sizes, chart)


def to_measure(dog: Chart, sizes: list[Chart], chart: Chart) -> tuple[Any, ...]:
    inside = {d: cut_inside(dog, d, chart) for d in DIRECTIONS}
    opening = cut_opening(dog, inside["height"], chart)
    least, most = chart["sewn"]["least"], chart["sewn"]["most"]
    outside = any(not least[d] <= inside[d] <= most[d] for d in DIRECTIONS)
    if outside or (opening is not None and not least["opening"] <= opening <= most["opening"]):
        return "outside_range", None, None, None, None, None
    rated = chart["made_to_measure_rated_load"]
    if rated is not None and dog["weight"] > rated:
        return "not_safe", None, None, None, None, None
    tight_nowhere = [
        size["name"]
        for size in sizes
        if holds(dog, size)
        and all(slack(dog, size, d, chart) >= ends(dog, d, chart)[0] for d in DIRECTIONS)
        and drop(dog, size["opening"], chart) >= ends(dog, "drop", chart)[0]
    ]
    fallback = tight_nowhere[0] if tight_nowhere else None
    return "made_to_measure", None, fallback, inside, opening, None if opening else "opening"


def told(outcome: Outcome) -> tuple[Any, ...]:
    inside = outcome.inside and {d: exact(getattr(outcome.inside, d)) for d in DIRECTIONS}
    opening = None if outcome.opening is None else exact(outcome.opening)
    return outcome.kind.value, outcome.size, outcome.fallback, inside, opening, outcome.concern


def agree(dog: Body, chart: Shop) -> bool:
    fields = ("length", "width", "height", "throat_height", "weight")
    return told(fit(dog, chart)) == serve(exact({f: getattr(dog, f) for f in fields}), exact(chart.model_dump()))


def eighths(low: float, high: float) -> st.SearchStrategy[float]:
    return st.integers(round(low * 8), round(high * 8)).map(lambda n: n / 8)


@st.composite
def dogs(draw: st.DrawFn) -> Body:
    """Real builds and odd ones; on eighths, so that limits are met exactly."""
    height = draw(eighths(3, 28))
    ordinary = draw(st.booleans())
    length, width, throat = (0.8, 1.9), (0.25, 0.6), (0.55, 0.9)
    if ordinary:
        length, width, throat = (1.0, 1.25), (0.34, 0.43), (0.68, 0.78)
    return Body(
        length=draw(eighths(height * length[0], height * length[1])),
        width=max(0.125, draw(eighths(height * width[0], height * width[1]))),
        height=height,
        throat_height=draw(eighths(height * throat[0], height * throat[1])),
        weight=draw(eighths(1, 60)),
    )


@st.composite
def eases(draw: st.DrawFn, step: float) -> dict[str, dict[str, float]]:
    least, share, more = draw(eighths(0, 1)), draw(st.integers(0, 6)), draw(st.integers(0, 6))
    aim = least + draw(eighths(0, 1))
    most = max(aim, least + step) + draw(eighths(0, 2))
    return {  # shares in whole hundredths, as a maker types them: 0.06 + 0.04 would not be 0.1
        "least": {"add": least, "share": share / 100},
        "aim": {"add": aim, "share": (share + more) / 100},
        "most": {"add": most, "share": (share + more + 4) / 100},
    }


@st.composite
def meetings(draw: st.DrawFn) -> tuple[Body, Shop]:
    """A dog and a shop of any kind whose sizes lie about what the dog needs, some just right, some just not."""
    dog, step = draw(dogs()), draw(st.sampled_from([0.125, 0.25, 0.5]))
    ease = {direction: draw(eases(step)) for direction in (*DIRECTIONS, "drop")}
    pad, loads = draw(eighths(0, 1)), st.none() | eighths(max(1, dog.weight - 3), dog.weight + 3)
    sizes = [draw(sizes_about(dog, ease, pad)) | {"name": f"{n}", "rated_load": draw(loads)} for n in range(4)]
    sizes.sort(key=lambda one: volume(exact(one)))
    assume(len({volume(exact(one)) for one in sizes}) == len(sizes))
    drawn = {"ease": ease, "pad": pad, "step": step, "sizes": sizes, "made_to_measure_rated_load": draw(loads)}
    least = {"length": draw(eighths(1, 8)), "width": 1, "height": 2, "opening": 1}
    most = {"length": 60, "width": 40, "height": 50, "opening": draw(eighths(6, 30))}
    return dog, shop(**drawn, elbow=draw(st.integers(40, 56)) / 100, sewn={"least": least, "most": most})


@st.composite
def sizes_about(draw: st.DrawFn, dog: Body, ease: Chart, pad: float) -> Chart:
    """Draw a size whose room lies between least and most, or a little beside, in each direction."""

    def about(direction: str, measure: float) -> float:
        low, high = (part(ease[direction][end], measure) for end in ("least", "most"))
        return draw(eighths(low - 0.2, high + 0.2))

    inside = {d: max(0.5, getattr(dog, d) + about(d, getattr(dog, d))) for d in DIRECTIONS}
    inside["height"] += pad
    opening = max(pad + 0.125, dog.throat_height + pad - about("drop", dog.height))
    assume(opening < inside["height"])
    return {"inside": inside, "opening": opening, "empty_weight": 1.5}


@settings(max_examples=600, deadline=None)
@given(dogs())
def test_the_built_in_chart_serves_every_dog_as_the_rules_say(dog: Body) -> None:
    assert agree(dog, builtin_shop())


@settings(max_examples=600, deadline=None)
@given(meetings())
def test_any_chart_serves_any_dog_as_the_rules_say(meeting: tuple[Body, Shop]) -> None:
    assert agree(*meeting)


def test_every_outcome_is_reached_by_an_ordinary_chart() -> None:
    loaded = shop(sizes=[one.model_dump() | {"rated_load": 30.0} for one in builtin_shop().sizes])
    cases = {
        "standard": Body(length=12, width=4, height=10, throat_height=7.25, weight=10),
        "altered_opening": Body(length=12, width=4, height=10, throat_height=9.5, weight=10),
        "made_to_measure": Body(length=14.5, width=5.75, height=11, throat_height=8, weight=13),
        "not_safe": Body(length=12, width=4, height=10, throat_height=7.25, weight=31),
        "outside_range": Body(length=32, width=10, height=25, throat_height=18, weight=60),
    }

    assert {kind: fit(dog, loaded).kind.value for kind, dog in cases.items()} == {kind: kind for kind in cases}
    assert all(agree(dog, loaded) for dog in cases.values())
