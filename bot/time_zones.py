"""Places of the tz database, and which one was meant by a name that is not among them."""

from difflib import get_close_matches
from zoneinfo import available_timezones

EXAMPLE = 'a place, such as "Europe/London" or "America/Denver"'


def is_zone(name: str) -> bool:
    """Tell whether a name is in the tz database."""
    return name in available_timezones()


def meant(name: str) -> str:
    """Say what would be right in the place of a name that is no time zone.

    >>> meant("Oslo")
    'did you mean Europe/Oslo?'
    """
    zones = sorted(available_timezones())
    town = _as_spoken(name.rpartition("/")[2])
    same = [zone for zone in zones if _as_spoken(zone.rpartition("/")[2]) == town]
    close = get_close_matches(name, same, n=1, cutoff=0) or get_close_matches(name, zones, n=1, cutoff=0.5)
    return f"did you mean {close[0]}?" if close else EXAMPLE


def _as_spoken(town: str) -> str:
    return town.replace("_", " ").strip().casefold()
