"""Finds what joins quantities: L x W x H, a unit said once for several, item numbers, the same said twice."""

import re
from collections.abc import Sequence
from dataclasses import replace

from replies.reading.joints import Joints
from replies.reading.quantity import LoneUnit, Quantity
from replies.reading.shape_words import Shape
from replies.reading.unit_words import Dimension
from sizing.units import to_inches, to_pounds

Lists = tuple[tuple[int, ...], ...]

_LETTER_X = re.compile(r"[lwhtb]x[ \t]*")
_FARTHEST_TIMES = 30
_INLINE_NUMBERED = re.compile(r"(?<![^\s(])(\d{1,2})(?:\.?\)|[.:][ \t])[ \t]*(?=\S)")
_LETTERED = re.compile(r"[ \t]*[,;/|]?[ \t]*[lwhtb](?![a-z])[ \t]*[:=]?[ \t]*")
_LEADS = re.compile(r"\)?[ \t]*(?:[:=-][ \t\n]*)?")
_LEADS_ABBREVIATED = re.compile(r"\.[ \t]*(?=\d)")
_SAME_WITHIN = 0.06


def mark_enumerators(folded: str, found: list[Quantity], joints: Joints) -> list[Quantity]:
    """Tell item numbers from amounts: "1. 14 2. 11", "1) 29 cm 2) 25 cm", "zu 1: 31 cm", or 1, 2, 3 down the lines."""
    starts = {match.start(1): match for match in joints.numbered.finditer(folded)}
    inline = {match.start(1) for match in _INLINE_NUMBERED.finditer(folded)}
    if not starts and len(inline) < 2:
        return found
    places = [at for at, quantity in enumerate(found) if _is_plain_whole(quantity) and quantity.start in starts]
    signed = {
        at
        for at in places
        if starts[found[at].start].group(2)
        and starts[found[at].start].end(1) == found[at].end
        and _more_on_line(folded, found, at)
    }
    counted = _counted(found, [at for at in places if starts[found[at].start].end(1) == found[at].end])
    signs = all(starts[found[at].start].group(2) for at in counted)
    if len(counted) > 1 and (signs or all(_more_on_line(folded, found, at) for at in counted)):
        signed |= set(counted)
    in_line = _counted(found, [at for at, quantity in enumerate(found) if quantity.start in inline])
    if len(in_line) > 1 and all(at + 1 < len(found) and at + 1 not in in_line for at in in_line):
        signed |= set(in_line)
    return [replace(one, shape=Shape.ENUMERATOR) if at in signed else one for at, one in enumerate(found)]


def _is_plain_whole(quantity: Quantity) -> bool:
    return quantity.unit is None and quantity.shape == Shape.AMOUNT and quantity.low == quantity.high


def _counted(found: Sequence[Quantity], places: Sequence[int]) -> list[int]:
    """Give those of the places that count 1, 2, 3."""
    counted: list[int] = []
    for at in places:
        if found[at].low == len(counted) + 1 and _is_plain_whole(found[at]):
            counted.append(at)
    return counted


def _more_on_line(folded: str, found: Sequence[Quantity], at: int) -> bool:
    """Does another number stand on the line of this one."""
    return at + 1 < len(found) and "\n" not in folded[found[at].end : found[at + 1].start]


def find_lists(folded: str, found: Sequence[Quantity], joints: Joints) -> Lists:
    """Find the numbers that are joined by x, by or *, as indices."""
    lists: list[tuple[int, ...]] = []
    group: list[int] = []
    for at, quantity in enumerate(found):
        amount = quantity.shape == Shape.AMOUNT
        if group and amount and _is_times(folded, found[at - 1].end, quantity.start, joints):
            group.append(at)
            continue
        if len(group) > 1:
            lists.append(tuple(group))
        group = [at] if amount else []
    if len(group) > 1:
        lists.append(tuple(group))
    return tuple(lists)


def _is_times(folded: str, start: int, end: int, joints: Joints) -> bool:
    if end - start > _FARTHEST_TIMES or "\n" in folded[start:end]:
        return False
    if folded[start:end].endswith(" *"):
        return False
    return _fills(joints.times, folded, start, end) or _fills(_LETTER_X, folded, start, end)


def _fills(pattern: re.Pattern[str], folded: str, start: int, end: int) -> bool:
    match = pattern.match(folded, start, end)
    return match is not None and match.end() == end


def share_units(
    folded: str, found: list[Quantity], lists: Lists, lone: list[LoneUnit], *, joints: Joints
) -> list[Quantity]:
    """Give a unit that is said once for a list to all numbers of the list, and mark what is said twice."""
    for group in lists:
        _share_in_product(found, group)
    _share_backwards(folded, found, joints.listed)
    _share_backwards(folded, found, _LETTERED)
    _share_forwards(folded, found, lone, joints)
    for at in range(1, len(found)):
        if _restates(folded, found[at - 1], found[at], joints):
            found[at] = replace(found[at], restates=True)
    return found


