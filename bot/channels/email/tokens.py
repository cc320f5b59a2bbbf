"""The tokens by which a maker's answer is known to answer one very mail of ours.

A token is made from a key that only this shop's store holds, and from the draft, what may be done with it, and the
maker whom it was mailed to. So none has to be kept, none can be guessed, and each is worth something once: when the
draft is decided, or has a next version, the store refuses what the token would allow.
"""

import base64
import hashlib
import hmac
import re
import secrets
from collections.abc import Iterable
from dataclasses import dataclass

from bot.approval.decision import Number
from bot.message import ChannelName
from bot.store.cursors import read_cursor, write_cursor
from bot.store.database import Database

FOLDER = "key of answers by mail"
DECIDE, SURE, COPY = "decide", "sure", "copy"
_TOKEN = re.compile(r"\btl\.(\d{1,9})\.(\d{1,9})\.(decide|sure|copy|settle\d{1,6})\.([a-z2-7]{26})(?=@|$)")


@dataclass(frozen=True, slots=True, kw_only=True)
class Token:
    """What a maker's answer may do. purpose: DECIDE; SURE, the second yes; COPY; or settle(...)."""

    number: Number
    purpose: str


def settle(attempts: int) -> str:
    """Give the purpose of a mail about a text that is held or unsure. attempts: made so far, each asks anew."""
    return f"settle{attempts}"


class Tokens:
    """Makes and knows the tokens of one shop."""

    def __init__(self, database: Database) -> None:
        with database.write() as connection:
            key = read_cursor(connection, ChannelName.EMAIL, "", folder=FOLDER)
            if key is None:
                key = secrets.token_hex(32)
                write_cursor(connection, ChannelName.EMAIL, "", key, folder=FOLDER)
        self._key = bytes.fromhex(key)

    def __repr__(self) -> str:
        return "Tokens(key withheld)"

    def make(self, token: Token, maker: str) -> str:
        """Give a token as it stands before the @ of an id, or behind the plus of an address."""
        return f"tl.{token.number}.{token.purpose}.{self._proof(token, maker)}"

    def thread(self, enquiry: int, maker: str) -> str:
        """Give what names all mails to a maker about an enquiry; it allows nothing."""
        return f"tl-thread.{enquiry}.{self._sign(f'thread {enquiry}', maker)}"

    def find(self, places: Iterable[str], maker: str) -> Token | None:
        """Give the first sound token in some addresses and ids, the likeliest first; None: there is none."""
        for place in places:
            for found in _TOKEN.finditer(place.lower()):
                number = Number(enquiry=int(found[1]), version=int(found[2]))
                token = Token(number=number, purpose=found[3])
                if hmac.compare_digest(self._proof(token, maker), found[4]):
                    return token
        return None

    def _proof(self, token: Token, maker: str) -> str:
        return self._sign(f"{token.number} {token.purpose}", maker)

    def _sign(self, what: str, maker: str) -> str:
        told = f"{what} {maker.casefold()}".encode()
        return base64.b32encode(hmac.digest(self._key, told, hashlib.sha256)[:16]).decode().rstrip("=").lower()
