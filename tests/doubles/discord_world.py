"""What Discord's servers know, for tests: people, a server with channels, messages, threads, interactions, files.

The world, its rights, limits and refusals are simcord's: an independent library judges the bot's calls. Here stand what
it leaves open or has otherwise, each with its source, and what a sound program never does, which is kept in `faults`.
"""

import json
import threading
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any

from simcord._clock import Clock
from simcord.backend import Backend
from simcord.backend.errors import BackendError
from simcord.backend.models import Message
from simcord.http import client as _client  # noqa: F401 - loading it registers the routes
from simcord.http import router

Json = dict[str, Any]
NONCE_S = 180.0
"""A nonce that is enforced is remembered for "the past few minutes" (API reference, create message)."""
PAGE = 100
CDN = "https://cdn.simcord.invalid"
FLAG_MESSAGE_CONTENT = 1 << 19  # API reference, application flags: below 100 servers


class Now(Clock):
    """The time of this machine: the three seconds of an interaction are real ones. behind: for what was earlier."""

    behind = timedelta()

    def now(self) -> datetime:
        return datetime.now(UTC) - self.behind


@dataclass(slots=True)
class File:
    """An upload. fp: as simcord reads it."""

    filename: str
    fp: Any
    description: str | None = None


@dataclass(slots=True)
class DiscordWorld:
    """Everything on the server's side; one thread at a time, see `lock`. `emit` takes an event and its object."""

    emit: Callable[[str, Json], None]
    message_content: bool = True
    """Whether the switch for message content is on in the portal."""
    lock: threading.RLock = field(default_factory=threading.RLock)
    faults: list[str] = field(default_factory=list)
    now: Now = field(default_factory=Now)
    backend: Backend = field(init=False)
    _nonces: dict[str, tuple[float, Json]] = field(default_factory=dict)
    _nonce_of: dict[int, str] = field(default_factory=dict)
    _sending: str | None = None

    def __post_init__(self) -> None:
        self.backend = Backend(clock=self.now)
        self.backend.subscribers.append(self._told)

    def _told(self, event: str, payload: Mapping[str, Any]) -> None:
        told = json.loads(json.dumps(payload))
        if event == "MESSAGE_CREATE" and self._sending is not None:
            told["nonce"] = self._sending
        self.emit(event, told)

    # Calls

    def call(
        self, method: str, path: str, *, body: Any = None, params: Json | None = None, files: list[File] | None = None
    ) -> Any:
        """Do what a call asks, and give its result.

        Raises   BackendError: refused
        """
        with self.lock:
            self._judge(method, path, body)
            try:
                return self._answer(method, path, body, params or {}, files or [])
            except (router.RouteNotImplemented, router.UnsupportedField) as error:
                self.faults.append(str(error))
                raise
            except BackendError as error:
                if error.code in _NEVER:
                    self.faults.append(f"{method} {path}: {error}")
                raise

    def _judge(self, method: str, path: str, body: Any) -> None:
        """What a sound bot of ours does with each text: it mentions nobody, and each can be told from every other."""
        if not isinstance(body, dict) or method not in ("POST", "PATCH"):
            return
        said = body.get("data") if path.endswith("/callback") else body
        if not isinstance(said, dict) or not (said.get("content") or said.get("attachments")):
            return
        if said.get("allowed_mentions", {}).get("parse") != [] or said["allowed_mentions"].get("replied_user"):
            self.faults.append(f"{method} {path}: mentions are not switched off")
        if method == "POST" and path.startswith("/channels/") and not (body.get("nonce") and body["enforce_nonce"]):
            self.faults.append(f"{method} {path}: no nonce, or it is not enforced")

    def _answer(self, method: str, path: str, body: Any, params: Json, files: list[File]) -> Any:
        parts = path.strip("/").split("/")
        match method, parts:
            case "POST", ["channels", _, "messages"] if isinstance(body, dict) and body.get("enforce_nonce"):
                return self._send_once(path, body, files)
            case "GET", ["channels", channel, "messages"] if "after" in params:
                return self._after(int(channel), path, params)
            case "POST", ["channels", _, "messages", message, "threads"] if int(message) in self.backend.channels:
                raise BackendError(400, 160004, "A thread has already been created for this message")
            case "GET", ["oauth2", "applications", "@me"]:
                flags = FLAG_MESSAGE_CONTENT if self.message_content else 0
                return {**self._dispatch(method, path, body, params, files), "flags": flags}
        return self._dispatch(method, path, body, params, files)

    def _dispatch(self, method: str, path: str, body: Any, params: Json, files: list[File]) -> Any:
        return router.dispatch(
            self.backend,
            method,
            path,
            json=body,
            params=params,
            files=files,
            message_content_access=self.message_content,
        )

    def _send_once(self, path: str, body: Json, files: list[File]) -> Any:
        """With an enforced nonce, "if another message was created by the same author with the same nonce, that message
        will be returned and no new message will be created" (API reference, create message)."""
        nonce = str(body["nonce"])
        if len(nonce) > 25:
            raise BackendError(400, 50035, "nonce: Must be 25 or fewer in length")
        known = self._nonces.get(nonce)
        if known is not None and time.monotonic() - known[0] < NONCE_S:
            return known[1]
        self._sending = nonce
        try:
            sent = {**self._dispatch("POST", path, body, {}, files), "nonce": nonce}
        finally:
            self._sending = None
        self._nonces[nonce] = (time.monotonic(), sent)
        return sent

    def _after(self, channel: int, path: str, params: Json) -> Any:
        """Of those after a message the oldest are given, the newest of them first: so discord.py pages through."""
        everything = {key: value for key, value in params.items() if key != "limit"} | {"limit": 1_000_000}
        found = self._dispatch("GET", path, None, everything, [])
        return found[-int(params.get("limit", 50)) :] if channel in self.backend.messages else found

    # What people write

    def write(
        self,
        channel: int,
        author: int,
        content: str,
        *,
        files: Sequence[tuple[str, bytes]] = (),
        reference: Json | None = None,
    ) -> Message:
        """Let somebody write, also more than Discord lets people write at once."""
        stored = self.backend.store_attachments(channel, files)
        forwards = reference is not None and reference.get("type") == 1
        start = "" if forwards else content[:2000] or "x"
        message = self.backend.prepare_message(channel, author, start, attachments=stored, reference=reference)
        message.content = content
        return self.backend.commit_message(message)


_NEVER = frozenset({50035, 50006, 50083})
"""Error codes of calls that a sound program never makes: a bad form, an empty message, one into a closed thread."""
