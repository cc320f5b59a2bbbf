"""Whole cutting steps."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.cutting import nearest_within


@pytest.mark.parametrize(
    ("target", "low", "high", "cut"),
    [
        (14.3, 13.0, 16.0, 14.25),
        (14.375, 13.0, 16.0, 14.5),
        (14.3, 14.4, 16.0, 14.5),
        (14.3, 13.0, 14.2, 14.0),
        (14.25, 14.25, 14.25, 14.25),
        (0.1 + 0.2 - 0.05, 0.25, 0.25, 0.25),
    ],
)
def test_the_nearest_step_between_the_ends_is_cut(target: float, low: float, high: float, cut: float) -> None:
    assert nearest_within(target, low, high, step=0.25) == cut


def test_where_no_step_lies_nothing_is_cut() -> None:
    assert nearest_within(14.3, 14.26, 14.49, step=0.25) is None
    assert nearest_within(14.3, 14.5, 14.25, step=0.25) is None


@given(
    st.floats(min_value=0, max_value=100),
    st.floats(min_value=0, max_value=100),
    st.floats(min_value=0, max_value=5),
    st.sampled_from([0.125, 0.25, 0.5, 0.5 / 2.54]),
)
def test_what_is_cut_is_a_step_between_the_ends_and_none_there_is_nearer(
    target: float, low: float, span: float, step: float
) -> None:
    cut = nearest_within(target, low, low + span, step=step)
    steps = [n * step for n in range(int(low / step) - 1, int((low + span) / step) + 3)]
    between = [one for one in steps if low - 1e-9 <= one <= low + span + 1e-9]

    assert (cut is None) == (between == []) or span < 1e-8
    if cut is not None:
        assert abs(cut - target) <= min(abs(one - target) for one in between) + 1e-9


@pytest.mark.parametrize("huge", [1e15, 1e308, float("inf")])
def test_what_no_cloth_has_is_left_as_it_is(huge: float) -> None:
    assert nearest_within(huge, huge, huge, step=0.25) == huge
