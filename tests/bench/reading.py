"""Which lengths and weights a message holds: this reader beside general-purpose ones, in one run; and how it scales.

Run by hand: python tests/bench/reading.py [CASES.jsonl ...] [--peers PYTHON ...]
CASES hold a message a line with its right reading; without any, all in tests/replies/cases. PYTHON are interpreters of
environments into which the others were installed by hand (`pip install ms-recognizers-text-suite setuptools`;
`pip install quantulum3 setuptools unit-parse pint numerizer text2num pyduckling-native-phihos`); a reader that is in
none of them is named as left out.
Each runs in a process of its own with a time limit: one long hostile line can hold up some of them for minutes.

recall     amounts of the right reading that were found as length or weight with the right value (0.5 %)
precision  of what is reported as length or weight, how much is in the right reading
+bare      recall if each bare number were taken as inches or pounds, whichever fits
exact      messages with exactly the right set
"""

import argparse
import json
import re
import statistics
import subprocess
import sys
import time
import tomllib
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from selectors import EVENT_READ, DefaultSelector
from typing import Any

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from replies.reading.context import Asked, Channel, Context  # noqa: E402
from replies.reading.quantities import find_quantities  # noqa: E402
from replies.reading.read import read  # noqa: E402
from replies.reading.shapes import Shape  # noqa: E402
from replies.reading.tidy import tidy  # noqa: E402
from replies.reading.words import load_words  # noqa: E402
from sizing.measures import Measure  # noqa: E402
from sizing.units import to_inches, to_pounds  # noqa: E402
from tests.bench.peer_readers import READERS  # noqa: E402

Amount = tuple[str, float, float]
KINDS = {measure.value: "weight" if measure is Measure.WEIGHT else "length" for measure in Measure}
LIMIT_S = 20.0
SIZES_KB = (1, 10, 100, 1000)
WITHIN = 0.005
WRITTEN = re.compile(r"([0-9.]+(?:(?: or |-)[0-9.]+)?) ?([a-z]+)?")


@dataclass
class Case:
    """A message with the amounts that it holds; `either` may be found or left."""

    text: str
    channel: Channel
    asked: tuple[Asked, ...]
    amounts: list[Amount]
    either: list[Amount] = field(default_factory=list)


@dataclass
class Row:
    """What a reader found over all messages."""

    name: str
    found: list[list[Amount] | None] = field(default_factory=list)
    seconds: list[float] = field(default_factory=list)
    note: str = ""


def load(paths: list[Path]) -> list[Case]:
    cases = []
    for path in paths:
        seen: set[str] = set()
        for item in items(path):
            # Of a conversation only the first message: the right reading of a later one is that of all before it, too.
            conversation = item.get("conversation")
            if conversation in seen:
                continue
            seen.update([conversation] if conversation else [])
            cases.append(case_of(item))
    return cases


def items(path: Path) -> Iterator[dict[str, Any]]:
    text = path.read_text(encoding="utf-8")
    if path.suffix == ".toml":
        told = (case for case in tomllib.loads(text).get("case", []) if "text" in case)
        yield from ({**case, "dogs": [_in_figures(dog) for dog in case.get("dogs", [])]} for case in told)
        return
    yield from (json.loads(line) for line in text.splitlines() if line.strip())


def _in_figures(dog: dict[str, Any]) -> dict[str, Any]:
    """Give the values of a case, written as "33 cm", "15 or 13 in" or "12-13, vague", in inches and pounds."""
    return {key: _value(written, KINDS[key]) for key, written in dog.items() if key in KINDS}


def _value(written: str, kind: str) -> list[float]:
    ends, unit = WRITTEN.match(written).groups()  # type: ignore[union-attr]
    convert, shops = (to_pounds, "lb") if kind == "weight" else (to_inches, "in")
    values = [convert(float(end), unit or shops) for end in re.split(" or |-", ends)]
    return [min(values), max(values)]


