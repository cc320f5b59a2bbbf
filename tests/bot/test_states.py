"""Every allowed change of a draft and of a departure, and every refused one."""

import pytest

from bot.states import (
    DEPARTURE,
    DRAFT,
    DepartureEvent,
    DepartureState,
    DraftEvent,
    DraftState,
    NotAllowedError,
    next_departure,
    next_draft,
)

DRAFTS = {
    ("waiting", "approve"): "approved",
    ("waiting", "set_aside"): "set_aside",
    ("waiting", "replace"): "replaced",
}
DEPARTURES = {
    ("queued", "claim"): "going",
    ("queued", "hold"): "held",
    ("going", "arrive"): "gone",
    ("going", "bounce"): "queued",
    ("going", "refuse"): "failed",
    ("going", "lose"): "unsure",
    ("held", "release"): "queued",
    ("held", "drop"): "dropped",
    ("unsure", "found_gone"): "gone",
    ("unsure", "send_again"): "queued",
    ("unsure", "come_back"): "failed",
    ("gone", "come_back"): "failed",
}


@pytest.mark.parametrize("event", DraftEvent)
@pytest.mark.parametrize("state", DraftState)
def test_a_draft_changes_as_designed_and_no_other_way(state: DraftState, event: DraftEvent) -> None:
    after = DRAFTS.get((state.value, event.value))
    if after is None:
        with pytest.raises(NotAllowedError, match=f"a draft that is {state} cannot {event}"):
            next_draft(state, event)
    else:
        assert next_draft(state, event) == after


@pytest.mark.parametrize("event", DepartureEvent)
@pytest.mark.parametrize("state", DepartureState)
def test_a_departure_changes_as_designed_and_no_other_way(state: DepartureState, event: DepartureEvent) -> None:
    after = DEPARTURES.get((state.value, event.value))
    if after is None:
        with pytest.raises(NotAllowedError, match=f"a departure that is {state} cannot {event}"):
            next_departure(state, event)
    else:
        assert next_departure(state, event) == after


def test_every_state_has_a_row_and_the_final_ones_an_empty_row() -> None:
    assert set(DRAFT) == set(DraftState)
    assert set(DEPARTURE) == set(DepartureState)
    assert {state for state, row in DRAFT.items() if not row} == {"approved", "set_aside", "replaced"}
    assert {state for state, row in DEPARTURE.items() if not row} == {"failed", "dropped"}


def test_only_the_maker_or_a_sign_from_the_channel_leads_out_of_unsure() -> None:
    out = {DepartureEvent.FOUND_GONE, DepartureEvent.SEND_AGAIN, DepartureEvent.COME_BACK}

    assert set(DEPARTURE[DepartureState.UNSURE]) == out


def test_what_has_gone_never_goes_again() -> None:
    assert set(DEPARTURE[DepartureState.GONE]) == {DepartureEvent.COME_BACK}
    assert DEPARTURE[DepartureState.FAILED] == {}


def test_nothing_goes_without_being_claimed() -> None:
    into_gone = {(state, event) for state, row in DEPARTURE.items() for event, after in row.items() if after == "gone"}

    assert into_gone == {
        (DepartureState.GOING, DepartureEvent.ARRIVE),
        (DepartureState.UNSURE, DepartureEvent.FOUND_GONE),
    }
