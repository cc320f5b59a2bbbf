"""Decides which of several values of one measure counts: the one taken well, or the one the customer points to.

Where neither settles it all of them stay, and the maker is told that they contradict one another.
"""

from collections.abc import Iterator, Sequence

from replies.reading.cues import Cue, SingleWords
from replies.reading.facts import Manner, SetAside
from replies.reading.marks import NUMBER, PHRASE, STOP
from replies.reading.page import Candidate, Page
from replies.reading.small_words import Small
from replies.reading.zones import Zone, is_within, zones_of

_MOST = 6
"""Nobody takes one measure more often."""
_REACH = 6
"""So many marks beside "trust", "is right" say which value is meant."""
_SETTLED = "the customer settles on another value"


def settle_rivals(page: Page) -> None:
    """Set aside the values that give way to another one of the same measure and dog."""
    groups = [group for group in values_told(page) if _differ(page, group) and not _is_corrected(group)]
    if not groups:
        return
    hows = page.single.find(page.words.rivals.hows)
    points = _points(page)
    for group in groups:
        zones = zones_of(page, [one.number for one in group], hows)
        left = _pointed_to(page, group, zones, points)
        if len(left) == len(group):
            left = _well_taken(page, group, zones, hows)
        if left and not _differ(page, left):
            for one in group:
                if one not in left:
                    one.leave(SetAside.WITHDRAWN, _SETTLED)


def _points(page: Page) -> list[Cue]:
    """Find the words that point to a value; "take two" only says which try it is."""
    tries = {at for hit in page.tries for at in range(hit.first, hit.last + 1)}
    found = page.single.find(page.words.rivals.points)
    return [hit for hit in found if hit.first not in tries]


def _is_corrected(group: list[Candidate]) -> bool:
    """Let a value that corrects the one before it take the place of all before it: "so call it 12.5"."""
    if group[-1].manner is not Manner.CORRECTION or group[-1].replaces is None:
        return False
    for one in group[:-1]:
        one.leave(SetAside.WITHDRAWN, "the customer corrects it")
    return True


def values_told(page: Page) -> Iterator[list[Candidate]]:
    """Give the values of each measure of each dog of which several are told, in order."""
    told: dict[tuple[tuple[int, ...], str], list[Candidate]] = {}
    for one in page.candidates:
        if one.aside is None and one.measure is not None and one.dogs and not one.older:
            told.setdefault((one.dogs, one.measure), []).append(one)
    yield from (group for group in told.values() if 1 < len(group) <= _MOST)


def _differ(page: Page, group: Sequence[Candidate]) -> bool:
    return len({_value(page, one) for one in group}) > 1


def _value(page: Page, one: Candidate) -> tuple[float, float, str | None]:
    quantity = page.quantities.found[one.number]
    return quantity.low, quantity.high, quantity.unit


def _pointed_to(page: Page, group: list[Candidate], zones: Sequence[Zone], points: Sequence[Cue]) -> list[Candidate]:
    """Give the values that are left when the customer has pointed to some, or away from some."""
    chosen: set[int] = set()
    refused: set[int] = set()
    for hit in points:
        if "open" in hit.names or _is_open(hit, points):
            continue
        if hit.names & {"to", "off"}:
            meant = _meant(page, group, zones, _behind(page, hit), hit)
            (refused if "off" in hit.names else chosen).update(meant)
        else:
            meant = _meant(page, group, zones, _before(page, hit), hit)
            (refused if "wrong" in hit.names else chosen).update(meant)
    if chosen:
        return [one for at, one in enumerate(group) if at in chosen]
    return [one for at, one in enumerate(group) if at not in refused]


def _is_open(hit: Cue, hits: Sequence[Cue]) -> bool:
    """Is it only asked, or not known: "no idea which of us is right"."""
    return any("open" in one.names and one is not hit and 0 <= hit.first - one.last <= _OPEN_REACH for one in hits)


_OPEN_REACH = 3


def _behind(page: Page, hit: Cue) -> range:
    for at in range(hit.last + 1, min(hit.last + 1 + _REACH, len(page.marks))):
        if page.marks[at].kind == STOP:
            return range(hit.last + 1, at)
    return range(hit.last + 1, min(hit.last + 1 + _REACH, len(page.marks)))


