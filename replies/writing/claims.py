"""Claims that no text makes: no document covers a bag for dogs, and nobody but the operator says what may board."""

import re

CLAIMS: tuple[str, ...] = (
    "safe",
    "safely",
    "tested",
    "approved",
    "certified",
    "guaranteed",
    "compliant",
    "crash-proof",
    "escape-proof",
    "meets the standard",
    "meets all standards",
    "fits under the seat",
    "fits under a seat",
)

_CLAIM = re.compile(rf"(?<!\w)(?:{'|'.join(re.escape(claim) for claim in CLAIMS)})(?!\w)", re.IGNORECASE)


def claims_in(text: str) -> tuple[str, ...]:
    """Give the claims that stand in a text, each once, in small letters.

    >>> claims_in("Tested and approved, with a safety clip")
    ('tested', 'approved')
    """
    plain = " ".join(text.split())
    return tuple(dict.fromkeys(match.group().lower() for match in _CLAIM.finditer(plain)))
