"""How well the judge tells measuring mistakes from unusual dogs, on simulated dogs; run by hand.

    python tests/bench/judging.py [DOGS]

Prints, in one run over the same dogs: false doubts by way of simulating, by build and on the hard sets; for each kind
of mistake the share that is doubted and the share whose right reason comes first, each with its standard error, the bar
and the ceiling of a likelihood ratio that knows the simulator; the same where more is known of a dog, and with each
dog's breed left out of the model.
"""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

# Started as a script, this folder would stand in the way of the package whose name one of its files has.
sys.path[:] = [entry for entry in sys.path if Path(entry).resolve() != Path(__file__).resolve().parent]

import numpy as np  # noqa: E402

import sizing.body as body  # noqa: E402
from sizing.body import ORDER  # noqa: E402
from sizing.doubt import Doubt  # noqa: E402
from sizing.judge import judge  # noqa: E402
from sizing.measures import Amount, Dog, Taken  # noqa: E402
from tests.bench import ceiling  # noqa: E402
from tests.bench.made_mistakes import KINDS, PAIRS, Made  # noqa: E402
from tests.bench.simulated import WAYS, Way, draw  # noqa: E402

SETS = {
    "dachshund": ("Dachshund",),
    "corgi": ("Corgi",),
    "giant": ("Great Dane", "Mastiff", "Irish Wolfhound", "Saint Bernard"),
    "tiny": ("Chihuahua", "Yorkshire", "Pomeranian", "Russian Toy", "Maltese", "Poodle (Toy)"),
}
BUILDS = {"ordinary": 5, "stout": 5, "leggy": 5, "long and low": 8}


@dataclass(frozen=True, kw_only=True)
class Rate:
    """A share of dogs in per cent."""

    hits: int
    of: int

    @property
    def percent(self) -> float:
        return 100 * self.hits / max(1, self.of)

    def __str__(self) -> str:
        # One hit more and one miss more keep the error of 0 and of 100 % from looking like none.
        p = (self.hits + 1) / (self.of + 2)
        return f"{self.percent:5.1f} ±{100 * (p * (1 - p) / (self.of + 2)) ** 0.5:3.1f}"


def rate(hits: "np.ndarray | list[bool]") -> Rate:
    return Rate(hits=int(np.sum(hits)), of=len(hits))


def doubts(row: np.ndarray, *, breeds: tuple[str, ...] = (), girth: bool = False) -> tuple[Doubt, ...]:
    values = zip(ORDER[: 6 if girth else 5], row.tolist(), strict=False)
    return judge(Dog(measures={m: Taken(amount=Amount.exactly(v)) for m, v in values}, breeds=breeds))


@dataclass(frozen=True, kw_only=True)
class Stock:
    """Sound dogs of all ways of simulating, as they were told."""

    told: np.ndarray
    breeds: list[str]
    builds: np.ndarray
    ways: np.ndarray


