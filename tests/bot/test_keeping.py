"""What comes in is kept once and whole, before anybody reads it."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bot.desk import Desk, Place
from bot.history import load_history
from bot.message import Attachment, Author, ChannelName, Edit, Incoming
from bot.store.cursors import read_cursor
from bot.store.messages import files_of
from sizing.measures import Measure
from tests.fakes import FOUR, THANKS, drafted, message, say, shop_desk


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with shop_desk(tmp_path) as desk:
        yield desk


def texts(desk: Desk, enquiry: int) -> list[str]:
    with desk.database.read() as connection:
        return [row.text for row in load_history(connection, enquiry).messages if not row.deleted]


def test_the_same_message_twice_is_one(desk: Desk) -> None:
    first = desk.keep(message(FOUR, external_id="5001:1"))
    again = desk.keep(message(FOUR, external_id="5001:1"))

    assert first is not None and first.new
    assert again is not None and not again.new
    assert texts(desk, first.enquiry) == [FOUR]


def test_the_same_id_in_another_account_is_another_message(desk: Desk) -> None:
    one = message(FOUR, external_id="5001:1")
    desk.keep(one)
    kept = desk.keep(replace(one, account="2"))

    assert kept is not None and kept.new


def test_how_far_a_channel_was_read_is_committed_with_the_message(desk: Desk) -> None:
    desk.keep(message(FOUR), place=Place(channel=ChannelName.TELEGRAM, value="17"))

    with desk.database.read() as connection:
        assert read_cursor(connection, ChannelName.TELEGRAM, "") == "17"


def test_a_message_of_the_makers_to_somebody_who_never_wrote_is_left(desk: Desk) -> None:
    assert desk.keep(message("Hi Grandma", author=Author.MAKER)) is None


def test_a_message_that_the_maker_sends_by_hand_replaces_the_draft(desk: Desk) -> None:
    row = drafted(desk, FOUR)
    desk.keep(message("I'll ring you", author=Author.MAKER))

    standing = desk.standing(row.enquiry_id)
    assert standing.history.waiting is None
    assert [row.state for row in standing.history.drafts] == ["replaced"]


def test_a_message_of_the_makers_own_is_never_read_as_a_customers(desk: Desk) -> None:
    row = drafted(desk, FOUR)
    desk.keep(message("so is the width 5 in?", author=Author.MAKER))

    assert "width" not in desk.standing(row.enquiry_id).drafted.enquiry.dogs[0].measures


def test_an_edit_is_a_revision_and_is_read_again(desk: Desk) -> None:
    desk.keep(message(FOUR, external_id="5001:1"))
    desk.draft(1)
    desk.edit(Edit(channel=ChannelName.TELEGRAM, external_id="5001:1", text=FOUR.replace("13 in", "15 in")))

    row = desk.draft(1)

    assert row is not None
    assert row.version == 2
    assert desk.standing(1).drafted.enquiry.dogs[0].measures[Measure.LENGTH].written == (15, 15)


def test_an_edit_to_the_same_text_changes_nothing(desk: Desk) -> None:
    desk.keep(message(FOUR, external_id="5001:1"))
    kept = desk.edit(Edit(channel=ChannelName.TELEGRAM, external_id="5001:1", text=FOUR))

    assert kept is not None and not kept.new


def test_an_edit_of_a_message_that_was_never_kept_is_left(desk: Desk) -> None:
    assert desk.edit(Edit(channel=ChannelName.TELEGRAM, external_id="5001:1", text="x")) is None


def test_a_deleted_message_no_longer_counts_but_is_kept(desk: Desk) -> None:
    desk.keep(message(FOUR, external_id="5001:1"))
    desk.keep(message("width 5.25 in", external_id="5001:2"))
    desk.draft(1)
    desk.edit(Edit(channel=ChannelName.TELEGRAM, external_id="5001:2", text=None))

    row = desk.draft(1)

    assert row is not None
    assert row.kind == "question"
    with desk.database.read() as connection:
        assert [one.deleted for one in load_history(connection, 1).messages] == [False, True]


def test_files_are_kept_as_they_came_and_shown_by_name(desk: Desk) -> None:
    picture = Attachment(name="pickle.jpg", type="image/jpeg", bytes=bytes(range(256)))
    desk.keep(replace(message(FOUR), attachments=(picture,)))

    with desk.database.read() as connection:
        row = load_history(connection, 1).messages[0]
        assert row.files == ("pickle.jpg",)
        assert files_of(connection, row.id) == [picture]


def test_a_picture_without_a_word_reaches_the_maker(desk: Desk) -> None:
    desk.keep(replace(message(""), attachments=(Attachment(name="a.jpg", type="image/jpeg", bytes=b"x"),)))

    row = desk.draft(1)

    assert row is not None
    assert (row.kind, row.text) == ("handover", "")


def test_thanks_with_nothing_open_makes_no_draft(desk: Desk) -> None:
    assert desk.draft(say(desk, THANKS)) is None


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(text=st.text(max_size=200), name=st.text(max_size=30), subject=st.text(max_size=30))
def test_any_text_is_kept_with_each_character_in_its_place(desk: Desk, text: str, name: str, subject: str) -> None:
    number = len(desk.settled())
    kept = desk.keep(
        Incoming(
            channel=ChannelName.EMAIL,
            external_id=f"<{number}-{abs(hash((text, name, subject)))}>",
            address=f"{name}@x",
            display_name=name,
            text=text,
            subject=subject,
        )
    )

    assert kept is not None
    stored = texts(desk, kept.enquiry)[-1]
    assert len(stored) == len(text)
    assert all(a in (b, "�") for a, b in zip(stored, text, strict=True))


@pytest.mark.parametrize("text", ["half \ud83d", "null \0", "\ud83d\ude00 whole"])
def test_what_no_store_can_hold_is_replaced(desk: Desk, text: str) -> None:
    stored = texts(desk, say(desk, text))[0]

    assert stored.encode("utf-8")
    assert "\0" not in stored
