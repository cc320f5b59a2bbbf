"""How long it takes to assess a dog, beside the bare arithmetic of the outcome rules; run by hand.

    python tests/bench/sizing.py [DOGS]

Both do the same dogs in one run, so that the ratio holds on any machine. The bare arithmetic is the shortest plain
Python that gives the same outcomes: no types, no notes, no caution, no doubts, no probability.
"""

import cProfile
import pstats
import random
import sys
import time
from collections.abc import Callable
from datetime import date
from math import ceil, floor, pi, sqrt
from pathlib import Path

# Started as a script, this file would stand in the way of the package of its name.
sys.path[:] = [entry for entry in sys.path if Path(entry).resolve() != Path(__file__).resolve().parent]

from sizing.assess import assess  # noqa: E402
from sizing.chart import Shop, builtin_shop  # noqa: E402
from sizing.fit import body_of, fit  # noqa: E402
from sizing.judge import judge  # noqa: E402
from sizing.matters import matters_for  # noqa: E402
from sizing.measures import Amount, Dog, Measure, Taken  # noqa: E402
from sizing.outcome import Kind  # noqa: E402
from sizing.sure import how_sure  # noqa: E402

ON = date(2026, 3, 1)
ORDER = (Measure.LENGTH, Measure.WIDTH, Measure.HEIGHT, Measure.THROAT_HEIGHT, Measure.WEIGHT)


def dogs(count: int) -> list[Dog]:
    """Ordinary dogs 6 to 17 in tall, to the eighth of an inch; their weight from girth and length."""
    draw = random.Random(20260301)
    made = []
    for _ in range(count):
        height = draw.uniform(6, 17)
        length, width, throat = (
            height * draw.gauss(mean, spread) for mean, spread in ((1.10, 0.1), (0.385, 0.03), (0.73, 0.03))
        )
        girth = pi * sqrt((width**2 + (height / 2) ** 2) / 2)
        weight = girth**2 * length / 290 * draw.lognormvariate(0, 0.15)
        values = [round(8 * value) / 8 for value in (length, width, height, throat, weight)]
        made.append(Dog(measures={m: Taken(amount=Amount.exactly(v)) for m, v in zip(ORDER, values, strict=True)}))
    return made


def bare(dog: tuple[float, ...], shop: Shop) -> str:
    """Give the kind of outcome, with nothing but the arithmetic that it takes."""
    length, width, height, throat, weight = dog
    e, pad, step = shop.ease, shop.pad, shop.step
    spans = [
        (ease.least.add + ease.least.share * m, ease.aim.add + ease.aim.share * m, ease.most.add + ease.most.share * m)
        for ease, m in ((e.length, length), (e.width, width), (e.height, height), (e.drop, height))
    ]
    elbow = pad + shop.elbow * height
    best: tuple[float, str] | None = None
    altered = right = False
    for size in shop.sizes:
        inside = size.inside
        slacks = (inside.length - length, inside.width - width, inside.height - pad - height)
        if all(low <= s <= high for s, (low, _, high) in zip(slacks, spans, strict=False)):
            right = True
            if size.rated_load is None or weight <= size.rated_load:
                altered, drop = True, throat + pad - size.opening
                if spans[3][0] <= drop <= spans[3][2] and size.opening >= elbow:
                    all_four = (*slacks, drop)
                    far = sum(
                        ((s - aim) / (high - low)) ** 2 for s, (low, aim, high) in zip(all_four, spans, strict=True)
                    )
                    best = min(best or (far, size.name), (far, size.name))
    if best:
        return Kind.STANDARD
    if altered or right:
        return Kind.ALTERED_OPENING if altered else Kind.NOT_SAFE
    cut = []
    for base, (low, aim, high) in zip((length, width, height + pad), spans, strict=False):
        steps = min(max(floor((base + aim) / step + 0.5), ceil((base + low) / step)), floor((base + high) / step))
        cut.append(steps * step)
    least, most = shop.sewn.least, shop.sewn.most
    ends = ((least.length, most.length), (least.width, most.width), (least.height, most.height))
    inside_ends = all(low <= c <= high for c, (low, high) in zip(cut, ends, strict=True))
    low = max(elbow, throat + pad - spans[3][2])
    first, last = ceil(low / step), floor((throat + pad - spans[3][0]) / step)
    opening = min(max(floor(max(elbow, throat + pad - spans[3][1]) / step + 0.5), first), last) * step
    cuttable = first > last or least.opening <= opening <= most.opening
    return Kind.MADE_TO_MEASURE if inside_ends and cuttable else Kind.OUTSIDE_RANGE


def timed(parts: dict[str, Callable[[int], object]], count: int, *, rounds: int = 5) -> dict[str, float]:
    """Give the milliseconds that one call takes, the best of the rounds; the parts take turns in each round."""
    best = dict.fromkeys(parts, float("inf"))
    for _ in range(rounds):
        for name, work in parts.items():
            start = time.perf_counter()
            for index in range(count):
                work(index)
            best[name] = min(best[name], 1000 * (time.perf_counter() - start) / count)
    return best


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    shop, told = builtin_shop(), dogs(count)
    bodies = [body_of(dog) for dog in told]
    plain = [(b.length, b.width, b.height, b.throat_height, b.weight) for b in bodies]
    fitted = [fit(body, shop) for body in bodies]
    served = [n for n, outcome in enumerate(fitted) if outcome.inside and outcome.opening]
    differ = sum(bare(dog, shop) != outcome.kind for dog, outcome in zip(plain, fitted, strict=True))

    def sure(n: int) -> object:
        index = served[n % len(served)]
        outcome = fitted[index]
        return how_sure(told[index], outcome.inside, outcome.opening, shop=shop)  # type: ignore[arg-type]

    parts: dict[str, Callable[[int], object]] = {
        "bare arithmetic of the rules": lambda n: bare(plain[n], shop),
        "fit: the rules, with slacks kept": lambda n: fit(bodies[n], shop),
        "how sure": sure,
        "judge: all hypotheses": lambda n: judge(told[n], matters=matters_for(told[n], shop)),
        "assess: everything": lambda n: assess(told[n], shop, ON),
    }
    assess(told[0], shop, ON)  # tables are read once
    taken = timed(parts, count)
    first = next(iter(taken.values()))
    print(f"{count} dogs, {len(shop.sizes)} sizes; outcomes that differ from the bare arithmetic: {differ}")
    for name, each in taken.items():
        print(f"  {name:34} {each:8.4f} ms a dog  {each / first:7.1f} x")
    doubted = sum(bool(assess(dog, shop, ON).doubts) for dog in told)
    print(f"  doubted: {100 * doubted / count:.1f} % (an outcome is worked out for the others)")
    with cProfile.Profile() as profile:
        for dog in told[:500]:
            assess(dog, shop, ON)
    print("What dominates:")
    pstats.Stats(profile).sort_stats("tottime").print_stats(8)


if __name__ == "__main__":
    main()
