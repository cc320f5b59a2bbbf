"""What a mail means to the workshop. Pure.

Who wrote a mail is proved by nothing in it: From is a line that anybody can write. So a maker's answer counts by its
token alone, and her address is asked for besides.
"""

from collections.abc import Collection
from dataclasses import dataclass

from bot.channels.email.bounces import Delayed, Returned, find_returned
from bot.channels.email.compose import text_key
from bot.channels.email.letter import Letter
from bot.channels.email.machines import is_ours, same_mailbox, why_machine
from bot.channels.email.tokens import Token, Tokens


@dataclass(frozen=True, slots=True, kw_only=True)
class FromCustomer:
    """Somebody asks something."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FromMaker:
    """An answer from a maker's address. token: what it may do; None: nothing proves that it is hers."""

    maker: str
    token: Token | None


@dataclass(frozen=True, slots=True, kw_only=True)
class FromStranger:
    """An answer with a maker's token from an address that may not decide."""

    maker: str
    token: Token


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """Nothing for us; it stays in the mailbox as it is. why: for the log, in words of ours."""

    why: str


Meaning = FromCustomer | FromMaker | FromStranger | Returned | Delayed | Left


@dataclass(frozen=True, slots=True, kw_only=True)
class Whose:
    """Whose mail it is.

    address   our own
    domain    of our own address, in the characters of headers
    makers    addresses that may decide
    forms     addresses from which a machine sends what people typed
    """

    address: str
    domain: str
    makers: Collection[str]
    forms: Collection[str]


def meaning(letter: Letter, whose: Whose, tokens: Tokens) -> Meaning:
    """Say what a mail means."""
    head = letter.head
    if is_ours(head) or (head.message_id and text_key(head.message_id, whose.domain)):
        return Left(why="one of our own")
    returned = find_returned(letter, whose.domain)
    if returned is not None:
        return returned
    typed = any(same_mailbox(head.sender, form) for form in whose.forms) and len(head.senders) == 1
    if not typed and (why := why_machine(head)):
        return Left(why=why)
    if not typed and (answer := _answer(letter, whose, tokens)) is not None:
        return answer
    if same_mailbox(head.answer_to, whose.address):
        return Left(why="from our own address")
    return FromCustomer() if head.answer_to else Left(why="from nobody who could be answered")


def _answer(letter: Letter, whose: Whose, tokens: Tokens) -> FromMaker | FromStranger | None:
    """Give an answer to a mail that a maker was sent; None: it is none."""
    head = letter.head
    places = (*head.recipients, *head.answers)
    for maker in whose.makers:
        if [address for _, address in head.senders] == [maker.casefold()]:
            return FromMaker(maker=maker, token=tokens.find(places, maker))
    for maker in whose.makers:
        token = tokens.find(places, maker)
        if token is not None:
            return FromStranger(maker=maker, token=token)
    return None