def _before(page: Page, hit: Cue) -> range:
    for at in range(hit.first - 1, max(hit.first - 1 - _REACH, -1), -1):
        if page.marks[at].kind in (STOP, NUMBER) or page.marks[at].among(Small.PARTS_VALUES):
            return range(at + 1, hit.first)
    return range(max(0, hit.first - _REACH), hit.first)


def _meant(page: Page, group: Sequence[Candidate], zones: Sequence[Zone], within: range, hit: Cue) -> set[int]:
    """Give the places in the group of the values that are named: "the second", "the bigger one", "the vet one"."""
    marks = [page.marks[at] for at in within]
    for mark in marks:
        if mark.kind == NUMBER:
            low = page.quantities.found[mark.quantity].low
            return {at for at, one in enumerate(group) if page.quantities.found[one.number].low == low}
    said = SingleWords.of(marks, page.tidied.folded).find(page.words.rivals.meant)
    names = {name for hit in said for name in hit.names}
    if names:
        return _in_order(page, group, names)
    words = {word for mark in marks if mark.kind == PHRASE for word in mark.text.split()} - page.words.rivals.empty
    stems = {_stem(word) for word in words}
    own = {*within, *range(hit.first, hit.last + 1)}
    found = {at for at, zone in enumerate(zones) if stems & _stems(page, zone, own)}
    return found if len(found) < len(group) else set()


def _stems(page: Page, zone: Zone, without: set[int]) -> set[str]:
    marks = [page.marks[at] for at in range(*zone) if at not in without]
    return {_stem(word) for mark in marks if mark.kind == PHRASE for word in mark.text.split()}


def _stem(word: str) -> str:
    """Give a word without the s of "the vet's"."""
    return word[:-1] if len(word) > 3 and word.endswith("s") else word


def _in_order(page: Page, group: Sequence[Candidate], names: set[str]) -> set[int]:
    sizes = [page.quantities.found[one.number].low for one in group]
    places = {"first": 0, "second": 1, "last": len(group) - 1}
    places |= {"small": sizes.index(min(sizes)), "large": sizes.index(max(sizes))}
    return {places[name] for name in names}


def _well_taken(page: Page, group: list[Candidate], zones: Sequence[Zone], hows: Sequence[Cue]) -> list[Candidate]:
    """Give the one value that was taken as it should be, or all but those that were not."""
    said = [_how(page, zone, hows) for zone in _with_tail(page, group, zones)]
    well = [one for one, how in zip(group, said, strict=True) if how > 0]
    badly = [one for one, how in zip(group, said, strict=True) if how < 0]
    if well:
        return well
    return [one for one in group if one not in badly]


def _with_tail(page: Page, group: list[Candidate], zones: Sequence[Zone]) -> list[list[Zone]]:
    """Give what is said behind the last value to the one that it names: "11 monday, 12 today, monday he slumped"."""
    parts = [[zone] for zone in zones]
    start, end = zones[-1]
    place = page.distance.place(group[-1].number)
    comma = next((at for at in range(place + 1, end) if page.marks[at].text in (",", "but")), None)
    if comma is None:
        return parts
    opening = {_stem(mark.text) for mark in page.marks[comma + 1 : comma + 3]} - page.words.rivals.empty
    own = set(range(comma, end))
    meant = [at for at, zone in enumerate(zones) if opening & _stems(page, zone, own)]
    if len(meant) == 1 and meant[0] != len(zones) - 1:
        parts[-1] = [(start, comma)]
        parts[meant[0]].append((comma + 1, end))
    return parts


def _how(page: Page, zones: Sequence[Zone], hows: Sequence[Cue]) -> int:
    """Tell whether the words of a value say that it was taken well (1), badly (-1), or neither (0)."""
    good = bad = False
    for hit in hows:
        if not any(is_within(hit, zone) for zone in zones) or not hit.names & {"well", "badly", "average"}:
            continue
        if _is_open(hit, hows):
            continue
        denied = any("not" in one.names and hit.first - 3 < one.last < hit.first for one in hows)
        if denied:
            bad = bad or "well" in hit.names
        elif "badly" in hit.names:
            bad = True
        else:
            good = True
    return 0 if good and bad else 1 if good else -1 if bad else 0
