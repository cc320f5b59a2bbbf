"""Places, addresses and ids go to the store and come back as they were."""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.channels.discord.places import (
    Kind,
    Place,
    address,
    external_id,
    form_id,
    number_at,
    place_of,
    split_address,
    split_id,
)

NUMBERS = st.integers(1, 2**63 - 1)


@given(
    st.builds(Place, kind=st.just(Kind.DM), id=NUMBERS)
    | st.builds(Place, kind=st.just(Kind.CHANNEL), id=NUMBERS)
    | st.builds(Place, kind=st.just(Kind.THREAD), id=NUMBERS, parent=NUMBERS, customer=NUMBERS)
)
def test_a_place_is_known_by_the_name_of_its_folder(place: Place) -> None:
    assert place_of(place.folder) == place


@pytest.mark.parametrize("folder", ["sign in 7", "files of 3", "", "dm x", "thread 1 in 2", "dm 1 2"])
def test_other_folders_are_no_places(folder: str) -> None:
    assert place_of(folder) is None


@given(NUMBERS, NUMBERS | st.just(0))
def test_an_address_holds_customer_and_channel(customer: int, channel: int) -> None:
    assert split_address(address(customer, channel)) == (customer, channel)


@given(NUMBERS, NUMBERS)
def test_an_id_holds_channel_and_message_and_a_form_is_no_message(channel: int, message: int) -> None:
    assert split_id(external_id(channel, message)) == (channel, message)
    assert split_id(form_id(channel, message)) == (channel, 0)
    assert split_id(None) == (0, 0)


def test_numbers_grow_with_time() -> None:
    # API reference, snowflakes: the example 175928847299117063 was made 2016-04-30 11:18:25.796 UTC
    moment = datetime(2016, 4, 30, 11, 18, 25, 796000, tzinfo=UTC)

    assert number_at(moment) >> 22 == 175928847299117063 >> 22
    assert number_at(moment) < number_at(moment + timedelta(milliseconds=1))
    assert number_at(datetime(2014, 1, 1, tzinfo=UTC)) == 0
