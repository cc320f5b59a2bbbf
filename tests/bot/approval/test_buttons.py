"""The codes of buttons: short, and nothing but an action and a draft's number."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.approval.buttons import LABELS, LONGEST_BYTES, Action, Press, code, read_code
from bot.approval.decision import Number

NUMBERS = st.builds(Number, enquiry=st.integers(1, 10**12 - 1), version=st.integers(1, 10**9 - 1))


@given(st.sampled_from(Action), NUMBERS)
def test_a_code_comes_back_and_fits_every_channel(action: Action, number: Number) -> None:
    written = code(action, number)

    assert read_code(written) == Press(action=action, number=number)
    assert len(written.encode()) <= LONGEST_BYTES


@pytest.mark.parametrize(
    "written", ["", "approve:7.3", "tl1:pay:7.3", "tl1:approve:7", "tl1:approve:7.3 ", "tl1:approve:٧.٣"]
)
def test_what_is_no_code_of_ours_is_none(written: str) -> None:
    assert read_code(written) is None


@given(st.text(max_size=64))
def test_any_text_is_a_code_or_none(written: str) -> None:
    press = read_code(written)

    assert press is None or code(press.action, press.number) == written


def test_every_button_has_its_words() -> None:
    assert set(LABELS) == set(Action)
