"""What goes by itself: nothing that the maker did not allow, and never a size."""

from dataclasses import replace
from datetime import datetime, time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.release import Policy, Release, release
from replies.draft import Draft, DraftKind
from replies.reading.context import Asked
from sizing.measures import Measure

NOON = datetime(2026, 3, 2, 12, 0)
QUESTION = Draft(kind=DraftKind.QUESTION, text="How wide?", asks=(Asked(measure=Measure.WIDTH),))
ALLOWED = Policy(questions=True)
NIGHT = (time(21), time(8))


def test_a_question_goes_where_it_may() -> None:
    assert release(QUESTION, ALLOWED, NOON) is Release.NOW


def test_a_question_waits_where_nothing_was_said() -> None:
    assert release(QUESTION, Policy(), NOON) is Release.WAIT


@pytest.mark.parametrize("kind", [DraftKind.ANSWER, DraftKind.HANDOVER])
def test_no_other_text_ever_goes(kind: DraftKind) -> None:
    assert release(replace(QUESTION, kind=kind), ALLOWED, NOON) is Release.WAIT


def test_nothing_is_nothing_to_send() -> None:
    assert release(Draft(kind=DraftKind.NONE), ALLOWED, NOON) is Release.NOTHING


def test_a_question_with_a_place_for_the_maker_waits() -> None:
    assert release(replace(QUESTION, places=("[ to fill in: x ]",)), ALLOWED, NOON) is Release.WAIT


@pytest.mark.parametrize(("in_a_row", "after"), [(0, "now"), (1, "now"), (2, "wait"), (3, "wait")])
def test_at_most_two_go_in_a_row(in_a_row: int, after: str) -> None:
    assert release(QUESTION, replace(ALLOWED, in_a_row=in_a_row), NOON) == after


@pytest.mark.parametrize(
    ("at", "hours", "after"),
    [
        ("20:59", NIGHT, "now"),
        ("21:00", NIGHT, "wait"),
        ("23:59", NIGHT, "wait"),
        ("00:00", NIGHT, "wait"),
        ("07:59", NIGHT, "wait"),
        ("08:00", NIGHT, "now"),
        ("12:30", (time(12), time(13)), "wait"),
        ("13:00", (time(12), time(13)), "now"),
        ("11:59", (time(12), time(13)), "now"),
    ],
)
def test_nothing_goes_in_quiet_hours(at: str, hours: tuple[time, time], after: str) -> None:
    now = datetime.combine(NOON.date(), time.fromisoformat(at))

    assert release(QUESTION, replace(ALLOWED, quiet_hours=hours), now) == after


@given(
    draft=st.builds(Draft, kind=st.sampled_from(DraftKind), text=st.text(max_size=5), places=st.just(())),
    policy=st.builds(Policy, questions=st.booleans(), in_a_row=st.integers(0, 4)),
)
def test_what_goes_is_always_a_question_that_was_allowed(draft: Draft, policy: Policy) -> None:
    if release(draft, policy, NOON) is Release.NOW:
        assert draft.kind is DraftKind.QUESTION
        assert policy.questions and policy.in_a_row < 2
