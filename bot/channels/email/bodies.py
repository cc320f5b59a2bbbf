"""Finds in the parts of a mail what its writer says and what she sends with it. Nothing is opened. Pure."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from email.message import Message

from bot.channels.attached import named
from bot.channels.email.charsets import decode
from bot.channels.email.flowed import unflow
from bot.channels.email.headers import one_line, words
from bot.keeping import sound_text
from bot.message import Attachment
from replies.reading.html_text import html_to_text

LONGEST_TEXT = 100_000
"""Characters of a mail that are kept as its text; a long letter has five thousand."""
LONGEST_PART = 1_000_000
"""Bytes of a text or of its HTML that are decoded."""
DEEPEST = 40
MOST_PARTS = 2_000
MOST_FILES = 50
ORNAMENT = 16 * 1024
"""Bytes up to which a picture that the text only shows in its place is a logo of a signature, and no photo of a dog."""
_NO_FILES = frozenset(
    {"application/pkcs7-signature", "application/x-pkcs7-signature", "application/pgp-signature", "text/x-amp-html"}
)
"""What proves or repeats the text and is nothing to look at."""
_DATA = re.compile(rb"data:[^\"'\s>)]{200,}")
"""A picture written into the HTML itself."""
_FILE_LIKE = frozenset({"text/calendar", "text/vcard", "text/x-vcard", "text/directory", "text/csv", "text/css"})


@dataclass(slots=True)
class Body:
    """What stands in a mail.

    texts   in order
    files   in order; one without bytes tells by its name what was not kept
    """

    texts: list[str] = field(default_factory=list)
    files: list[Attachment] = field(default_factory=list)
    parts: int = 0

    @property
    def text(self) -> str:
        """Give all texts as one, in plain lines."""
        joined = "\n\n".join(text for text in self.texts if text.strip())
        return joined[:LONGEST_TEXT]

    def more(self, other: "Body") -> None:
        """Take another body behind this one."""
        self.texts += other.texts
        self.files += other.files


def not_kept(what: str) -> Attachment:
    """Tell by a name alone that something was not kept, and why; it is shown wherever files are."""
    return Attachment(name=f"({what})", type="text/plain", bytes=b"")


def read_body(message: Message) -> Body:
    """Give what stands in a mail. Never raises."""
    body = Body()
    _collect(message, body, 0)
    if sum(map(len, body.texts)) > LONGEST_TEXT:
        body.files.append(not_kept("its text is longer than any letter; the rest is in the original"))
    if len(body.files) > MOST_FILES:
        left = len(body.files) - MOST_FILES
        body.files[MOST_FILES:] = [not_kept(f"{left} more files came with it; they are in the original")]
    return body


def _collect(part: Message, body: Body, depth: int) -> None:
    body.parts += 1
    if body.parts > MOST_PARTS or depth > DEEPEST:
        if body.parts == MOST_PARTS + 1 or depth > DEEPEST:
            body.files.append(not_kept("it has more parts than any mail program makes; they are in the original"))
        return
    kind = part.get_content_type()
    below = part.get_payload()
    if kind == "message/rfc822":
        body.files.append(_forwarded(part, below))
    elif part.is_multipart() and isinstance(below, list):
        inner = [one for one in below if isinstance(one, Message)]
        if kind == "multipart/alternative":
            _choose(inner, body, depth)
        else:
            for one in inner:
                _collect(one, body, depth + 1)
    elif _is_text(part, kind):
        body.texts.append(_text(part, kind))
    else:
        body.files += _file(part, kind)


def _choose(versions: Sequence[Message], body: Body, depth: int) -> None:
    """Take one of several versions of the same text: the plain one, unless it leaves out what another tells."""
    read = []
    for version in versions:
        one = Body(parts=body.parts)
        _collect(version, one, depth + 1)
        body.parts = one.parts
        read.append(one)
        body.files += one.files
    with_words = [one for one in read if one.text.strip()]
    if not with_words:
        return
    chosen = with_words[0]
    if not _has_figures(chosen.text):
        chosen = next((one for one in with_words if _has_figures(one.text)), chosen)
    body.texts += chosen.texts


def _has_figures(text: str) -> bool:
    return any(map(str.isdigit, text))


def _is_text(part: Message, kind: str) -> bool:
    if kind.startswith("multipart/"):
        return True  # it says that it has parts and has none: what stands there is read as it is
    if not kind.startswith("text/") or kind in _FILE_LIKE or kind in _NO_FILES:
        return False
    return part.get_content_disposition() != "attachment" and not part.get_filename()


def _text(part: Message, kind: str) -> str:
    raw = _decoded(part)
    if kind == "text/html":
        raw = _DATA.sub(b"", raw)
    text = decode(raw[:LONGEST_PART], _parameter(part, "charset")).replace("\r\n", "\n").replace("\r", "\n")
    if kind == "text/html":
        text = html_to_text(text)
    elif _parameter(part, "format").lower() == "flowed":
        text = unflow(text, delsp=_parameter(part, "delsp").lower() == "yes")
    return sound_text(text).strip("\n")


def _file(part: Message, kind: str) -> list[Attachment]:
    if kind in _NO_FILES:
        return []
    content = _decoded(part)
    in_its_place = kind.startswith("image/") and part.get("Content-ID") and len(content) <= ORNAMENT
    if in_its_place and part.get_content_disposition() != "attachment":
        return []
    return [named(words(part.get_filename() or kind.replace("/", ".")), one_line(kind), content)]


def _forwarded(part: Message, below: object) -> Attachment:
    """A mail that was sent along as a file."""
    inner = below[0] if isinstance(below, list) and below else None
    subject = words(str(inner.get("Subject", ""))) if isinstance(inner, Message) else ""
    try:
        content = inner.as_bytes() if isinstance(inner, Message) else b""
    except (UnicodeError, LookupError, ValueError, TypeError, KeyError, RecursionError):
        return not_kept("a mail came with it; it is in the original")
    return named(f"{subject or 'mail'}.eml", "message/rfc822", content)


def _decoded(part: Message) -> bytes:
    try:
        content = part.get_payload(decode=True)
    except (UnicodeError, LookupError, ValueError, AssertionError):
        content = None
    if isinstance(content, bytes):
        return content
    plain = part.get_payload()
    return plain.encode("utf-8", "surrogateescape") if isinstance(plain, str) else b""


def _parameter(part: Message, name: str) -> str:
    """Give a parameter of the content type; "": it has none."""
    try:
        found = part.get_param(name, "")
    except (ValueError, TypeError, LookupError):
        return ""
    return found[2] if isinstance(found, tuple) else str(found or "")
