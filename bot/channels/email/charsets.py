"""Bytes of a mail as characters: as it says they are, else as they most likely are. Pure.

Source for the names: Encoding Standard of the WHATWG, "Names and labels": what calls itself Latin-1 or ASCII is read as
windows-1252, which holds all of it; likewise the other older names below.
"""

import codecs

_WIDER = {
    "ascii": "cp1252",
    "iso8859-1": "cp1252",
    "iso8859-9": "cp1254",
    "iso8859-11": "cp874",
    "tis-620": "cp874",
    "gb2312": "gb18030",
    "gbk": "gb18030",
    "euc_kr": "cp949",
    "shift_jis": "cp932",
}
"""What holds all characters of a narrower set, and is what people's programs really write."""
_NO_TEXT = frozenset({"punycode", "idna", "unicode_escape", "raw-unicode-escape", "unicode-escape", "undefined"})
"""Python's own codecs that no mail is written in; some of them take time with the square of the length."""
_LONGEST_NAME = 40


def decode(raw: bytes, charset: str | None) -> str:
    """Give the characters of `raw`. Never raises: what cannot be read becomes a replacement character.

    charset   as the mail names it; None: it does not

    >>> decode(b"13\\xbd", "iso-8859-1"), decode("13½".encode(), None), decode(b"13\\xbd", "no-such-set")
    ('13½', '13½', '13½')
    """
    named = _codec(charset)
    says_little = named is None or named == "ascii"
    for name in ("utf-8", "cp1252") if says_little else (_WIDER.get(named or "", named or ""), "utf-8"):
        try:
            return raw.decode(name)
        except (UnicodeError, LookupError):
            continue
    wanted = "cp1252" if says_little else _WIDER.get(named or "", named or "")
    try:
        return raw.decode(wanted, "replace")
    except (UnicodeError, LookupError):
        return raw.decode("utf-8", "replace")


def _codec(charset: str | None) -> str | None:
    """Give Python's name of a set of characters; None: it is none that texts are written in."""
    name = (charset or "").strip(" '\"").removeprefix("x-").split("*")[0]
    if not name or len(name) > _LONGEST_NAME or "\0" in name:
        return None
    try:
        found = codecs.lookup(name).name
    except (LookupError, ValueError):
        return None
    return None if found in _NO_TEXT else found
