"""What an update means is decided from the update alone."""

from typing import Any

import pytest
from telegram import Update

from bot.channels.telegram.updates import (
    Business,
    CustomerChanged,
    CustomerWrote,
    MakerPressed,
    MakerWrote,
    Meaning,
    Nothing,
    meaning,
    message_number,
    split_address,
)
from bot.message import Author
from tests.doubles.telegram_judge import judge_update
from tests.doubles.telegram_world import Connection, Person, World, document, photo_sizes

MAKER = Person(id=42, first_name="Wil", last_name="Sewer")
ADA = Person(id=5001, first_name="Ada")


class Heard:
    """A world whose updates are read at once."""

    def __init__(self) -> None:
        self.world = World(emit=self._keep)
        self.world.people.update({42: MAKER, 5001: ADA})
        self.connection = Connection(id="c1", owner=MAKER)
        self.meanings: list[Meaning] = []

    def _keep(self, kind: str, payload: dict[str, Any]) -> None:
        update = judge_update({"update_id": 1, kind: dict(payload)})
        read = Update.de_json(dict(update), None)
        self.meanings.append(meaning(read, me=self.world.bot.id, makers={42}, owners={"c1": 42}))

    @property
    def last(self) -> Meaning:
        return self.meanings[-1]


def test_a_private_message_of_a_stranger_is_a_customers() -> None:
    heard = Heard()

    heard.world.write(ADA, text="Hello")

    assert isinstance(heard.last, CustomerWrote)
    message = heard.last.message
    assert (message.address, message.account, message.external_id) == ("5001", "", "5001:1")
    assert (message.text, message.author, message.display_name) == ("Hello", Author.CUSTOMER, "Ada")
    assert message.sent_at is not None
    assert message.sent_at.tzinfo is not None


def test_a_message_to_the_business_account_is_known_apart_from_a_private_one() -> None:
    heard = Heard()

    heard.world.write(ADA, text="private")
    heard.world.write(ADA, connection=heard.connection, text="business")

    kept = [(m.message.account, m.message.external_id, m.message.address) for m in heard.meanings]  # type: ignore[union-attr]
    assert kept == [("", "5001:1", "5001"), ("42", "5001:1", "5001@42")]


def test_what_the_owner_writes_by_hand_is_the_makers() -> None:
    heard = Heard()

    heard.world.write(ADA, connection=heard.connection, by=MAKER, text="I'll look")

    assert isinstance(heard.last, CustomerWrote)
    assert (heard.last.message.author, heard.last.message.address) == (Author.MAKER, "5001@42")


@pytest.mark.parametrize("mark", ["echo", "away"])
def test_what_nobody_wrote_by_hand_in_a_business_chat_is_nothing(mark: str) -> None:
    heard = Heard()
    parts: dict[str, Any] = {"is_from_offline": True}
    if mark == "echo":
        parts = {"sender_business_bot": heard.world.bot.as_user(is_bot=True)}

    heard.world.write(ADA, connection=heard.connection, by=MAKER, text="Hello", **parts)

    assert isinstance(heard.last, Nothing)


def test_a_business_account_of_a_stranger_is_not_served() -> None:
    heard = Heard()

    heard.world.write(ADA, connection=Connection(id="c2", owner=ADA), text="Hello")

    assert isinstance(heard.last, Nothing)


def test_an_edit_names_the_message_and_its_new_text() -> None:
    heard = Heard()
    number = heard.world.write(ADA, text="width 5")["message_id"]

    heard.world.revise(ADA, number, text="width 6")

    assert isinstance(heard.last, CustomerChanged)
    assert [(edit.external_id, edit.text) for edit in heard.last.edits] == [("5001:1", "width 6")]


def test_deleted_business_messages_are_edits_without_a_text() -> None:
    heard = Heard()
    gone = {"business_connection_id": "c1", "chat": ADA.as_chat(), "message_ids": [3, 4]}

    heard.world.emit("deleted_business_messages", gone)

    assert isinstance(heard.last, CustomerChanged)
    assert [(edit.account, edit.external_id, edit.text) for edit in heard.last.edits] == [
        ("42", "5001:3", None),
        ("42", "5001:4", None),
    ]


def test_a_photo_keeps_its_words_and_its_largest_size() -> None:
    heard = Heard()
    sizes = photo_sizes("small", b"1") + photo_sizes("large", b"123")

    heard.world.write(ADA, photo=sizes, caption="this is Pickle")

    assert isinstance(heard.last, CustomerWrote)
    assert heard.last.message.text == "this is Pickle"
    assert [(file.file_id, file.name, file.size) for file in heard.last.files] == [("large", "photo.jpg", 3)]


def test_a_file_keeps_its_name() -> None:
    heard = Heard()

    heard.world.write(ADA, document=document("f", b"x", name="../../dog.jpg", kind="image/jpeg"))

    assert isinstance(heard.last, CustomerWrote)
    assert [(file.name, file.type) for file in heard.last.files] == [("../../dog.jpg", "image/jpeg")]


def test_a_makers_own_chat_is_no_customers() -> None:
    heard = Heard()

    heard.world.write(MAKER, text="width 5.5")

    assert isinstance(heard.last, MakerWrote)
    assert (heard.last.user, heard.last.text, heard.last.forwarded) == (42, "width 5.5", False)


def test_a_forwarded_message_says_from_whom() -> None:
    heard = Heard()
    origin = {"type": "user", "date": 1_700_000_000, "sender_user": ADA.as_user()}

    heard.world.write(MAKER, text="16 lb beagle", forward_origin=origin)

    assert isinstance(heard.last, MakerWrote)
    assert (heard.last.forwarded, heard.last.origin) == (True, "Ada")


def test_a_press_carries_presser_code_and_message() -> None:
    heard = Heard()
    number = heard.world.write(ADA, text="x")["message_id"]

    heard.world.press(ADA, number, "a:7.3")

    assert isinstance(heard.last, MakerPressed)
    assert (heard.last.user, heard.last.code, heard.last.message) == (5001, "a:7.3", 1)


def test_a_group_is_not_listened_to() -> None:
    update = {
        "update_id": 1,
        "message": {
            "message_id": 1,
            "date": 1,
            "chat": {"id": -100, "type": "supergroup", "title": "x"},
            "from": ADA.as_user(),
            "text": "width 5",
        },
    }

    assert isinstance(meaning(Update.de_json(update, None), me=1, makers={42}, owners={}), Nothing)


def test_a_connection_tells_its_rights() -> None:
    heard = Heard()

    heard.world.emit("business_connection", Connection(id="c9", owner=MAKER, can_reply=False).as_json(1))

    assert heard.last == Business(id="c9", owner=42, enabled=True, can_reply=False)


def test_addresses_and_ids_can_be_taken_apart_again() -> None:
    assert split_address("5001") == (5001, None)
    assert split_address("5001@42") == (5001, 42)
    assert message_number("5001:17") == 17
