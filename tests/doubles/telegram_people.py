"""The hands and eyes of a test in front of the Bot API double: what people do, and what can be seen of it."""

import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any, TypeVar

from tests.doubles.telegram_judge import judge_update
from tests.doubles.telegram_world import Connection, Json, Person, World, document, photo_sizes

T = TypeVar("T")


class Cut(StrEnum):
    """Where the network fails in a call."""

    BEFORE = "before"
    """The connection closes before the server has done anything."""
    AFTER = "after"
    """The server did it; the connection closes before a word of the answer."""
    HALF = "half"
    """The server did it; the answer breaks off in the middle."""
    HANG = "hang"
    """The server did it and never answers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """What befalls the next call of a method: a cut, or an answer with an HTTP error."""

    cut: Cut | None = None
    status: int = 0
    retry_after: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Call:
    """A call as it came. refused: what the server answered if it did not do it; cut: how the network failed."""

    method: str
    form: dict[str, str]
    refused: str | None = None
    cut: Cut | None = None
    at: float = field(default_factory=time.monotonic)


class TelegramPeople:
    """People with accounts, what they write and press, what they and the test then see. Callable from any thread."""

    def __init__(self) -> None:
        self.calls: list[Call] = []
        self.faults: list[str] = []
        self.world = World(emit=self._emit)
        self._queue: list[Json] = []
        self._changed = threading.Condition(threading.RLock())
        self._next_update = 100
        self._people = 0

    def _emit(self, kind: str, payload: Json) -> None:
        with self._changed:
            self._next_update += 1
            update = {"update_id": self._next_update, kind: dict(payload)}
            judge_update(update)
            self._queue.append(update)
            self._changed.notify_all()
        self._queued()

    def _queued(self) -> None:
        """Called after an update was queued."""

    def person(self, first_name: str, **names: str) -> Person:
        """Make somebody with an account."""
        with self._changed:
            self._people += 1
            person = Person(id=5_000_000_000 + self._people, first_name=first_name, **names)
            self.world.people[person.id] = person
            return person

    def write(self, person: Person, text: str, *, reply_to: int | None = None, **parts: Any) -> int:
        """Let somebody write to the bot; gives the message's id."""
        with self._changed:
            if reply_to is not None:
                parts["reply_to_message"] = self.world.find((0, person.id), reply_to)
            return int(self.world.write(person, text=text, **parts)["message_id"])

    def forward(self, person: Person, text: str, *, origin: Person | None = None) -> int:
        """Let somebody forward a message to the bot; origin None: from a person who hides her account."""
        source: Json = {"type": "hidden_user", "date": self.world.now(), "sender_user_name": "Somebody"}
        if origin is not None:
            source = {"type": "user", "date": self.world.now(), "sender_user": origin.as_user()}
        return self.write(person, text, forward_origin=source)

    def revise(self, person: Person, message_id: int, text: str) -> None:
        """Let somebody edit her message to the bot."""
        with self._changed:
            self.world.revise(person, message_id, text=text)

    def send_photo(
        self, person: Person, content: bytes, *, caption: str | None = None, as_file: str | None = None
    ) -> int:
        """Let somebody send a picture, compressed or (as_file: its name) as a file."""
        with self._changed:
            file_id = self.world.store_file(content)
            parts: Json = {"photo": photo_sizes(file_id, content)}
            if as_file:
                parts = {"document": document(file_id, content, name=as_file, kind="image/jpeg")}
            if caption is not None:
                parts["caption"] = caption
            return int(self.world.write(person, **parts)["message_id"])

    def send(self, person: Person, **parts: Any) -> int:
        """Let somebody send something else to the bot: a sticker, a location ..."""
        with self._changed:
            return int(self.world.write(person, **parts)["message_id"])

    def delete(self, person: Person, message_id: int) -> None:
        """Let somebody delete a message in her chat with the bot, of which the bot hears nothing."""
        with self._changed:
            self.world.chats[0, person.id] = [
                message for message in self.world.chats[0, person.id] if message["message_id"] != message_id
            ]

    def press(self, person: Person, message_id: int, data: str) -> str:
        """Let somebody press a button with this data below a message; gives the id of the press."""
        with self._changed:
            return self.world.press(person, message_id, data)

    def block(self, person: Person) -> None:
        """Let somebody block the bot."""
        with self._changed:
            self.world.blocked.add(person.id)

    def connect(self, owner: Person, *, can_reply: bool = True) -> Connection:
        """Connect somebody's business account to the bot."""
        with self._changed:
            name = f"business-{len(self.world.connections) + 1}"
            connection = self.world.connections[name] = Connection(id=name, owner=owner, can_reply=can_reply)
            self._emit("business_connection", connection.as_json(self.world.now()))
            return connection

    def reconnect(self, connection: Connection, *, enabled: bool = True, can_reply: bool = True) -> None:
        """Change the rights of a business connection."""
        with self._changed:
            connection.enabled, connection.can_reply = enabled, can_reply
            self._emit("business_connection", connection.as_json(self.world.now()))

    def write_business(self, connection: Connection, person: Person, text: str, *, by_owner: bool = False) -> int:
        """Let somebody write to a business account, or its owner write to somebody."""
        with self._changed:
            by = connection.owner if by_owner else None
            return int(self.world.write(person, connection=connection, by=by, text=text)["message_id"])

    def revise_business(self, connection: Connection, person: Person, message_id: int, text: str) -> None:
        """Let somebody edit a message in a business account's chat."""
        with self._changed:
            self.world.revise(person, message_id, connection=connection, text=text)

    def delete_business(self, connection: Connection, person: Person, message_ids: list[int]) -> None:
        """Let somebody delete messages from a business account's chat."""
        with self._changed:
            self._emit(
                "deleted_business_messages",
                {"business_connection_id": connection.id, "chat": person.as_chat(), "message_ids": message_ids},
            )

    def forget(self, kind: str) -> None:
        """Lose the queued updates of a kind, as the server does after a day."""
        with self._changed:
            self._queue[:] = [update for update in self._queue if kind not in update]

    def chat(self, person: Person, connection: Connection | None = None) -> list[Json]:
        """The messages of a chat as they stand now, oldest first."""
        with self._changed:
            key = (connection.owner.id if connection else 0, person.id)
            return [dict(message) for message in self.world.chats.get(key, [])]

    def sent(self, person: Person, connection: Connection | None = None) -> list[str]:
        """The texts that the bot has in a chat now, oldest first."""
        return [
            message["text"]
            for message in self.chat(person, connection)
            if "text" in message and (message["from"]["is_bot"] or "sender_business_bot" in message)
        ]

    def made(self, method: str) -> list[Call]:
        """The calls of a method, oldest first."""
        with self._changed:
            return [call for call in self.calls if call.method == method]

    def unconfirmed(self) -> int:
        """How many updates the bot has not yet confirmed."""
        with self._changed:
            return len(self._queue)

    def answer_to(self, press: str) -> str | None:
        """What was answered to a press of a button; None: nothing yet."""
        with self._changed:
            return next((answer["text"] or "" for answer in self.world.answers if answer["id"] == press), None)

    def look(self) -> None:
        """Let everybody who waits look again."""
        with self._changed:
            self._changed.notify_all()

    def wait_until(self, happened: Callable[[], T], *, timeout_s: float = 10.0) -> T:
        """Wait until something can be seen here, looked at after each call; gives what `happened` gave.

        Raises   TimeoutError with the last calls and the faults
        """
        with self._changed:
            seen = self._changed.wait_for(happened, timeout_s)
            if not seen:
                recent = [(call.method, call.refused or "") for call in self.calls[-12:]]
                raise TimeoutError(f"it did not happen within {timeout_s} s; calls {recent}, faults {self.faults}")
            return seen


def button(message: Json, label: str) -> str:
    """Give the data of the button whose words begin with a label.

    Raises   LookupError with the labels that are there
    """
    found = {data["text"]: data["callback_data"] for data in _buttons(message)}
    for text, data in found.items():
        if text.lower().startswith(label.lower()):
            return str(data)
    raise LookupError(f"no button {label!r} among {sorted(found)}")


def _buttons(message: Json) -> Iterator[Json]:
    for row in message.get("reply_markup", {}).get("inline_keyboard", []):
        yield from row
