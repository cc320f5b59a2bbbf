"""Finds stretches in which no number is an amount: markup, templates, mentions, web and e-mail addresses."""

import re

from replies.reading.shape_words import Shape

Region = tuple[int, int, Shape]
"""Start, end, and the shape of the numbers in it."""

_MARKUP = re.compile(
    r"\{\{[^{}]{0,300}\}\}|\{%[^{}]{0,300}%\}|\$\{[^{}]{0,300}\}|<%[^<>]{0,300}%>"  # templates
    r"|</?[a-z!@#:][^<>]{0,500}>"  # tags and mentions
    r"|&#\d{1,7};|&[a-z]{2,8}\d{0,2};"  # entities
)
_LINK = re.compile(r"https?://[^\s<>]+|www\.[^\s<>]+")
_ADDRESS = re.compile(r"(?<![^\s<(\[:,;])[\w.+-]{1,64}@[\w.-]{1,100}|@[\w.]{2,40}")
_STRUCK = re.compile(r"~~[^~\n]{1,80}~~")


def find_regions(folded: str) -> list[Region]:
    """Find the stretches, in order. In linear time."""
    found: list[Region] = []
    if "<" in folded or "{" in folded or "&" in folded:
        found += [(*match.span(), Shape.MARKUP) for match in _MARKUP.finditer(folded)]
        found += [region for name in ("script", "style") for region in _between_tags(folded, name)]
    if "://" in folded or "www." in folded:
        found += [(*match.span(), Shape.LINK) for match in _LINK.finditer(folded)]
    if "@" in folded:
        found += [(*match.span(), Shape.LINK) for match in _ADDRESS.finditer(folded)]
    if "~~" in folded:
        found += [(*match.span(), Shape.STRUCK) for match in _STRUCK.finditer(folded)]
    return sorted(found) if len(found) > 1 else found


def _between_tags(folded: str, name: str) -> list[Region]:
    """Find what stands between <script> and </script>."""
    found: list[Region] = []
    start = folded.find(f"<{name}")
    while start >= 0:
        end = folded.find(f"</{name}", start)
        if end < 0:
            break
        found.append((start, end, Shape.MARKUP))
        start = folded.find(f"<{name}", end)
    return found
