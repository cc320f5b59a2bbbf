"""How long small commands take from nothing, beside importing the three libraries that they cannot do without.

Run by hand: python tests/bench/cold_start.py. They are run in turn, so that whatever else the machine does falls on all
of them; `tapeline size` is meant to take at most 1.5 times as long.
"""

import os
import statistics
import subprocess
import sys
import time

ROUNDS = 15
MEASURES = ["--length", "14.5in", "--height", "11in", "--width", "5.75in", "--throat", "8in", "--weight", "13lb"]
BASE = [sys.executable, "-c", "import click, pydantic, pint"]
COMMANDS = {
    "tapeline --help": [sys.executable, "-m", "bot", "--help"],
    "tapeline size": [sys.executable, "-m", "bot", "size", *MEASURES],
    "tapeline size --json": [sys.executable, "-m", "bot", "size", *MEASURES, "--json"],
}


def seconds(command: list[str]) -> float:
    # What is installed is compiled once and for all; so it is here, whatever this shell says of it.
    environment = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    began = time.perf_counter()
    subprocess.run(command, check=True, capture_output=True, env=environment)
    return time.perf_counter() - began


def main() -> None:
    took: dict[str, list[float]] = {name: [] for name in ("base", *COMMANDS)}
    for _ in range(ROUNDS):
        took["base"].append(seconds(BASE))
        for name, command in COMMANDS.items():
            took[name].append(seconds(command))
    base = statistics.median(took["base"])
    print(f"{'import click, pydantic, pint':<30} {base * 1000:6.0f} ms")
    for name in COMMANDS:
        median = statistics.median(took[name])
        print(f"{name:<30} {median * 1000:6.0f} ms   {median / base:.2f} times")


if __name__ == "__main__":
    main()
