"""SIGKILL in a real process between two steps: nothing is lost, and nothing goes twice without being unsure."""

import signal
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot import maker_side
from bot.build import open_desk
from bot.channels.paste import keep_pasted
from bot.departures import recover
from bot.desk import Desk
from bot.waiting import Needs, what_waits
from tests.bot.crashing import run_to
from tests.bot.test_departures import send, states
from tests.fakes import ANN, FIVE, FakeChannel, message, number
from tests.forked import PROCESSES


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    shop = tmp_path / "shop"
    shop.mkdir()
    (shop / "shop.toml").write_text("[messages]\nsettle_s = 0\n", encoding="utf-8")
    return shop


@pytest.fixture
def after(folder: Path, request: pytest.FixtureRequest) -> Iterator[Desk]:
    """The desk of a shop whose program was killed at the step that the test names."""
    process = PROCESSES.Process(target=run_to, args=(request.param, folder))
    process.start()
    process.join(120)
    assert process.exitcode == -signal.SIGKILL
    with open_desk(folder) as desk:
        recover(desk.database)
        yield desk


def at(step: str) -> pytest.MarkDecorator:
    return pytest.mark.parametrize("after", [step], indirect=True, ids=[step])


@at("before a message is committed")
def test_a_message_that_was_not_committed_was_not_acknowledged_and_comes_again(after: Desk) -> None:
    assert what_waits(after.database) == []
    kept = after.keep(message(FIVE, external_id="5001:1"))
    assert kept is not None and kept.new


@pytest.mark.parametrize(
    "after", ["between keeping and drafting", "while drafting", "while storing the draft"], indirect=True
)
def test_a_message_that_was_kept_is_drafted_after_the_crash(after: Desk) -> None:
    assert [one.needs for one in what_waits(after.database)] == [Needs.UNREAD]

    assert after.catch_up() == [1]

    assert [(one.needs, one.number) for one in what_waits(after.database)] == [(Needs.DECIDE, "1.1")]
    assert [row.text for row in after.worked_out(1).history.messages] == [FIVE]


@at("between approval and copying")
def test_an_approved_text_is_still_there_to_copy(after: Desk) -> None:
    assert [(one.needs, one.number) for one in what_waits(after.database)] == [(Needs.COPY, "1.1")]

    row = after.worked_out(1).history.drafts[0]
    parts = maker_side.copied(after, number(row), ANN)

    assert [(part.text, part.state) for part in parts] == [(row.text, "gone")]
    assert what_waits(after.database) == []


@at("between approval and copying")
def test_the_same_text_pasted_again_after_the_crash_is_one_message(after: Desk) -> None:
    assert not keep_pasted(after, FIVE, name="Mira").new


@at("while approving")
def test_a_decision_that_broke_off_was_none(after: Desk) -> None:
    assert [(one.needs, one.number) for one in what_waits(after.database)] == [(Needs.DECIDE, "1.1")]
    assert states(after) == []


@at("between approval and sending")
def test_a_text_that_was_approved_goes_after_the_crash(after: Desk) -> None:
    channel = FakeChannel()

    assert send(after, channel) == 1
    assert len(channel.arrived) == 1


@at("between claiming and handing over")
def test_a_claim_that_was_not_committed_is_none_and_the_text_goes(after: Desk) -> None:
    assert states(after) == ["queued"]
    assert send(after, FakeChannel()) == 1


@pytest.mark.parametrize("after", ["while handing over", "after it was handed over"], indirect=True)
def test_a_text_that_may_have_gone_is_shown_and_not_sent_again(after: Desk) -> None:
    assert [(one.needs, one.why) for one in what_waits(after.database)] == [
        (Needs.UNSURE, "tapeline stopped while it was being sent")
    ]
    assert send(after, FakeChannel()) == 0
