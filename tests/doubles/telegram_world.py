"""What a Bot API server knows: people, chats, messages, business connections, files and open button presses.

No network in here. Refusals are worded as the server words them, from memory of its answers.
"""

import itertools
import time
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from aiogram import methods
from aiogram.methods import TelegramMethod
from aiogram.types import BufferedInputFile

from tests.doubles.telegram_judge import RefusedError

Json = dict[str, Any]
FILE_LIMIT = 20 * 1024 * 1024
"""Bytes that getFile offers for download (Bot API reference, getFile)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """Somebody with an account."""

    id: int
    first_name: str
    last_name: str | None = None
    username: str | None = None

    def as_user(self, *, is_bot: bool = False) -> Json:
        """Give the User object."""
        return {"id": self.id, "is_bot": is_bot, **self._names()}

    def as_chat(self) -> Json:
        """Give the private chat with this person."""
        return {"id": self.id, "type": "private", **self._names()}

    def _names(self) -> Json:
        names = {"first_name": self.first_name, "last_name": self.last_name, "username": self.username}
        return {key: value for key, value in names.items() if value is not None}


@dataclass(slots=True, kw_only=True)
class Connection:
    """A business account that lets the bot read and answer."""

    id: str
    owner: Person
    enabled: bool = True
    can_reply: bool = True

    def as_json(self, now: int) -> Json:
        """Give the BusinessConnection object."""
        return {
            "id": self.id,
            "user": self.owner.as_user(),
            "user_chat_id": self.owner.id,
            "date": now,
            "is_enabled": self.enabled,
            "rights": {"can_reply": True} if self.can_reply else {},
        }


ChatKey = tuple[int, int]
"""Whose account (0: the bot's own) and which chat. Two accounts number their messages independently."""


@dataclass(slots=True)
class World:
    """Everything on the server's side. `emit` takes the kind of an update and its object."""

    emit: Callable[[str, Json], None]
    bot: Person = field(
        default_factory=lambda: Person(id=7_000_001, first_name="Carriers", username="carriers_to_measure_bot")
    )
    chats: dict[ChatKey, list[Json]] = field(default_factory=dict)
    people: dict[int, Person] = field(default_factory=dict)
    blocked: set[int] = field(default_factory=set)
    connections: dict[str, Connection] = field(default_factory=dict)
    files: dict[str, bytes] = field(default_factory=dict)
    presses: dict[str, bool] = field(default_factory=dict)
    """Open button presses; True: answered."""
    answers: list[Json] = field(default_factory=list)
    """What was answered to presses: id, text, show_alert."""
    commands: dict[int, list[str]] = field(default_factory=dict)
    """The commands that are listed in a chat; 0: in every other one."""
    echo_business: bool = True
    """Send the bot's own business messages back to it as updates."""
    clock: Callable[[], float] = time.time
    _last_id: dict[int, int] = field(default_factory=dict)
    _count: "itertools.count[int]" = field(default_factory=lambda: itertools.count(1))

    def now(self) -> int:
        """Give the time of the server in whole seconds."""
        return int(self.clock())

    # People

    def write(
        self, person: Person, *, connection: Connection | None = None, by: Person | None = None, **parts: Any
    ) -> Json:
        """Let a person write to the bot, or to (or, with by, as) the owner of a business account."""
        key = (connection.owner.id if connection else 0, person.id)
        self.people[person.id] = person
        if connection is None:
            self.blocked.discard(person.id)
        message = self._message(key, (by or person).as_user(), connection, **parts)
        self.emit("business_message" if connection else "message", message)
        return message

    def revise(self, person: Person, message_id: int, *, connection: Connection | None = None, **parts: Any) -> None:
        """Let a person change what she wrote."""
        key = (connection.owner.id if connection else 0, person.id)
        message = self.find(key, message_id)
        if message is None:
            raise LookupError(f"no message {message_id} in chat {key}")
        message.update(parts, edit_date=self.now())
        self.emit("edited_business_message" if connection else "edited_message", dict(message))

    def press(self, person: Person, message_id: int, data: str) -> str:
        """Let a person press a button below a message of the bot; gives the id of the press."""
        press = f"press-{next(self._count)}"
        self.presses[press] = False
        message = self.find((0, person.id), message_id)
        update: Json = {"id": press, "from": person.as_user(), "chat_instance": str(person.id), "data": data}
        self.emit("callback_query", update if message is None else {**update, "message": dict(message)})
        return press

    def store_file(self, content: bytes) -> str:
        """Keep a file; gives its id."""
        file_id = f"file-{next(self._count)}"
        self.files[file_id] = content
        return file_id

    def find(self, key: ChatKey, message_id: int) -> Json | None:
        """Find a message in a chat."""
        return next((message for message in self.chats.get(key, []) if message["message_id"] == message_id), None)

    def _message(self, key: ChatKey, sender: Json, connection: Connection | None, **parts: Any) -> Json:
        self._last_id[key[0]] = self._last_id.get(key[0], 0) + 1
        message: Json = {
            "message_id": self._last_id[key[0]],
            "date": self.now(),
            "chat": self.people[key[1]].as_chat(),
            "from": sender,
            **parts,
        }
        if connection is not None:
            message["business_connection_id"] = connection.id
        self.chats.setdefault(key, []).append(message)
        return message

    # Calls

    def answer(self, call: TelegramMethod[Any]) -> Any:
        """Do what a call asks and give its result.

        Raises   RefusedError
        """
        for kind, handle in _CALLS.items():
            if type(call) is kind:
                return handle(self, call)
        raise RefusedError(f"Bad Request: this double does not play {call.__api_method__}", fault=True)

    def _target(self, call: Any) -> tuple[ChatKey, Connection | None]:
        """The chat a call writes into, if the bot may."""
        name = getattr(call, "business_connection_id", None)
        if name is None:
            if call.chat_id not in self.people or (0, call.chat_id) not in self.chats:
                raise RefusedError("Forbidden: bot can't initiate conversation with a user", status=403)
            if call.chat_id in self.blocked:
                raise RefusedError("Forbidden: bot was blocked by the user", status=403)
            return (0, call.chat_id), None
        connection = self.connections.get(name)
        if connection is None or not connection.enabled:
            raise RefusedError("Bad Request: BUSINESS_CONNECTION_INVALID")
        if not connection.can_reply:
            raise RefusedError("Bad Request: BUSINESS_PEER_USAGE_MISSING")
        key = (connection.owner.id, call.chat_id)
        if not any(message["from"]["id"] == call.chat_id for message in self.chats.get(key, [])):
            raise RefusedError("Bad Request: BUSINESS_PEER_INVALID")
        return key, connection

    def _replied(self, call: Any, key: ChatKey) -> Json:
        wanted = call.reply_parameters
        if wanted is None:
            return {}
        message = self.find(key, wanted.message_id)
        if message is None:
            if wanted.allow_sending_without_reply is True:
                return {}
            raise RefusedError("Bad Request: message to be replied not found")
        return {"reply_to_message": {name: value for name, value in message.items() if name != "reply_to_message"}}

    def _sent(self, call: Any, **parts: Any) -> Json:
        key, connection = self._target(call)
        markup = {"reply_markup": _as_json(call.reply_markup)} if getattr(call, "reply_markup", None) else {}
        sender = connection.owner.as_user() if connection else self.bot.as_user(is_bot=True)
        parts = {**parts, **self._replied(call, key), **markup}
        if connection:
            parts["sender_business_bot"] = self.bot.as_user(is_bot=True)
        message = self._message(key, sender, connection, **parts)
        if connection and self.echo_business:
            self.emit("business_message", dict(message))
        return dict(message)

    def _send_message(self, call: methods.SendMessage) -> Json:
        return self._sent(call, text=call.text, **_entities(call.entities))

    def _send_file(self, call: methods.SendPhoto | methods.SendDocument) -> Json:
        given: Any = call.photo if isinstance(call, methods.SendPhoto) else call.document
        file_id = self.store_file(given.data) if isinstance(given, BufferedInputFile) else given
        if file_id not in self.files:
            raise RefusedError("Bad Request: wrong file identifier/HTTP URL specified")
        caption = {"caption": call.caption} if call.caption else {}
        if isinstance(call, methods.SendPhoto):
            return self._sent(call, photo=photo_sizes(file_id, self.files[file_id]), **caption)
        return self._sent(call, document=document(file_id, self.files[file_id]), **caption)

    def _edit(self, call: methods.EditMessageText | methods.EditMessageReplyMarkup) -> Json:
        key, connection = self._target(call)
        message = self.find(key, call.message_id or 0)
        if message is None:
            raise RefusedError("Bad Request: message to edit not found")
        if message["from"]["id"] != (connection.owner.id if connection else self.bot.id):
            raise RefusedError("Bad Request: message can't be edited")
        before = (message.get("text"), message.get("entities"), message.get("reply_markup"))
        markup = _as_json(call.reply_markup) if call.reply_markup else None
        after = (message.get("text"), message.get("entities"), markup)
        if isinstance(call, methods.EditMessageText):
            after = (call.text, _entities(call.entities).get("entities"), markup)
        if before == after:
            raise RefusedError("Bad Request: message is not modified")
        message.update(edit_date=self.now())
        for name, value in zip(("text", "entities", "reply_markup"), after, strict=True):
            message.pop(name, None)
            if value is not None:
                message[name] = value
        return dict(message)

    def _delete(self, call: methods.DeleteMessage) -> bool:
        key, _ = self._target(call)
        message = self.find(key, call.message_id)
        if message is None:
            raise RefusedError("Bad Request: message to delete not found")
        self.chats[key].remove(message)
        return True

    def _answer_press(self, call: methods.AnswerCallbackQuery) -> bool:
        answered = self.presses.get(call.callback_query_id)
        if answered is not False:
            # A program that was stopped in between may answer a second time; one that makes up an id may not.
            raise RefusedError(
                "Bad Request: query is too old and response timeout expired or query ID is invalid",
                fault=answered is None,
            )
        self.presses[call.callback_query_id] = True
        self.answers.append({"id": call.callback_query_id, "text": call.text, "show_alert": call.show_alert})
        return True

    def _get_file(self, call: methods.GetFile) -> Json:
        content = self.files.get(call.file_id)
        if content is None:
            raise RefusedError("Bad Request: wrong file_id or the file is temporarily unavailable")
        if len(content) > FILE_LIMIT:
            raise RefusedError("Bad Request: file is too big")
        return {
            "file_id": call.file_id,
            "file_unique_id": f"u-{call.file_id}",
            "file_size": len(content),
            "file_path": f"all/{call.file_id}",
        }

    def _get_connection(self, call: methods.GetBusinessConnection) -> Json:
        connection = self.connections.get(call.business_connection_id)
        if connection is None:
            raise RefusedError("Bad Request: BUSINESS_CONNECTION_INVALID")
        return connection.as_json(self.now())

    def _get_chat(self, call: methods.GetChat) -> Json:
        if not isinstance(call.chat_id, int) or call.chat_id not in self.people:
            raise RefusedError("Bad Request: chat not found")
        return {**self.people[call.chat_id].as_chat(), "accent_color_id": 0, "max_reaction_count": 11}

    def _get_me(self, call: methods.GetMe) -> Json:
        return {
            **self.bot.as_user(is_bot=True),
            "can_join_groups": True,
            "can_read_all_group_messages": False,
            "supports_inline_queries": False,
            "can_connect_to_business": True,
        }

    def _set_commands(self, call: methods.SetMyCommands) -> bool:
        chat = getattr(call.scope, "chat_id", 0)
        if chat and (0, chat) not in self.chats:
            raise RefusedError("Bad Request: chat not found")
        self.commands[chat] = [command.command for command in call.commands]
        return True


def photo_sizes(file_id: str, content: bytes) -> list[Json]:
    """Give a photo in one size."""
    return [
        {"file_id": file_id, "file_unique_id": f"u-{file_id}", "width": 640, "height": 480, "file_size": len(content)}
    ]


def document(file_id: str, content: bytes, *, name: str = "file", kind: str = "application/octet-stream") -> Json:
    """Give a file sent as it is."""
    return {
        "file_id": file_id,
        "file_unique_id": f"u-{file_id}",
        "file_name": name,
        "mime_type": kind,
        "file_size": len(content),
    }


def _as_json(value: Any) -> Any:
    return value.model_dump(mode="json", exclude_none=True)


def _entities(entities: Iterable[Any] | None) -> Json:
    return {"entities": [_as_json(entity) for entity in entities]} if entities else {}


_CALLS: Mapping[type[TelegramMethod[Any]], Callable[[World, Any], Any]] = {
    methods.GetMe: World._get_me,
    methods.SendMessage: World._send_message,
    methods.SendPhoto: World._send_file,
    methods.SendDocument: World._send_file,
    methods.EditMessageText: World._edit,
    methods.EditMessageReplyMarkup: World._edit,
    methods.DeleteMessage: World._delete,
    methods.AnswerCallbackQuery: World._answer_press,
    methods.GetFile: World._get_file,
    methods.GetBusinessConnection: World._get_connection,
    methods.GetChat: World._get_chat,
    methods.SetMyCommands: World._set_commands,
}