def case_of(item: dict[str, Any]) -> Case:
    amounts: list[Amount] = []
    either: list[Amount] = []
    doubted = {doubt["key"] for doubt in item.get("doubt", []) if isinstance(doubt, dict) and doubt["why"] == "unit"}
    for dog in item.get("dogs", []):
        for key, value in {**dog, **dog.get("maybe", {})}.items():
            if key not in KINDS or value is None:
                continue
            low, high = value if isinstance(value, list) else (value, value)
            kind = KINDS[key]
            factor = 2.2046226 if kind == "weight" else 2.54
            forms = [(kind, low * f, high * f) for f in ((1.0, factor, 1 / factor) if key in doubted else (1.0,))]
            target = either if key in dog.get("maybe", {}) else amounts
            if not any(same(forms[0], other) for other in target):
                target.append(forms[0])
            either += forms[1:]
    asked = tuple(Asked(measure=Measure(key.split()[-1])) for key in item.get("asked", []) if key.split()[-1] in KINDS)
    return Case(item["text"], Channel(item.get("channel", "chat")), asked, amounts, either)


def same(one: Amount, other: Amount) -> bool:
    return one[0] == other[0] and all(abs(a - b) <= WITHIN * max(a, b) for a, b in zip(one[1:], other[1:], strict=True))


def our_quantities(case: Case) -> list[Amount]:
    found: list[Amount] = []
    for one in find_quantities(tidy(case.text)):
        if one.shape not in (Shape.AMOUNT, Shape.HASH) or one.restates:
            continue
        if one.unit is None or one.dimension is None:
            found.append(("bare", one.low, one.high))
        else:
            convert = to_inches if one.dimension == "length" else to_pounds
            found.append((one.dimension.value, convert(one.low, one.unit), convert(one.high, one.unit)))
    return found


def our_reading(case: Case) -> list[Amount]:
    context = Context(channel=case.channel, asked=case.asked)
    facts = [fact for dog in read(case.text, context, load_words()).dogs for fact in dog.facts]
    return [(KINDS[fact.measure.value], fact.amount.low, fact.amount.high) for fact in facts]


def run_ours(name: str, reader: Callable[[Case], list[Amount]], cases: list[Case]) -> Row:
    row = Row(name)
    for case in cases:  # the first pass only warms up
        reader(case)
    for case in cases:
        began = time.perf_counter()
        row.found.append(reader(case))
        row.seconds.append(time.perf_counter() - began)
    return row


def run_peer(name: str, python: str, cases: list[Case]) -> Row | None:
    """Run a reader in its own process; where it takes too long the process ends, and the next message begins anew."""
    row = Row(name)
    peer: Peer | None = None
    for case in cases:
        peer = peer or Peer.start(python, name)
        if peer is None:
            return None if not row.found else row
        answer = peer.ask(case.text)
        if answer is None:
            peer.stop()
            peer = None
            row.note = "stopped on some"
            row.found.append(None)
            continue
        row.seconds.append(answer[0])
        row.found.append([(kind, low, high) for kind, low, high in answer[1]] if answer[1] is not None else None)
    if peer:
        peer.stop()
    raised = sum(found is None for found in row.found)
    row.note = f"nothing read on {raised}" if raised else ""
    return row


class Peer:
    """One reader in its own process."""

    def __init__(self, process: "subprocess.Popen[str]") -> None:
        self.process = process

    @classmethod
    def start(cls, python: str, name: str) -> "Peer | None":
        process = subprocess.Popen(
            [python, str(Path(__file__).with_name("peer_readers.py")), name],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True,
        )  # fmt: skip
        peer = cls(process)
        return peer if peer.line(LIMIT_S * 3) == "ready" else None

    def line(self, limit: float) -> str | None:
        assert self.process.stdout is not None
        with DefaultSelector() as selector:
            selector.register(self.process.stdout, EVENT_READ)
            if not selector.select(limit):
                return None
        return self.process.stdout.readline().strip() or None

    def ask(self, text: str) -> tuple[float, list[Amount] | None] | None:
        assert self.process.stdin is not None
        try:
            self.process.stdin.write(json.dumps(text) + "\n")
            self.process.stdin.flush()
        except BrokenPipeError:
            return None
        line = self.line(LIMIT_S)
        return tuple(json.loads(line)) if line else None

    def stop(self) -> None:
        self.process.kill()
        self.process.wait()