def stock(count: int, seed: int) -> Stock:
    drawn = [draw(count // len(WAYS), seed + number, way) for number, way in enumerate(WAYS.values())]
    return Stock(
        told=np.vstack([dogs.told for dogs in drawn]),
        breeds=[breed for dogs in drawn for breed in dogs.breeds],
        builds=np.concatenate([dogs.builds for dogs in drawn]),
        ways=np.repeat(list(WAYS), [len(dogs.told) for dogs in drawn]),
    )


def show_false_doubts(dogs: Stock) -> float:
    """Print the false doubts; give their share."""
    false = np.array([bool(doubts(row)) for row in dogs.told])
    print(f"FALSE DOUBTS, % (bar)          all {rate(false)} (2)")
    for build, bar in BUILDS.items():
        print(f"  {build:28} {rate(false[dogs.builds == build])} ({bar})")
    for way in WAYS:
        print(f"  simulated {way:18} {rate(false[dogs.ways == way])}")
    usual = WAYS["as pets weigh"]
    for name, breeds in SETS.items():
        rows = np.vstack([draw(600 // len(breeds), 7, usual, only=breed).told for breed in breeds])
        print(f"  {name:28} {rate([bool(doubts(row)) for row in rows])} (4)")
    fat = draw(600, 8, Way(pets=(usual.pets[0] + 0.3, usual.pets[1]))).told
    print(f"  {'fat, x1.35':28} {rate([bool(doubts(row)) for row in fat])} (4)")
    return float(false.mean())


def made(kind: Made, dogs: Stock, count: int, seed: int) -> tuple[np.ndarray, np.ndarray]:
    """Make a mistake on dogs of all ways alike; give their numbers and what was told."""
    rng = np.random.default_rng(seed)
    numbers = kind.dogs(dogs.told)
    numbers = rng.permutation(numbers)[:count]
    told = dogs.told[numbers].copy()
    kind.make(rng, told)
    return numbers, told


def show_mistakes(dogs: Stock, false: float, count: int) -> None:
    more = stock(40_000, 900)
    mixture = ceiling.fitted(np.log(more.told))
    sound = np.logaddexp.reduce(ceiling.evidence(mixture, dogs.told, KINDS), axis=1)
    least = np.quantile(sound, 1 - false)
    print(f"\n{'MISTAKES, %':30} {'doubted':>11} bar  ceiling | {'reason first':>12} bar  ceiling | either of two, bar")
    means = []
    for kind in KINDS:
        _, told = made(kind, dogs, count, 3)
        found = [doubts(row) for row in told]
        doubted = rate([bool(one) for one in found])
        first = rate([bool(one) and one[0].why in kind.reasons for one in found])
        either = rate([bool(one) and one[0].why in PAIRS.get(kind.name, kind.reasons) for one in found])
        best = ceiling.evidence(mixture, told, KINDS)
        seen = np.logaddexp.reduce(best, axis=1) >= least
        same = [number for number, other in enumerate(KINDS) if set(other.reasons) & set(kind.reasons)]
        named = seen & np.isin(best.argmax(axis=1), same)
        pair = f" | {either} {kind.either:g}" if kind.either else ""
        print(
            f"{kind.name:30} {doubted} {kind.doubted:4g} {100 * seen.mean():6.1f} {_mark(doubted, kind.doubted)}"
            f" | {first} {kind.first:4g} {100 * named.mean():6.1f} {_mark(first, kind.first)}{pair}"
        )
        means.append((doubted.percent, 100 * seen.mean(), first.percent, 100 * named.mean()))
    d, dc, f, fc = np.mean(means, axis=0)
    print(f"{'mean over kinds':30} {d:5.1f}        97 {dc:6.1f}   | {f:5.1f}        91 {fc:6.1f}")


def _mark(got: Rate, bar: float) -> str:
    return " " if got.percent >= bar else "<"


def show_knowing_more(dogs: Stock, count: int) -> None:
    print("\nMEAN OVER KINDS, %              doubted  reason first  false")
    for name, breed, girth in (("as told", False, False), ("breed named", True, False), ("girth told", False, True)):
        print(f"  {name:28} {_means(dogs, count, breed=breed, girth=girth)}")


def _means(dogs: Stock, count: int, *, breed: bool, girth: bool) -> str:
    def look(number: int, row: np.ndarray, told_girth: bool) -> tuple[Doubt, ...]:
        return doubts(row, breeds=(dogs.breeds[number],) if breed else (), girth=told_girth)

    means = []
    for kind in KINDS:
        numbers, told = made(kind, dogs, count, 5)
        found = [look(n, row, girth and kind.name != "around for across") for n, row in zip(numbers, told, strict=True)]
        means.append(
            (
                np.mean([bool(one) for one in found]),
                np.mean([bool(one) and one[0].why in kind.reasons for one in found]),
            )
        )
    false = np.mean([bool(look(number, dogs.told[number], girth)) for number in range(0, len(dogs.told), 5)])
    doubted, first = 100 * np.mean(means, axis=0)
    return f"{doubted:7.1f} {first:10.1f} {100 * false:9.1f}"


@contextmanager
def left_out(breed: str) -> Iterator[None]:
    """Take a breed out of the body model for a while."""
    whole = body._kernels
    breeds, shares, means, covariances = whole()
    keep = np.array([name != breed.casefold() for name in breeds])
    rest = tuple(name for name in breeds if name != breed.casefold())
    part = (rest, shares[keep] / shares[keep].sum(), means[keep], covariances[keep])
    body._kernels = lambda: part  # type: ignore[assignment]
    _forget()
    try:
        yield
    finally:
        body._kernels = whole
        _forget()


def _forget() -> None:
    for cached in (body.population, body._log_shares, body._quadratics):
        cached.cache_clear()


def show_left_out(dogs: Stock, count: int) -> None:
    """Print the means with each dog's own breed left out of the model."""
    by_breed: dict[str, list[int]] = {}
    for number, breed in enumerate(dogs.breeds):
        if breed:
            by_breed.setdefault(breed, []).append(number)
    hits = {kind.name: [0, 0, 0] for kind in KINDS}
    for breed, numbers in by_breed.items():
        rows = dogs.told[numbers[:count]]
        with left_out(breed):
            for kind in KINDS:
                told = rows[kind.dogs(rows)].copy()
                kind.make(np.random.default_rng(6), told)
                found = [doubts(row) for row in told]
                hits[kind.name][0] += len(found)
                hits[kind.name][1] += sum(bool(one) for one in found)
                hits[kind.name][2] += sum(bool(one) and one[0].why in kind.reasons for one in found)
    shares = [(doubted / of, first / of) for of, doubted, first in hits.values() if of]
    doubted, first = 100 * np.mean(shares, axis=0)
    print(f"  {'breed left out of the model':28} {doubted:7.1f} {first:10.1f}   (bars 97, 90)")


def main() -> None:
    """Run the whole examination."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    dogs = stock(count, 1)
    false = show_false_doubts(dogs)
    show_mistakes(dogs, false, count // 10)
    show_knowing_more(dogs, count // 40)
    show_left_out(dogs, max(2, count // 2000))


if __name__ == "__main__":
    main()
