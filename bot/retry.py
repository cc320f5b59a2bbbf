"""When to try again what has surely not gone, in seconds. Pure; the chance is handed in."""

FIRST_S = 2.0
LONGEST_S = 900.0
MOST_ATTEMPTS = 100
"""About a day with the waits below; after that the maker is told instead."""


def wait_s(attempts: int, chance: float, *, asked_s: float | None = None) -> float:
    """Give how long to wait before the next attempt.

    attempts   made so far, from 1
    chance     from 0 to 1, so that many do not come back at the same moment
    asked_s    how long the channel asked to wait, at least; None: it did not say
    Returns    half to the whole of a span that doubles each time, up to a quarter of an hour

    >>> wait_s(1, 1.0), wait_s(3, 0.0), wait_s(50, 1.0), wait_s(1, 0.5, asked_s=30)
    (2.0, 4.0, 900.0, 31.5)
    """
    span = min(LONGEST_S, FIRST_S * 2.0 ** min(attempts - 1, 20))
    wait = span * (0.5 + chance / 2)
    return wait if asked_s is None else asked_s + wait
