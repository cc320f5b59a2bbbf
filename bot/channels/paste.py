"""Pasted messages: for makers who sell where no program can reach. The answer comes back as a text to copy.

A pasted text carries no id of its own. Its id is made from who is said to have written it, the words, and how many
texts had gone out to her before: the same text pasted twice is one message, the same "yes" to the next question is not.
"""

import hashlib
from itertools import count

from bot.desk import Desk
from bot.keeping import Kept, sound_text
from bot.message import ChannelName, Incoming
from bot.store.database import Connection
from bot.store.enquiries import EnquiryState, newest_of
from bot.store.messages import count_sent
from bot.store.people import find_customer


def keep_pasted(desk: Desk, text: str, *, name: str = "", subject: str = "") -> Kept:
    """Keep a pasted text as a customer's message.

    name      who wrote it, as the maker calls her: her next message continues the enquiry. "": nobody in particular,
              and each new text is an enquiry of its own
    """
    text = sound_text(text)
    with desk.database.read() as connection:
        address = _address(name) or _free_address(connection, text)
        sent = _sent_to(connection, address)
    kept = desk.keep(
        Incoming(
            channel=ChannelName.PASTE,
            external_id=f"{sent} {_mark(address, subject, text)}",
            address=address,
            display_name=" ".join(name.split()),
            text=text,
            subject=subject,
        )
    )
    assert kept is not None  # noqa: S101 - only a message of the maker's own may be left
    return kept


def _address(name: str) -> str:
    """The same person, however her name is typed."""
    return " ".join(sound_text(name).casefold().split())


def _free_address(connection: Connection, text: str) -> str:
    """Somebody of whom nothing is known but a text; another somebody once she was answered."""
    for number in count(1):
        address = f"somebody {_mark(text)} {number}"
        customer = find_customer(connection, ChannelName.PASTE, address)
        if customer is None:
            return address
        if newest_of(connection, customer.id, EnquiryState.OPEN) and not count_sent(connection, customer.id):
            return address
    raise AssertionError


def _sent_to(connection: Connection, address: str) -> int:
    customer = find_customer(connection, ChannelName.PASTE, address)
    return count_sent(connection, customer.id) if customer else 0


def _mark(*parts: str) -> str:
    return hashlib.sha256("\n".join(parts).encode()).hexdigest()[:24]
