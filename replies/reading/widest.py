"""Of widths taken at several places of the dog the widest counts: the dog must fit in with all of it."""

from collections.abc import Mapping, Sequence

from replies.reading.cues import Cue
from replies.reading.page import Candidate, Page
from replies.reading.units import InUnit
from replies.reading.zones import Zone, is_within, zones_of


def widest(page: Page, widths: Sequence[Candidate], numbers: Mapping[int, InUnit]) -> list[Candidate]:
    """Give the widest of several widths where each was taken somewhere else: "14 at the belly, 12 at the shoulders"."""
    hows = page.single.find(page.words.rivals.hows)
    places = [_places_in(page, zone, hows) for zone in zones_of(page, [one.number for one in widths], hows)]
    if not all(places) or all(place == places[0] for place in places):
        return list(widths)
    return [max(widths, key=lambda one: numbers[one.number].amount[1])]


def _places_in(page: Page, zone: Zone, hows: Sequence[Cue]) -> set[str]:
    """Give the words for places of the dog among those that belong to a value."""
    found = [hit for hit in hows if "place" in hit.names and is_within(hit, zone)]
    return {page.marks[at].text for hit in found for at in range(hit.first, hit.last + 1)}
