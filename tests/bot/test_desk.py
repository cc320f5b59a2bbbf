"""The one way of a message: kept, settled, drafted, shown."""

import asyncio
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import update

from bot import desk as desk_module
from bot import maker_side, workbench
from bot.approval.summary import summarize
from bot.approval.summary_text import to_text
from bot.departures import Sender
from bot.desk import Desk
from bot.json_lines import Line
from bot.message import ChannelName, Edit
from bot.rehearsal import Rehearsal
from bot.result import from_json
from bot.store.drafts import DraftRow, decisions_of, waiting_drafts
from bot.store.schema import draft as draft_table
from tests.fakes import ANN, FIVE, FOUR, THANKS, Clock, FakeChannel, drafted, message, number, say, shop_desk


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def desk(tmp_path: Path, clock: Clock) -> Iterator[Desk]:
    with shop_desk(tmp_path, clock=clock) as desk:
        yield desk


def test_a_message_with_a_measure_missing_becomes_a_question(desk: Desk) -> None:
    row = drafted(desk, FOUR)

    assert (row.number, row.kind, row.state) == ("1.1", "question", "waiting")
    assert [asked.measure for asked in from_json(row.result_json).asks] == ["width"]


def test_a_message_with_every_measure_becomes_an_answer(desk: Desk) -> None:
    row = drafted(desk, FIVE)

    assert row.kind == "answer"
    assert from_json(row.result_json).cautions


def test_a_second_message_completes_the_first(desk: Desk) -> None:
    first = drafted(desk, FOUR)
    second = drafted(desk, "5.25 in wide")

    assert (first.kind, second.kind, second.number) == ("question", "answer", "1.2")


def test_five_lines_in_twenty_seconds_become_one_draft(desk: Desk, clock: Clock) -> None:
    for line in ("hi!", "Pickle is 14 lb", "length 13 in", "height 11.5 in, throat height 8.25 in", "width 5.25 in"):
        say(desk, line)
        clock.pass_(seconds=5)
        assert desk.catch_up() == []
    clock.pass_(seconds=45)

    assert desk.catch_up() == [1]
    with desk.database.read() as connection:
        assert [(row.number, row.kind) for row in waiting_drafts(connection)] == [("1.1", "answer")]


@pytest.mark.parametrize("channel", [ChannelName.PASTE, ChannelName.EMAIL])
def test_a_pasted_text_and_a_mail_are_drafted_at_once(desk: Desk, channel: ChannelName) -> None:
    enquiry = say(desk, FOUR, channel=channel)

    assert desk.catch_up() == [enquiry]


def test_drafting_again_what_has_not_changed_makes_no_new_version(desk: Desk) -> None:
    row = drafted(desk, FOUR)

    assert desk.draft(row.enquiry_id) == row


def test_thanks_leaves_a_waiting_draft_as_it_is(desk: Desk) -> None:
    row = drafted(desk, FIVE)
    say(desk, THANKS)

    after = desk.draft(row.enquiry_id)

    assert after is not None
    assert (after.version, after.text, after.revision) == (1, row.text, row.revision + 1)


def test_thanks_leaves_a_text_that_the_maker_changed_as_it_is(desk: Desk) -> None:
    row = drafted(desk, FOUR)
    maker_side.change(desk, number(row), "My own words.", ANN)
    say(desk, THANKS)

    after = desk.draft(row.enquiry_id)

    assert after is not None
    assert after.text == "My own words."


def test_a_new_measure_replaces_a_text_that_the_maker_changed(desk: Desk) -> None:
    row = drafted(desk, FOUR)
    maker_side.change(desk, number(row), "My own words.", ANN)

    after = drafted(desk, "5.25 in wide")

    assert (after.version, after.kind) == (3, "answer")


def test_what_was_set_aside_does_not_come_back_for_thanks(desk: Desk) -> None:
    row = drafted(desk, FIVE)
    maker_side.set_aside(desk, number(row), ANN)
    say(desk, THANKS)

    assert desk.draft(row.enquiry_id) is None


def test_what_was_set_aside_comes_back_when_asked_for(desk: Desk) -> None:
    row = drafted(desk, FIVE)
    maker_side.set_aside(desk, number(row), ANN)

    again = maker_side.draft_again(desk, row.enquiry_id)

    assert again is not None
    assert (again.version, again.text) == (2, row.text)


def test_a_message_about_something_else_is_handed_over(desk: Desk) -> None:
    assert drafted(desk, "How much is the postage to Canada?").kind == "handover"


