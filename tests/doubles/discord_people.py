"""The hands and eyes of a test in front of the Discord double: what people do, and what can be seen of it."""

import json
import threading
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import timedelta
from typing import Any, TypeVar

from simcord import interactions
from simcord.backend import serializers
from simcord.backend.models import Overwrite
from simcord.enums import ComponentType, InteractionType, OverwriteType

from tests.doubles.discord_world import DiscordWorld, Json
from tests.doubles.telegram_people import Cut

T = TypeVar("T")
VIEW = 1 << 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """Somebody with an account."""

    id: int
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Call:
    """A call as it came. refused: what the server answered if it did not do it; cut: how the network failed."""

    method: str
    path: str
    body: Any
    refused: str | None = None
    cut: Cut | None = None
    at: float = field(default_factory=time.monotonic)


class DiscordPeople:
    """People, what they write and press, what they and the test then see. Callable from any thread."""

    def __init__(self) -> None:
        self.calls: list[Call] = []
        self.world = DiscordWorld(emit=self._told)
        self._changed = threading.Condition(self.world.lock)
        self.wil = self.person("Wil", member=False)
        with self._changed:
            backend = self.world.backend
            self.guild = backend.create_guild("Workshop", owner_id=self.wil.id).id
            hidden = Overwrite(target_id=self.guild, type=OverwriteType.ROLE, deny=VIEW)
            shown = Overwrite(target_id=backend.bot_user.id, type=OverwriteType.MEMBER, allow=VIEW)
            self.back_room = backend.create_channel(self.guild, "back-room", overwrites=[hidden, shown]).id
            self.shop_floor = backend.create_channel(self.guild, "which-size").id
            self.elsewhere = backend.create_channel(self.guild, "chat").id

    def _told(self, event: str, payload: Json) -> None:
        """Called with every event."""
        raise AssertionError("a server tells it")

    # People

    def person(self, name: str, *, member: bool = True) -> Person:
        """Make somebody with an account. member: she is on the workshop's server."""
        with self._changed:
            backend = self.world.backend
            user = backend.make_user(name)
            if member:
                backend.add_member(self.guild, user.id)
            return Person(id=user.id, name=name)

    def let_in(self, person: Person) -> None:
        """Let somebody see the back room."""
        with self._changed:
            shown = Overwrite(target_id=person.id, type=OverwriteType.MEMBER, allow=VIEW)
            self.world.backend.set_overwrite(self.back_room, shown)

    def role(self, name: str, *people: Person) -> int:
        """Make a role and give it to people."""
        with self._changed:
            role = self.world.backend.create_role(self.guild, name).id
            for person in people:
                self.world.backend.add_member_role(self.guild, person.id, role)
            return int(role)

    def dm(self, person: Person) -> int:
        """Give the channel of somebody's conversation with the bot."""
        with self._changed:
            return int(self.world.backend.get_dm_channel(person.id).id)

    def write(
        self,
        person: Person,
        text: str,
        *,
        channel: int | None = None,
        files: Sequence[tuple[str, bytes]] = (),
        reply_to: int | None = None,
    ) -> int:
        """Let somebody write, to the bot or in a channel; gives the message's number."""
        with self._changed:
            where = channel or self.dm(person)
            reference = {"channel_id": str(where), "message_id": str(reply_to)} if reply_to else None
            return int(self.world.write(where, person.id, text, files=files, reference=reference).id)

    def forward(self, person: Person, channel: int, message: int) -> int:
        """Let somebody forward a message to the bot."""
        with self._changed:
            source = {"type": 1, "channel_id": str(channel), "message_id": str(message)}
            return int(self.world.write(self.dm(person), person.id, "", reference=source).id)

    @contextmanager
    def time_ago(self, **span: float) -> Iterator[None]:
        """Let what is written happen some time ago."""
        with self._changed:
            self.world.now.behind = timedelta(**span)
            try:
                yield
            finally:
                self.world.now.behind = timedelta()

    def revise(self, channel: int, message: int, text: str) -> None:
        """Let somebody edit her message."""
        with self._changed:
            self.world.backend.edit_message(channel, message, {"content": text})

    def delete(self, channel: int, message: int) -> None:
        """Let somebody delete her message."""
        with self._changed:
            self.world.backend.delete_message(channel, message)

    def begin_thread(self, person: Person, channel: int, name: str) -> int:
        """Let somebody begin a thread."""
        with self._changed:
            return int(self.world.backend.create_thread(channel, name, person.id).id)

    # Interactions

    def press(self, person: Person, message: Json, code: str) -> int:
        """Let somebody press the button with this code; gives the number of the press."""
        with self._changed:
            channel, number = int(message["channel_id"]), int(message["id"])
            data = {"custom_id": code, "component_type": int(ComponentType.BUTTON)}
            return self._interact(person, InteractionType.MESSAGE_COMPONENT, channel, data, source=number)

    def fill_in(self, person: Person, opened_by: int, values: Mapping[str, str]) -> int:
        """Let somebody fill in the form that an interaction opened; gives the number of what that sends."""
        with self._changed:
            opened = self.world.backend.interactions[opened_by]
            assert opened.modal is not None, f"no form was opened: {opened.response_kind}"
            data = {"custom_id": opened.modal["custom_id"], "components": _filled(opened.modal["components"], values)}
            return self._interact(
                person, InteractionType.MODAL_SUBMIT, opened.channel_id, data, source=opened.source_message_id
            )

    def command(self, person: Person, name: str, *, channel: int | None = None) -> int:
        """Let somebody give a command; gives its number.

        Raises   LookupError: there is no such command for her there
        """
        with self._changed:
            where = channel or self.dm(person)
            commands = {
                one["name"]: one for one in self.world.backend.visible_commands(user_id=person.id, channel_id=where)
            }
            if name not in commands:
                raise LookupError(f"no command {name!r} among {sorted(commands)}")
            data = {"id": commands[name]["id"], "name": name, "type": 1, "options": []}
            return self._interact(person, InteractionType.APPLICATION_COMMAND, where, data)

    def _interact(self, person: Person, kind: int, channel: int, data: Json, *, source: int | None = None) -> int:
        backend = self.world.backend
        guild = backend.get_channel(channel).guild_id
        record, payload = interactions.base_payload(
            backend, type=int(kind), channel_id=channel, guild_id=guild, user_id=person.id, data=data
        )
        if source is not None:
            record.source_message_id = source
            payload["message"] = dict(serializers.message_payload(backend, backend.get_message(channel, source)))
        backend.emit("INTERACTION_CREATE", payload)
        return int(record.id)

    def form(self, interaction: int) -> Json | None:
        """Give the form that an interaction opened; None: none, or not yet."""
        with self._changed:
            return self.world.backend.interactions[interaction].modal

    def answers(self, interaction: int) -> list[str]:
        """Give what was said in answer to an interaction, oldest first."""
        return [str(one["content"]) for one in self.answer_messages(interaction)]

    def answer_messages(self, interaction: int) -> list[Json]:
        """Give the messages in answer to an interaction, oldest first."""
        with self._changed:
            record = self.world.backend.interactions[interaction]
            ids = [one for one in (record.message_id, *record.followup_ids) if one and one != record.source_message_id]
            chat = {int(one["id"]): one for one in self.chat(record.channel_id, unseen=True)}
            return [chat[one] for one in ids if one in chat and chat[one]["content"]]

    def acknowledged(self, interaction: int) -> bool:
        """Tell whether an interaction was answered in time."""
        with self._changed:
            return bool(self.world.backend.interactions[interaction].responded)

    # Seeing

    def chat(self, channel: int, *, unseen: bool = False) -> list[Json]:
        """The messages of a channel as they stand now, oldest first. unseen: with what only one person sees."""
        with self._changed:
            backend = self.world.backend
            messages = sorted(backend.messages.get(channel, {}).values(), key=lambda one: one.id)
            return [
                json.loads(json.dumps(serializers.message_payload(backend, one)))
                for one in messages
                if unseen or not one.is_ephemeral
            ]

    def sent(self, channel: int | Person) -> list[str]:
        """The texts that the bot has in a channel now, oldest first."""
        where = self.dm(channel) if isinstance(channel, Person) else channel
        return [one["content"] for one in self.chat(where) if one["author"].get("bot") and one["type"] in (0, 19)]

    def threads(self) -> list[int]:
        """The threads that there are, oldest first."""
        with self._changed:
            return [int(one.id) for one in self.world.backend.channels.values() if one.is_thread]

    def made(self, method: str, path: str) -> list[Call]:
        """The calls whose path ends so, oldest first."""
        with self._changed:
            return [call for call in self.calls if call.method == method and call.path.endswith(path)]

    def wait_until(self, happened: Callable[[], T], *, timeout_s: float = 10.0) -> T:
        """Wait until something can be seen here, looked at after each call; gives what `happened` gave.

        Raises   TimeoutError with the last calls and the faults
        """
        with self._changed:
            seen = self._changed.wait_for(happened, timeout_s)
            if not seen:
                recent = [(call.method, call.path, call.refused or "") for call in self.calls[-12:]]
                raise TimeoutError(f"not within {timeout_s} s; calls {recent}, faults {self.world.faults}")
            return seen


