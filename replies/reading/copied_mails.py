"""Marks the headers of mails that were copied into an e-mail, and what stands below them."""

from collections.abc import Mapping

from replies.reading.mail import Author, Part
from replies.reading.mail_marking import Marking, is_dated
from replies.reading.shape_words import Shape

_HEADER_AT_MOST = 20


def mark_copied_mails(marking: Marking) -> None:
    """Mark copied headers; below one of an older mail all is quoted, below a forwarded one it is the customer's."""
    below = False
    at = 0
    while at < marking.count:
        marker = None if marking.blank[at] else _marker(marking, at)
        header = marking.words_from(at + 1) if marker else at
        end, is_header = _header_end(marking, header) if header is not None else (at + 1, False)
        if marker:
            marking.parts[at] = Part.HEADER
        if header is not None and is_header:
            below = _is_quoted_below(marking, at, header, end, marker) or below
        elif marker == "original" and not marking.depths[at] and marking.is_own(marking.words_from(at + 1)):
            below = True
        end = max(end, at + 1)
        if below:
            marking.quote(at, end)
        at = end


def _marker(marking: Marking, at: int) -> str | None:
    """Is a line "----- Original message -----" or "Forwarded message"."""
    if marking.words.original.match(marking.folded[at]):
        return "original"
    return "forwarded" if marking.words.forwarded.match(marking.folded[at]) else None


def _is_quoted_below(marking: Marking, at: int, header: int, end: int, marker: str | None) -> bool:
    """Mark a copied header, and say whether what stands below it is quoted rather than the customer's own words."""
    marking.parts[header:end] = [Part.HEADER] * (end - header)
    kinds = _keys(marking, header, end)
    sender, recipients = _of_kind(marking, kinds, "sender"), _of_kind(marking, kinds, "other")
    is_mail = marker is not None or {"sender", "date", "subject"} <= set(kinds.values())
    alone = marker is None and all(marking.blank[place] for place in range(min(at, _HEADER_AT_MOST)))
    if not is_mail or marking.depths[header] or (alone and at < _HEADER_AT_MOST):
        return False
    marking.senders[end], marking.recipients[end] = sender, recipients
    return marker != "forwarded" or marking.words.shop.search(sender) is not None


def _of_kind(marking: Marking, kinds: Mapping[int, str], wanted: str) -> str:
    return " ".join(marking.folded[place].partition(":")[2] for place, kind in kinds.items() if kind == wanted)


def mark_handed_on(marking: Marking) -> None:
    """Take a mail of somebody else to the customer for her own words, where she tells no amount herself."""
    own = [at for at in range(marking.count) if marking.is_own(at) and not marking.blank[at]]
    if any(one.shape == Shape.AMOUNT for at in own[:_MOST_TRIED] for one in marking.quantities(at)):
        return
    for start, sender in marking.senders.items():
        recipients = marking.recipients.get(start, "").strip()
        if not recipients or marking.words.shop.search(recipients) or marking.author_of(sender) != Author.UNKNOWN:
            continue
        at = start
        while at < marking.count and marking.parts[at] == Part.QUOTED and not marking.depths[at]:
            marking.parts[at], marking.authors[at] = Part.OWN, Author.CUSTOMER
            at += 1


_MOST_TRIED = 300


def _keys(marking: Marking, header: int, end: int) -> dict[int, str]:
    found = {place: marking.words.header.match(marking.folded[place]) for place in range(header, end)}
    return {place: match.lastgroup or "" for place, match in found.items() if match}


def _header_end(marking: Marking, at: int) -> tuple[int, bool]:
    """Give the end of the lines that look like a copied header, and whether they are one."""
    end = at
    while end < marking.count and not marking.blank[end] and end - at < _HEADER_AT_MOST:
        if not marking.words.header.match(marking.folded[end]) and not (end > at and marking.folded[end][:1] in " \t"):
            break
        end += 1
    if end - at < 2:
        return at + 1, False
    kinds = list(_keys(marking, at, end).values())
    words = " ".join(marking.folded[at:end])
    sent = {"sender", "date", "subject"} <= set(kinds) and is_dated(words)
    typed = kinds.count("other") >= 2 and "subject" in kinds and "@" in words
    return end, sent or typed