def test_when_reading_breaks_off_the_maker_gets_the_message_with_the_fault_named(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    def break_off(*_: object) -> None:
        raise ZeroDivisionError("her words")

    monkeypatch.setattr("replies.fold.read", break_off)
    row = drafted(desk, FIVE)

    fault = from_json(row.result_json).fault
    assert (row.kind, row.text) == ("handover", "")
    assert fault is not None and "ZeroDivisionError" in fault
    assert "her words" not in fault
    assert [one.text for one in desk.worked_out(row.enquiry_id).history.messages] == [FIVE]


def test_when_wording_breaks_off_the_template_is_named(tmp_path: Path) -> None:
    own = tmp_path / "wording" / "question.jinja"
    own.parent.mkdir()
    own.write_text("{{ no_such_thing }}", encoding="utf-8")
    with shop_desk(tmp_path) as desk:
        row = drafted(desk, FOUR)

        assert "question.jinja" in (from_json(row.result_json).fault or "")


def test_what_broke_off_is_drafted_once_it_is_mended(tmp_path: Path) -> None:
    own = tmp_path / "wording" / "question.jinja"
    own.parent.mkdir()
    own.write_text("{{ no_such_thing }}", encoding="utf-8")
    with shop_desk(tmp_path) as desk:
        drafted(desk, FOUR)
    own.unlink()

    with shop_desk(tmp_path) as desk:
        assert desk.refresh() == [1]
        waiting = desk.standing(1).history.waiting
        assert waiting is not None
        assert (waiting.kind, waiting.version) == ("question", 2)


def test_a_changed_chart_makes_a_new_draft_of_what_waits(tmp_path: Path) -> None:
    with shop_desk(tmp_path, "pad = 0.5") as desk:
        before = drafted(desk, FIVE)
    with shop_desk(tmp_path, "pad = 0.75") as desk:
        assert desk.refresh() == [before.enquiry_id]
        after = desk.standing(before.enquiry_id).history.waiting

        assert after is not None
        assert (after.version, after.fingerprint == before.fingerprint) == (2, False)


def test_a_changed_chart_leaves_what_was_decided(tmp_path: Path) -> None:
    with shop_desk(tmp_path, "pad = 0.5") as desk:
        maker_side.set_aside(desk, number(drafted(desk, FIVE)), ANN)
    with shop_desk(tmp_path, "pad = 0.75") as desk:
        assert desk.refresh() == []
        assert desk.standing(1).history.waiting is None


def test_when_the_customer_writes_while_a_draft_is_made_it_is_made_anew(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    enquiry = say(desk, FOUR)
    work_out = workbench.draft_for
    late = iter(["5.25 in wide"])

    def slowly(*given: object) -> workbench.Drafted:
        drafted_ = work_out(*given)  # type: ignore[arg-type]
        for text in late:
            say(desk, text)
        return drafted_

    monkeypatch.setattr(desk_module, "draft_for", slowly)
    row = desk.draft(enquiry)

    assert row is not None
    assert (row.version, row.kind) == (1, "answer")


def test_drafting_at_once_in_several_threads_makes_one_version(desk: Desk) -> None:
    enquiry = say(desk, FOUR)
    threads = [threading.Thread(target=desk.draft, args=(enquiry,)) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    assert [row.version for row in desk.worked_out(enquiry).history.drafts] == [1]


def test_an_edit_that_changes_no_measure_asks_for_no_new_answer(desk: Desk) -> None:
    desk.keep(message(FIVE, external_id="5001:1"))
    row = desk.draft(1)
    assert row is not None
    maker_side.approve(desk, number(row), ANN)
    desk.edit(Edit(channel=ChannelName.TELEGRAM, external_id="5001:1", text=FIVE + " :)"))

    assert desk.draft(1) is None


ALONE = '[telegram]\nquestions_by_themselves = true\n[messages]\nquiet_hours = "21:00-08:00"\n'


def automatic(desk: Desk, enquiry: int) -> int:
    with desk.database.read() as connection:
        return sum(one.surface == "automatic" for one in decisions_of(connection, enquiry))


def test_a_question_waits_for_the_maker_unless_she_said_otherwise(desk: Desk) -> None:
    assert desk.draft(say(desk, FOUR)) is not None
    assert automatic(desk, 1) == 0


def test_a_question_goes_by_itself_where_she_said_so(tmp_path: Path) -> None:
    with shop_desk(tmp_path, ALONE) as desk:
        assert desk.draft(say(desk, FOUR)) is None
        assert automatic(desk, 1) == 1
        assert [part.state for part in desk.standing(1).history.parts] == ["queued"]


def test_an_answer_never_goes_by_itself(tmp_path: Path) -> None:
    with shop_desk(tmp_path, ALONE) as desk:
        assert drafted(desk, FIVE).state == "waiting"
        assert automatic(desk, 1) == 0


def test_in_quiet_hours_a_question_waits_for_their_end(tmp_path: Path) -> None:
    clock = Clock()
    clock.pass_(hours=12)
    with shop_desk(tmp_path, ALONE, clock=clock) as desk:
        assert drafted(desk, FOUR).state == "waiting"
        assert desk.release_due() == []
        clock.pass_(hours=10)

        assert desk.release_due() == [1]
        assert automatic(desk, 1) == 1


def test_quiet_hours_are_those_of_the_shops_own_place(tmp_path: Path) -> None:
    with shop_desk(tmp_path, 'time_zone = "Pacific/Auckland"\n' + ALONE) as desk:  # 10:00 UTC is 23:00 there
        assert drafted(desk, FOUR).state == "waiting"


def test_no_third_question_in_a_row_goes_by_itself(tmp_path: Path) -> None:
    with shop_desk(tmp_path, ALONE) as desk:
        desk.draft(say(desk, "Which size for Pickle?"))
        desk.draft(say(desk, "length 13 in"))
        assert automatic(desk, 1) == 2

        assert drafted(desk, "height 11.5 in").state == "waiting"
        assert automatic(desk, 1) == 2


def test_a_question_with_something_else_to_answer_waits(tmp_path: Path) -> None:
    with shop_desk(tmp_path, ALONE) as desk:
        assert drafted(desk, f"{FOUR}. How long does it take to make one?").state == "waiting"


@pytest.mark.parametrize("texts", [[FIVE], [FOUR, "5.25 in wide"], [FOUR, THANKS]], ids=["at once", "in two", "thanks"])
def test_a_rehearsal_says_what_the_desk_says(desk: Desk, texts: list[str]) -> None:
    rehearsal = Rehearsal(desk.workshop, today=desk.clock().date())
    heard = [rehearsal.hear(Line(id=str(n), text=text, conversation="a"))[0] for n, text in enumerate(texts)]
    live = []
    for text in texts:
        row = desk.draft(say(desk, text))
        live.append((row.kind, row.text) if row else ("none", ""))
        if row is not None and row.state == "waiting":
            maker_side.approve(desk, number(row), ANN)
            asyncio.run(Sender(desk.database, {ChannelName.TELEGRAM: FakeChannel()}, clock=desk.clock).send_due())

    assert live == [(one.draft.kind, one.draft.text) for one in heard]


def damage(desk: Desk, row: DraftRow, result_json: str = '{"basis": "a cust') -> None:
    with desk.database.write() as connection:
        connection.execute(update(draft_table).where(draft_table.c.id == row.id).values(result_json=result_json))


@pytest.mark.parametrize("result_json", ['{"basis": "a cust', "", "{}", "\x00"])
def test_a_draft_that_is_damaged_in_the_store_is_drafted_anew_and_said_to_be(desk: Desk, result_json: str) -> None:
    row = drafted(desk, FIVE)
    damage(desk, row, result_json)

    standing = desk.standing(row.enquiry_id)

    assert standing.history.waiting is not None
    assert (standing.history.waiting.number, standing.history.waiting.text) == ("1.2", row.text)
    told = to_text(summarize(standing.history, standing.drafted, desk.workshop.shop))
    assert "the store is damaged where the last draft stood" in told


def test_a_damaged_draft_is_not_approved(desk: Desk) -> None:
    row = drafted(desk, FIVE)
    damage(desk, row)

    decided = maker_side.approve(desk, number(row), ANN)

    assert not decided.done
    assert "damaged" in decided.reason


def test_an_answer_to_a_question_that_is_damaged_in_the_store_is_still_read(desk: Desk) -> None:
    question = drafted(desk, FOUR)
    assert maker_side.approve(desk, number(question), ANN).done
    asyncio.run(Sender(desk.database, {ChannelName.TELEGRAM: FakeChannel()}, clock=desk.clock).send_due())
    damage(desk, question)

    assert drafted(desk, "5.25 in wide").kind == "answer"