def _share_in_product(found: list[Quantity], group: Sequence[int]) -> None:
    """Share the one unit of "300 x 140 x 250mm" or "12in x 5 x 10"."""
    told = [at for at in group if found[at].unit]
    if len(told) == 1 and found[told[0]].dimension == Dimension.LENGTH and not found[told[0]].compound:
        for at in group:
            if at != told[0]:
                found[at] = _shared(found[at], found[told[0]])


def _share_backwards(folded: str, found: list[Quantity], between: re.Pattern[str]) -> None:
    """Share the unit at the end of "23 and 27 cm", "14, 11 and 5.5 in", "L 37 H 30 B 14 cm"."""
    at = 0
    while at < len(found):
        end = at
        while end + 1 < len(found) and _is_open(found[end]) and _follows(folded, found, end, between):
            end += 1
        last = found[end]
        if end > at and last.unit and last.dimension == Dimension.LENGTH and not last.compound:
            joint = folded[found[at].end : last.start]
            if end - at >= 2 or between is _LETTERED or not ("," in joint or joint.isspace()):
                for place in range(at, end):
                    found[place] = _shared(found[place], last)
        at = end + 1


def _is_open(quantity: Quantity) -> bool:
    return quantity.unit is None and quantity.shape == Shape.AMOUNT


def _follows(folded: str, found: Sequence[Quantity], at: int, between: re.Pattern[str]) -> bool:
    start, end = found[at].end, found[at + 1].start
    return (
        end - start <= _FARTHEST_TIMES and found[at + 1].shape == Shape.AMOUNT and _fills(between, folded, start, end)
    )


def _shared(quantity: Quantity, source: Quantity | LoneUnit) -> Quantity:
    """Give a quantity the unit of another, or one that stands alone."""
    return replace(
        quantity,
        unit=source.unit,
        dimension=source.dimension,
        unit_shared=True,
        unit_start=source.start if isinstance(source, LoneUnit) else source.unit_start,
        unit_end=source.end if isinstance(source, LoneUnit) else source.unit_end,
    )


def _share_forwards(folded: str, found: list[Quantity], lone: Sequence[LoneUnit], joints: Joints) -> None:
    """Give a unit that stands before a number or a list, "in cm: 35, 28", "weight (kg) 6.2", to its numbers."""
    starts = {quantity.start: at for at, quantity in enumerate(found)} if lone else {}
    for unit in lone:
        match = _leads(folded, unit, joints)
        place = starts.get(match.end()) if match else None
        if place is None or match is None or match.end() == unit.end:
            continue
        last = place
        while last + 1 < len(found) and _is_open(found[last]) and _is_listed(folded, found, last, joints):
            last += 1
        if unit.dimension == Dimension.LENGTH or last == place:  # of "back / lbs = 12 / 10" only one is the weight
            for at in range(place, last + 1):
                if _is_open(found[at]):
                    found[at] = _shared(found[at], unit)


def _is_listed(folded: str, found: Sequence[Quantity], at: int, joints: Joints) -> bool:
    product = _is_times(folded, found[at].end, found[at + 1].start, joints) and found[at + 1].shape == Shape.AMOUNT
    return product or _follows(folded, found, at, joints.listed)


def _leads(folded: str, unit: LoneUnit, joints: Joints) -> re.Match[str] | None:
    """Find what may stand between a unit and the number it leads; "all in cm. 35" leads none, "altezza cm. 35" does."""
    abbreviated = _LEADS_ABBREVIATED.match(folded, unit.end)
    if abbreviated and not joints.stated.search(folded, max(unit.start - 12, 0), unit.start):
        return abbreviated
    return _LEADS.match(folded, unit.end)


def _restates(folded: str, before: Quantity, after: Quantity, joints: Joints) -> bool:
    """Does a quantity say the one before it again in another unit: "15 lb (6.8 kg)", "33 cm / 13 in"."""
    if before.unit is None or after.unit is None or before.dimension != after.dimension or before.unit == after.unit:
        return False
    if (
        before.shape != Shape.AMOUNT
        or after.shape != Shape.AMOUNT
        or not _fills(joints.restates, folded, before.end, after.start)
    ):
        return False
    convert = to_inches if before.dimension == Dimension.LENGTH else to_pounds
    one, other = convert(before.low, before.unit), convert(after.low, after.unit)
    return abs(one - other) <= _SAME_WITHIN * max(one, other)