def figures(row: Row, cases: list[Case]) -> str:
    right = reported = hit = good = bare = exact = 0
    for case, found in zip(cases, row.found, strict=True):
        told = [one for one in found or [] if one[0] != "bare"]
        naked = [
            (kind, low, high) for name, low, high in found or [] if name == "bare" for kind in ("length", "weight")
        ]
        right += len(case.amounts)
        here = [any(same(amount, one) for one in told) for amount in case.amounts]
        hit += sum(here)
        bare += sum(
            is_here or any(same(amount, one) for one in naked)
            for amount, is_here in zip(case.amounts, here, strict=True)
        )
        told = [one for one in told if not any(same(one, other) for other in case.either)]
        good_here = sum(any(same(one, amount) for amount in case.amounts) for one in told)
        good += good_here
        reported += len(told)
        exact += all(here) and good_here == len(told)
    speed = len(row.seconds) / sum(row.seconds)
    precision = good / reported if reported else 0.0
    return (
        f"{row.name:<22}{hit / right:8.1%}{precision:10.1%}{bare / right:8.1%}{exact / len(cases):8.1%}"
        f"{speed:9,.0f}{statistics.median(row.seconds) * 1e3:9.3f}{percentile(row.seconds) * 1e3:9.3f}   {row.note}"
    )


def percentile(seconds: list[float]) -> float:
    return sorted(seconds)[min(int(len(seconds) * 0.99), len(seconds) - 1)]


def slope(cases: list[Case]) -> None:
    """Time texts of 1 to 1,000 KB that are made of the messages one after another."""
    joined = "\n".join(case.text for case in cases if case.channel == Channel.CHAT)
    words = load_words()
    print(f"\n{'KB':>6}{'quantities s':>14}{'whole reading s':>17}{'reading ms/KB':>15}")
    for size in SIZES_KB:
        text = (joined * (size * 1000 // len(joined) + 1))[: size * 1000]
        began = time.perf_counter()
        find_quantities(tidy(text))
        quantities = time.perf_counter() - began
        began = time.perf_counter()
        read(text, Context(), words)
        whole = time.perf_counter() - began
        print(f"{size:>6}{quantities:>14.4f}{whole:>17.4f}{whole * 1e3 / size:>15.2f}")


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    arguments.add_argument("cases", nargs="*", type=Path)
    arguments.add_argument("--peers", nargs="*", default=[sys.executable], metavar="PYTHON")
    given = arguments.parse_args()
    folder = ROOT / "tests" / "replies" / "cases"
    paths = given.cases or sorted([*folder.glob("*.toml"), *folder.glob("*.jsonl")])
    cases = load(paths)
    print(f"{len(cases)} messages, {sum(len(case.amounts) for case in cases)} lengths and weights\n")
    print(f"{'reader':<22}{'recall':>8}{'precision':>10}{'+bare':>8}{'exact':>8}{'msg/s':>9}{'median':>9}{'p99 ms':>9}")
    print(figures(run_ours("ours: whole reading", our_reading, cases), cases))
    print(figures(run_ours("ours: quantities", our_quantities, cases), cases))
    for name in READERS:
        rows = (run_peer(name, python, cases) for python in given.peers)
        row = next((row for row in rows if row), None)
        print(figures(row, cases) if row else f"{name:<22} not installed", flush=True)
    slope(cases)


if __name__ == "__main__":
    main()
