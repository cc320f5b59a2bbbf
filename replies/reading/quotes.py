"""Marks what an e-mail quotes: lines with ">" before them, the line that says who wrote them, history without marks."""

import re

from replies.reading.mail import Author, Part
from replies.reading.mail_marking import Marking, has_date, is_dated
from replies.reading.shape_words import Shape

_LONGEST_ATTRIBUTION = 400
_LONGEST_ANSWER, _MOST_TRIED = 30, 300
_WRAPPED_AT_MOST = 3


def mark_quotes(marking: Marking) -> None:
    """Mark the lines with ">" before them."""
    for at, depth in enumerate(marking.depths):
        if depth and not _is_comparison(marking, at):
            marking.parts[at] = Part.QUOTED
            marking.authors[at] = Author.UNKNOWN


def mark_orders(marking: Marking) -> None:
    """Mark what the shop sent about an order: a head such as "Order confirmation 1042", and the lines below it."""
    at = 0
    while at < marking.count:
        end = at + 1
        opens = not at or marking.blank[at - 1]
        if opens and marking.is_own(at) and marking.words.orders.match(marking.folded[at]):
            while end < marking.count and marking.is_own(end) and not marking.blank[end]:
                end += 1
            if end - at > 1 and any(
                one.shape == Shape.MONEY for place in range(at, end) for one in marking.quantities(place)
            ):
                marking.parts[at:end] = [Part.QUOTED] * (end - at)
                marking.authors[at:end] = [Author.SHOP] * (end - at)
        at = end


_ITEM = re.compile(r"\d{1,2}[.)] +[^\W\d]")
"""A numbered question."""


def _is_comparison(marking: Marking, at: int) -> bool:
    """Is a ">" the customer's own "more than": alone, before a number, between lines without marks."""
    words = marking.folded[at]
    if marking.depths[at] != 1 or not words[:1].isdigit() or "?" in words or _ITEM.match(words):
        return False
    if any(marking.depths[place] for place in (at - 1, at + 1) if 0 <= place < marking.count):
        return False
    above = [place for place in range(max(at - 2, 0), at) if not marking.blank[place]]
    return not (above and marking.folded[above[-1]].rstrip().endswith(":"))


def mark_attributions(marking: Marking) -> None:
    """Mark "On Monday, Anna wrote:", also wrapped over three lines, and history without marks below it."""
    for last in range(marking.count):
        start = _attribution_start(marking, last)
        if start is None:
            continue
        words = _joined(marking, start, last)
        marking.parts[start : last + 1] = [Part.ATTRIBUTION] * (last + 1 - start)
        marking.attributed[last] = words
        following = marking.words_from(last + 1)
        if following is not None and marking.depths[following] <= marking.depths[last] and is_dated(words):
            marking.quote(last + 1, marking.count)
            marking.senders[last + 1] = words
            return


def _attribution_start(marking: Marking, last: int) -> int | None:
    """Give the first line of the attribution that ends on a line; None: none ends there."""
    words = marking.folded[last].rstrip()
    if words[-1:] != ":":
        return None
    if not marking.words.wrote.search(words):
        return last if "@" in words and has_date(words) and len(words) <= _LONGEST_ATTRIBUTION else None
    start = last
    while not has_date(words) and last - start < _WRAPPED_AT_MOST - 1 and _goes_up(marking, start):
        start -= 1
        words = _joined(marking, start, last)
    if has_date(words) and len(words) <= _LONGEST_ATTRIBUTION:
        return start
    following = marking.words_from(last + 1)
    quoted = following is not None and marking.depths[following] > marking.depths[last]
    return last if quoted or is_dated(marking.folded[last]) else None


def _goes_up(marking: Marking, at: int) -> bool:
    """May the line above one belong to the same attribution."""
    return at > 0 and not marking.blank[at - 1] and marking.depths[at - 1] == marking.depths[at]


def _joined(marking: Marking, start: int, last: int) -> str:
    return " ".join(marking.folded[start : last + 1])


def mark_authors(marking: Marking) -> None:
    """Say who wrote each quoted line: by the line that introduces it, else unknown."""
    by_depth: dict[int, Author] = {}
    below = Author.UNKNOWN
    for at in range(marking.count):
        depth = marking.depths[at]
        if at in marking.senders:
            below = marking.author_of(marking.senders[at])
        if at in marking.attributed:
            by_depth = {known: author for known, author in by_depth.items() if known <= depth}
            by_depth[depth + 1] = marking.author_of(marking.attributed[at])
        elif marking.parts[at] == Part.QUOTED and marking.authors[at] == Author.UNKNOWN:
            marking.authors[at] = by_depth.get(depth, Author.UNKNOWN) if depth else below
        elif marking.parts[at] == Part.OWN and not marking.blank[at]:
            by_depth = {}


def mark_answers(marking: Marking) -> None:
    """Mark the customer's words behind a quoted question, "> How tall? 25 cm", where she answers in no other way."""
    own = [at for at in range(marking.count) if marking.is_own(at) and not marking.blank[at]]
    if any(one.shape == Shape.AMOUNT for at in own[:_MOST_TRIED] for one in marking.quantities(at)):
        return
    asked = [at for at in range(marking.count) if marking.parts[at] == Part.QUOTED and "?" in marking.folded[at]]
    for at in asked[:_MOST_TRIED]:
        words = marking.text[marking.words_starts[at] : marking.ends[at]]
        question, _, answer = words.rpartition("?")
        if not question.strip() or not 0 < len(answer.strip()) <= _LONGEST_ANSWER:
            continue
        amount = any(one.shape == Shape.AMOUNT and one.start > len(question) for one in marking.quantities(at))
        if amount and marking.authors[at] != Author.CUSTOMER:
            marking.answers[at] = marking.words_starts[at] + len(question) + 1
