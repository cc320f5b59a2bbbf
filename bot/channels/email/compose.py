"""Writes the mails that go out, headers and both bodies, from texts that are never markup or header. Pure.

Sources: RFC 5322 section 3.6.4 (Message-ID, In-Reply-To, References), RFC 3834 (Auto-Submitted).
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from email.headerregistry import Address
from email.message import EmailMessage
from email.policy import EmailPolicy
from email.utils import format_datetime
from html import escape

from bot.channels.email.account import Account, ascii_domain
from bot.channels.email.headers import is_id, one_line
from bot.channels.email.letter import OURS
from bot.message import Attachment, Outgoing

NO_SUBJECT = "Your question"
LONGEST_SUBJECT = 200
_AGAIN = re.compile(r"^(?:\s*(?:re|aw|antw|sv|vs|odp|r|rif|ref|fwd?|wg|tr)(?:\[\d{1,3}\])?\s*:)+\s*", re.IGNORECASE)
_KEY = re.compile(r"[0-9a-f]{24}")
_IDS = frozenset({"message-id", "in-reply-to", "references"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Mail:
    """A mail that is ready to go.

    recipient   as it stands in the envelope
    wide        the recipient can only be written in characters that not every server takes
    """

    message_id: str
    recipient: str = field(repr=False)
    raw: bytes = field(repr=False)
    wide: bool = False


class _Policy(EmailPolicy):
    """Ids are never broken or encoded: the library would encode a long one, and the mail would leave its thread."""

    def fold(self, name: str, value: str) -> str:
        if name.lower() in _IDS:
            return f"{name}: " + f"{self.linesep} ".join(str(value).split()) + self.linesep
        return str(super().fold(name, value))

    def fold_binary(self, name: str, value: str) -> bytes:
        return self.fold(name, value).encode("utf-8" if self.utf8 else "ascii")


_POLICY = _Policy(linesep="\r\n", max_line_length=78)


def message_id(key: str, domain: str) -> str:
    """Give the id of the mail that carries a departure, without angle brackets.

    >>> message_id("0123456789abcdef01234567", "workshop.example")
    '0123456789abcdef01234567@workshop.example'
    """
    return f"{key}@{domain}"


def text_key(found: str, domain: str) -> str | None:
    """Give the key of the departure whose mail has this id; None: it is none of ours."""
    key, _, home = found.rpartition("@")
    return key if home.casefold() == domain.casefold() and _KEY.fullmatch(key) else None


def customer_mail(account: Account, text: Outgoing, *, at: datetime, automatic: bool = False) -> Mail:
    """Write an approved text as the mail that takes it to a customer.

    automatic   it goes without the maker having seen it, and says so to other machines
    Raises      ValueError for an address that cannot be written to
    """
    own_id = message_id(text.key, account.domain)
    answered = [one for one in (text.thread_key, text.reply_to) if one and is_id(one)]
    extra = {OURS: text.key}
    if automatic:
        extra["Auto-Submitted"] = "auto-replied"
    return _mail(
        account,
        text.address,
        subject=subject_of_answer(text.subject),
        text=text.text,
        html=html_of(text.text),
        own_id=own_id,
        answers=answered,
        at=at,
        extra=extra,
    )


def maker_mail(
    account: Account,
    maker: str,
    *,
    subject: str,
    text: str,
    html: str,
    own_id: str,
    answers: Sequence[str],
    answer_to: str,
    at: datetime,
    files: Iterable[Attachment] = (),
) -> Mail:
    """Write a mail to a maker.

    answers     ids of the mails that it belongs to, the last is the one that it answers
    answer_to   the address that takes her answer; "": our own
    """
    extra = {OURS: "maker", "Auto-Submitted": "auto-generated"}
    if answer_to:
        extra["Reply-To"] = answer_to
    return _mail(
        account,
        maker,
        subject=subject,
        text=text,
        html=html,
        own_id=own_id,
        answers=answers,
        at=at,
        extra=extra,
        files=files,
    )


def subject_of_answer(subject: str) -> str:
    """Give the subject of an answer, whatever the customer's was.

    >>> subject_of_answer("AW: Re: Which size?\\nBcc: all@example.org")
    'Re: Which size? Bcc: all@example.org'
    """
    bare = _AGAIN.sub("", one_line(subject))[:LONGEST_SUBJECT].strip()
    return f"Re: {bare or NO_SUBJECT}"


def html_of(text: str) -> str:
    """Give a text as HTML that shows just that text: paragraphs and lines, nothing of it read as markup.

    >>> html_of("Dear Ada,\\n\\n<b>13</b>\\n12")
    '<p>Dear Ada,</p>\\n<p>&lt;b&gt;13&lt;/b&gt;<br>\\n12</p>'
    """
    paragraphs = re.split(r"\n{2,}", text.strip("\n"))
    return "\n".join(f"<p>{_html_lines(one)}</p>" for one in paragraphs)


def _html_lines(text: str) -> str:
    return "<br>\n".join(map(html_line, text.split("\n")))


def html_line(line: str) -> str:
    """Give one line as HTML, its indent kept."""
    indent = len(line) - len(line.lstrip(" "))
    return "&nbsp;" * indent + escape(line[indent:], quote=True)


def _mail(
    account: Account,
    recipient: str,
    *,
    subject: str,
    text: str,
    html: str,
    own_id: str,
    answers: Sequence[str],
    at: datetime,
    extra: dict[str, str],
    files: Iterable[Attachment] = (),
) -> Mail:
    to, wide = _writable(recipient)
    message = EmailMessage(policy=_POLICY.clone(utf8=True) if wide else _POLICY)
    message["From"] = _address(_writable(account.address)[0], _words(account.name))
    message["To"] = _address(to)
    message["Subject"] = _words(subject)
    message["Date"] = format_datetime(at)
    message["Message-ID"] = f"<{own_id}>"
    if answers:
        message["In-Reply-To"] = f"<{answers[-1]}>"
        message["References"] = " ".join(f"<{one}>" for one in dict.fromkeys(answers))
    for name, value in extra.items():
        message[name] = one_line(value)
    message.set_content(text, cte="quoted-printable")
    message.add_alternative(_page(html), subtype="html", cte="quoted-printable")
    for file in files:
        main, _, sub = file.type.partition("/")
        message.add_attachment(file.bytes, maintype=main, subtype=sub, filename=one_line(file.name))
    return Mail(message_id=own_id, recipient=to, raw=message.as_bytes(), wide=wide)


def _words(text: str) -> str:
    """Give a text as the words of a header: one line, and nothing in it is read as words in another encoding."""
    return one_line(text).replace("=?", "= ?")


def _address(address: str, name: str = "") -> Address:
    local, _, domain = address.rpartition("@")
    return Address(display_name=name, username=local, domain=domain)


def _page(body: str) -> str:
    return f'<!DOCTYPE html>\n<html><head><meta charset="utf-8"></head><body>\n{body}\n</body></html>\n'


def _writable(address: str) -> tuple[str, bool]:
    """Give an address as it goes out, and whether it needs characters that not every server takes."""
    local, _, domain = address.rpartition("@")
    if not (local and domain) or any(one.isspace() or one in "<>" or not one.isprintable() for one in address):
        raise ValueError("this is no address")
    written = f"{local}@{ascii_domain(domain)}"
    return written, not written.isascii()
