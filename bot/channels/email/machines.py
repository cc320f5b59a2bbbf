"""Tells mails that no person wrote: they are never answered, or two machines could write to one another for ever. Pure.

Sources: RFC 3834 (section 2: what an automatic responder must not answer; section 5: Auto-Submitted), RFC 2919 and
RFC 2369 (List-*), RFC 5321 section 4.5.5 (mails with an empty return path); Precedence is common practice.
"""

from bot.channels.email.letter import OURS, Head

_MASS = frozenset({"bulk", "junk", "list", "auto_reply"})
_NOBODY = frozenset(
    {"mailer-daemon", "postmaster", "noreply", "no-reply", "no_reply", "donotreply", "do-not-reply", "do_not_reply"}
)


def is_ours(head: Head) -> bool:
    """Tell whether a mail is one that went out from here and came round again."""
    return OURS.lower() in head.telling


def why_machine(head: Head) -> str:
    """Say why nobody wrote a mail; "": somebody may have."""
    submitted = head.telling.get("auto-submitted", "no").partition(";")[0].strip().lower()
    if submitted not in ("no", ""):
        return "sent automatically"
    if head.telling.get("precedence", "").strip().lower() in _MASS:
        return "sent to many"
    if any(name.startswith("list-") for name in head.telling):
        return "sent to a list"
    if has_empty_path(head):
        return "sent by a mail server"
    return "from an address that takes no mail" if head.answer_to.partition("@")[0] in _NOBODY else ""


def has_empty_path(head: Head) -> bool:
    """Tell whether a mail has the return path of reports: none."""
    return head.telling.get("return-path", "").strip() == "<>"


def same_mailbox(address: str, own: str) -> bool:
    """Tell whether an address is one's own, whatever stands behind a plus.

    >>> same_mailbox("size+7@workshop.example", "Size@workshop.example")
    True
    """
    local, _, domain = address.casefold().rpartition("@")
    mine, _, home = own.casefold().rpartition("@")
    return domain == home and local.partition("+")[0] == mine.partition("+")[0]
