"""Marks closing words with the name below them, what stands under dashes, and footers; never a line with a measure."""

import re
from itertools import accumulate

from replies.reading.mail import Part
from replies.reading.mail_marking import Marking
from replies.reading.shapes import Shape

_DASHES = re.compile(r"[ \t]*(?:--+|__+|==+|\*\*+)[ \t]*$")
_NAME = re.compile(r"[ \t*/~-]*([^\W\d_](?: ?[^\W\d_]|['.&-] ?){0,39})[ \t.,!*:)xX]*$")
_LONGEST_NAME, _MOST_NAMES = 40, 4
_BELOW_DASHES, _SIGNATURE_AT_MOST, _BLOCK_AT_MOST = 14, 10, 6
_CONTACT = frozenset((Shape.PHONE, Shape.LINK, Shape.ADDRESS))


def mark_closings(marking: Marking) -> None:
    """Mark closing words and names, what stands under dashes, and footers, in one pass over the own lines."""
    own = [marking.is_own(at) and not marking.blank[at] for at in range(marking.count)]
    if not any(own):
        return
    first, last = own.index(True), len(own) - 1 - own[::-1].index(True)
    own_until = list(accumulate(own))
    under_dashes = False
    for at in range(marking.count):
        if not marking.is_own(at):
            dashes = marking.parts[at] is Part.SIGNATURE and _DASHES.match(marking.folded[at]) is not None
            under_dashes = dashes or (under_dashes and marking.parts[at] in (Part.SIGNATURE, Part.FOOTER))
        elif not marking.blank[at]:
            few = own_until[min(at + _BELOW_DASHES, marking.count - 1)] - own_until[at] <= _SIGNATURE_AT_MOST
            under_dashes = _mark_line(marking, at, under_dashes=under_dashes, few=few, first=first)
            if (
                marking.is_own(at)
                and first < at
                and marking.blank[at - 1]
                and (at == last or _ends_letter(marking, at))
            ):
                _sign(marking, at)
    if marking.signed is None:
        _sign_last_block(marking, first, last)


def _ends_letter(marking: Marking, at: int) -> bool:
    """Does a copied or forwarded mail begin right below a line."""
    following = marking.words_from(at + 1)
    return following is not None and following > at + 1 and marking.parts[following] == Part.HEADER


def _mark_line(marking: Marking, at: int, *, under_dashes: bool, few: bool, first: int) -> bool:
    """Mark one line, and say whether the next one stands under dashes."""
    words = marking.folded[at]
    goes_on = at > 0 and marking.parts[at - 1] == Part.FOOTER and not _holds_amount(marking, at, with_unit=False)
    if marking.words.footer.match(words) or goes_on:
        marking.parts[at] = Part.FOOTER
        return under_dashes
    if under_dashes and not marking.words.after.match(words):
        if not _holds_amount(marking, at, with_unit=True):
            marking.parts[at] = Part.SIGNATURE
        return True
    if few and _DASHES.match(words) and not _opens_measures(marking, at + 1):
        if at >= 2 and not marking.blank[at - 1] and marking.blank[at - 2]:
            _sign(marking, at - 1)
        marking.parts[at] = Part.SIGNATURE
        return True
    if at != first:
        _close(marking, at)
    return False


def _opens_measures(marking: Marking, at: int) -> bool:
    following = marking.words_from(at)
    return following is not None and _holds_amount(marking, following, with_unit=False)


def _holds_amount(marking: Marking, at: int, *, with_unit: bool) -> bool:
    """Does a line hold a number that may be a measure: it is then never taken for a part of a signature."""
    return any(
        one.shape in (Shape.AMOUNT, Shape.HASH) and (one.unit is not None or not with_unit)
        for one in marking.quantities(at)
    )


def _name_on(marking: Marking, at: int | None) -> str | None:
    """Give the name that stands alone on a line: a capital, a few words, no figures."""
    if at is None or not marking.is_own(at) or marking.ends[at] - marking.starts[at] > _LONGEST_NAME:
        return None
    match = _NAME.match(marking.text, marking.starts[at], marking.ends[at])
    name = match.group(1).strip(" .") if match else ""
    return name if name[:1].isupper() and len(name.split()) <= _MOST_NAMES else None


def _close(marking: Marking, at: int) -> None:
    """Mark closing words, with the name behind them or on the lines below."""
    match = marking.words.closing.match(marking.folded[at])
    if match is None:
        return
    following = marking.words_from(at + 1)
    near = following is not None and following <= at + 2 and marking.is_own(following)
    place = marking.words_starts[at] + match.start("rest")
    tail = marking.text[place : marking.ends[at]].strip(" ,.!*-")
    if tail:
        named = tail[0].isupper() and _NAME.match(tail) and len(tail.split()) <= _MOST_NAMES
        if named and not (near and following == at + 1):
            marking.signed = marking.signed or tail
            marking.parts[at] = Part.SIGNATURE
        return
    name = _name_on(marking, following) if near else None
    if name and following is not None:
        _sign(marking, following)
        _sign_block(marking, following + 1)
    if name or not near:
        marking.parts[at] = Part.SIGNATURE


def _sign(marking: Marking, at: int) -> None:
    """Mark a name on a line of its own as the customer's."""
    name = _name_on(marking, at)
    if name and marking.text[marking.ends[at] - 1] not in ":!?":
        marking.parts[at] = Part.SIGNATURE
        marking.signed = marking.signed or name


def _sign_block(marking: Marking, at: int) -> None:
    """Mark the lines directly below a name: an address, a telephone number, never a measure."""
    for place in range(at, min(at + _BLOCK_AT_MOST, marking.count)):
        if marking.blank[place] or not marking.is_own(place) or marking.words.after.match(marking.folded[place]):
            return
        if _holds_amount(marking, place, with_unit=False):
            return
        marking.parts[place] = Part.SIGNATURE


def _sign_last_block(marking: Marking, first: int, last: int) -> None:
    """Mark a last paragraph of a name with telephone or address below it, without closing words."""
    start = last
    while start > first and last - start < _BLOCK_AT_MOST and not marking.blank[start - 1]:
        start -= 1
    lines = range(start + 1, last + 1)
    if start <= first or not lines or _name_on(marking, start) is None:
        return
    contact = any(one.shape in _CONTACT for place in lines for one in marking.quantities(place))
    if contact and not any(_holds_amount(marking, place, with_unit=False) for place in lines):
        _sign(marking, start)
        _sign_block(marking, start + 1)
