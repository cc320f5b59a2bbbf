"""Sets aside numbers that stand in a figure of speech: "24/7", "ok, 10-4"."""

from replies.reading.facts import SetAside
from replies.reading.page import Page


def set_sayings_aside(page: Page) -> None:
    """Set aside every number in a figure of speech. In linear time."""
    spans = [match.span() for match in page.words.sayings.finditer(page.tidied.folded)]
    at = 0
    for candidate in page.candidates:
        start = page.quantities.found[candidate.number].start
        while at < len(spans) and spans[at][1] <= start:
            at += 1
        if at < len(spans) and spans[at][0] <= start and candidate.aside is None:
            candidate.leave(SetAside.NOT_A_MEASURE, "a figure of speech")