def _filled(components: list[Json], values: Mapping[str, str]) -> list[Json]:
    filled: list[Json] = []
    for one in components:
        if "component" in one:
            filled.append({"type": one["type"], "component": _filled([one["component"]], values)[0]})
        elif "components" in one:
            filled.append({"type": one["type"], "components": _filled(one["components"], values)})
        else:
            value = values.get(one["custom_id"], one.get("value") or "")
            assert value or not one.get("required", True), f"{one['custom_id']} has to be filled in"
            assert len(value) <= one.get("max_length", 4000), f"{one['custom_id']} takes no more"
            filled.append({"type": one["type"], "custom_id": one["custom_id"], "value": value})
    return filled


def codes(message: Json) -> list[str]:
    """Give the codes of the buttons under a message."""
    return [one["custom_id"] for one in _buttons(message)]


def button(message: Json, label: str) -> str:
    """Give the code of the button whose words begin with a label.

    Raises   LookupError with the labels that are there
    """
    found = {one["label"]: one["custom_id"] for one in _buttons(message)}
    for text, code in found.items():
        if text.lower().startswith(label.lower()):
            return str(code)
    raise LookupError(f"no button {label!r} among {sorted(found)}")


def _buttons(message: Json) -> Iterator[Json]:
    for row in message.get("components", []):
        yield from row.get("components", [])
