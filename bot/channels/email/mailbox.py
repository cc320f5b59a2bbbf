"""The connection to the IMAP server. Blocking: it belongs to one thread of its own.

Folders are opened read-only (EXAMINE): nothing in the mailbox is ever changed, moved or marked as seen. Sources:
RFC 3501 (UID, UIDVALIDITY: section 2.3.1.1), RFC 2177 (IDLE, ended at least every 29 minutes).
"""

import contextlib
import logging
import socket
import ssl
import threading
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

from imapclient import IMAPClient, SocketTimeout
from imapclient.exceptions import CapabilityError, IMAPClientAbortError, IMAPClientError, LoginError

from bot.channels.email.account import Server
from bot.channels.email.headers import one_line
from bot.channels.email.sending import untrusted
from bot.errors import ChannelError, MendError

CONNECT_S = 20.0
ANSWER_S = 60.0
LOOK_S = 0.5
"""Seconds between two looks whether to stop, while the server has nothing to say."""
BEGINNING = 1_000_000
"""Bytes that are fetched of a mail that is too large: its words stand there."""
_HEAD = "BODY.PEEK[HEADER.FIELDS (MESSAGE-ID FROM DATE SUBJECT RECEIVED)]<0.32768>"
_NOT_NOW = ("UNAVAILABLE", "INUSE", "LIMIT", "TEMPORARY", "TRY AGAIN")
"""RFC 5530 response codes, and words, of a login that is refused for the moment only."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Glance:
    """What is known of a mail before it is fetched. raw: the headers by which it is known."""

    uid: int
    size: int
    stored_at: datetime
    raw: bytes = field(repr=False)


class Mailbox:
    """One connection. All methods block, and raise MendError or ChannelError."""

    def __init__(self, server: Server) -> None:
        self._server = server
        self._client: IMAPClient | None = None
        self._stop = threading.Event()
        self._told_by_server = False

    def open(self) -> None:
        """Connect and log in."""
        _keep_library_silent()
        server = self._server
        with self._in_words():
            self._client = client = IMAPClient(
                server.host,
                server.port,
                ssl=not server.starttls,
                ssl_context=None if server.starttls else server.context,
                timeout=SocketTimeout(CONNECT_S, ANSWER_S),
            )
            if server.starttls:
                client.starttls(server.context)
            self._log_in(client)
            self._told_by_server = b"IDLE" in client.capabilities()

    def _log_in(self, client: IMAPClient) -> None:
        password = self._server.password.get_secret_value()
        try:
            if b"AUTH=PLAIN" in client.capabilities():
                client.plain_login(self._server.user, password)
            else:
                client.login(self._server.user, password)
        except LoginError as error:
            told = one_line(_words(error))
            if any(word in told.upper() for word in _NOT_NOW):
                raise ChannelError(f"{self._server} takes no login now: {told}") from None
            raise MendError(f"{self._server} does not take the name or the password to read with: {told}") from None

    def stop(self) -> None:
        """Let `wait` come to its end. May be called from another thread."""
        self._stop.set()

    def cut(self) -> None:
        """Cut the connection under whoever still waits for the server. May be called from another thread."""
        client = self._client
        if client is not None:
            with contextlib.suppress(OSError, AttributeError):
                socket.socket.shutdown(client.socket(), socket.SHUT_RDWR)

    def close(self) -> None:
        """Close the connection, whatever state it is in."""
        if self._client is None:
            return
        try:
            self._client.logout()
        except Exception:  # a connection that was lost cannot be closed politely
            with contextlib.suppress(Exception):
                self._client.shutdown()
        self._client = None

    def select(self, folder: str) -> int:
        """Open a folder to read, and give its UIDVALIDITY: with another one, all numbers of before mean nothing."""
        client = self._open()
        with self._in_words():
            if not client.folder_exists(folder):
                raise MendError(f"there is no mail folder {folder!r}; there are {', '.join(self._folders())}")
            told = client.select_folder(folder, readonly=True)
            return int(told.get(b"UIDVALIDITY", 0))

    def _folders(self) -> list[str]:
        return [one_line(str(name)) for _, _, name in self._open().list_folders()][:30]

    def after(self, uid: int) -> list[int]:
        """Give the numbers of the mails that came after a number, in order."""
        with self._in_words():
            found = self._open().search(["UID", f"{uid + 1}:*"])
        return sorted(one for one in found if one > uid)  # "*" is the last mail, also where its number is lower

    def glance(self, uids: Sequence[int]) -> dict[int, Glance]:
        """Look at mails without fetching them. One that is gone meanwhile is left out."""
        with self._in_words():
            found = self._open().fetch(uids, ["RFC822.SIZE", "INTERNALDATE", _HEAD])
        return {uid: _glance(uid, fields) for uid, fields in found.items() if b"RFC822.SIZE" in fields}

    def fetch(self, glance: Glance, *, largest: int) -> bytes | None:
        """Fetch a mail; of one that is larger than `largest` bytes only the beginning. None: it is gone."""
        most = largest if glance.size <= largest else min(largest, BEGINNING)
        with self._in_words():
            found = self._open().fetch([glance.uid], [f"BODY.PEEK[]<0.{most}>"])
        return _literal(found.get(glance.uid, {}))

    def wait(self, folder: str, uid: int, *, longest_s: float) -> None:
        """Wait until something comes after a number, at most for so long; where the server cannot say so: for so long.

        What came while the folder was read may have been told with the answer to another command, so it is opened
        anew: from then on nothing is missed.
        """
        if not self._told_by_server:
            self._stop.wait(longest_s)
            return
        client = self._open()
        with self._in_words():
            told = client.select_folder(folder, readonly=True)
            if int(told.get(b"UIDNEXT", 0)) > uid + 1:
                return
            client.idle()
            self._listen(client, time.monotonic() + longest_s)
            client.idle_done()

    def _listen(self, client: IMAPClient, until: float) -> None:
        while (left := until - time.monotonic()) > 0 and not self._stop.is_set():
            began = time.monotonic()
            if client.idle_check(timeout=min(LOOK_S, left)):
                return
            if time.monotonic() - began < min(LOOK_S, left) / 2:
                return  # it woke for nothing that it tells: the connection may be gone, which the next command shows

    def holds(self, header: str, value: str) -> bool:
        """Tell whether a mail with this header is in the open folder."""
        with self._in_words():
            return bool(self._open().search(["HEADER", header, value]))

    def put(self, folder: str, raw: bytes) -> None:
        """Put a mail of ours into a folder, as one that was seen."""
        with self._in_words():
            self._open().append(folder, raw, flags=[b"\\Seen"], msg_time=datetime.now(UTC))

    def count(self, folder: str) -> int:
        """Give how many mails a folder holds."""
        self.select(folder)
        with self._in_words():
            return int(self._open().folder_status(folder, ["MESSAGES"])[b"MESSAGES"])

    @property
    def tells(self) -> bool:
        """Whether the server says by itself that something came."""
        return self._told_by_server

    def _open(self) -> IMAPClient:
        if self._client is None:
            raise ChannelError(f"the connection to {self._server} is closed")
        return self._client

    @contextmanager
    def _in_words(self) -> Iterator[None]:
        """Turn the library's errors into whose turn it is. No message holds the password or a customer's words."""
        server = self._server
        try:
            yield
        except ssl.SSLCertVerificationError as error:
            raise MendError(untrusted(server, error)) from None
        except (ssl.SSLEOFError, ssl.SSLZeroReturnError):
            raise ChannelError(f"the connection to {server} was lost") from None
        except ssl.SSLError as error:
            told = f"{server} does not speak TLS as email.imap_starttls says; look at the port, too"
            raise (ChannelError(f"{server} broke off ({error.reason})") if self._client else MendError(told)) from None
        except CapabilityError:
            raise MendError(f"{server} offers no TLS on this port; look at email.imap and imap_starttls") from None
        except IMAPClientAbortError:
            raise ChannelError(f"the connection to {server} was lost") from None
        except IMAPClientError as error:
            raise ChannelError(f"{server} does not do what it was asked: {one_line(_words(error))}") from None
        except OSError as error:
            raise ChannelError(f"{server} cannot be reached ({type(error).__name__})") from None


def _words(error: Exception) -> str:
    told = error.args[0] if error.args else ""
    return (told.decode("utf-8", "replace") if isinstance(told, bytes) else str(told))[:200]


def _glance(uid: int, fields: dict[bytes, Any]) -> Glance:
    stored = fields.get(b"INTERNALDATE")
    at = stored if isinstance(stored, datetime) else datetime.now(UTC)
    return Glance(
        uid=uid,
        size=int(fields[b"RFC822.SIZE"]),
        stored_at=at.astimezone(UTC),
        raw=_literal(fields) or b"",
    )


def _literal(fields: dict[bytes, Any]) -> bytes | None:
    return next((value for name, value in fields.items() if name.startswith(b"BODY[") and value is not None), None)


def _keep_library_silent() -> None:
    """It would log what it reads."""
    for name in ("imapclient", "imapclient.imaplib"):
        logging.getLogger(name).setLevel(logging.CRITICAL + 1)
