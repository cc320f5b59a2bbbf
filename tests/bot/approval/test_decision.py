"""A decision is one transaction; what no longer stands is refused with the reason, and nothing moves."""

import multiprocessing
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot import maker_side
from bot.approval.decision import Decided, Decider, Number, decider, parse_number
from bot.build import open_desk
from bot.departures import arrived, claim
from bot.desk import Desk
from bot.errors import DeclinedError, NotThereError
from bot.settings import parse_settings
from bot.store.drafts import decisions_of, waiting_draft
from tests.fakes import ANN, BEA, FIVE, FOUR, drafted, number, say, shop_desk
from tests.forked import PROCESSES

OTHER = f"{FIVE}. How much is the postage to Canada?"


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with shop_desk(tmp_path) as desk:
        yield desk


def parts(desk: Desk, enquiry: int = 1) -> list[tuple[int, str]]:
    return [(part.version, part.state) for part in desk.worked_out(enquiry).history.parts]


def decisions(desk: Desk, enquiry: int = 1) -> list[tuple[int, str, str, str]]:
    with desk.database.read() as connection:
        return [(one.version, one.maker, one.surface, one.action) for one in decisions_of(connection, enquiry)]


def test_an_approved_draft_departs_and_is_written_down(desk: Desk) -> None:
    row = drafted(desk, FIVE)

    decided = maker_side.approve(desk, number(row), ANN)

    assert decided.done
    assert [(part.text, part.state) for part in decided.parts] == [(row.text, "queued")]
    assert decisions(desk) == [(1, "Ann", "terminal", "approve")]


def test_what_departs_answers_the_customers_last_message(desk: Desk) -> None:
    say(desk, FOUR, external_id="5001:a")
    row = drafted(desk, "5.25 in wide", external_id="5001:b")

    part = maker_side.approve(desk, number(row), ANN).parts[0]

    assert (part.address, part.reply_to) == ("5001", "5001:b")


def test_the_same_draft_cannot_be_approved_twice(desk: Desk) -> None:
    row = drafted(desk, FIVE)
    maker_side.approve(desk, number(row), ANN)

    again = maker_side.approve(desk, number(row), BEA)

    assert not again.done
    assert again.reason == "1.1 was already approved by Ann, 2026-03-02 10:00 UTC"
    assert parts(desk) == [(1, "queued")]


def test_a_stale_version_is_refused_with_the_reason_and_the_new_one(desk: Desk) -> None:
    old = drafted(desk, FOUR)
    say(desk, "5.25 in wide")

    decided = maker_side.approve(desk, number(old), ANN)

    assert not decided.done
    assert decided.reason == "1.1 is old: the customer has written; 1.2 stands in its place"
    assert decided.draft is not None
    assert (decided.draft.number, decided.draft.kind) == ("1.2", "answer")
    assert parts(desk) == []
    assert decisions(desk) == []


def test_after_a_correction_the_old_version_is_refused(desk: Desk) -> None:
    old = drafted(desk, FIVE)
    maker_side.correct(desk, 1, "width 5.5", ANN)

    assert "a measure was corrected; 1.2" in maker_side.approve(desk, number(old), ANN).reason


def test_after_a_change_of_the_chart_the_old_version_is_refused(tmp_path: Path) -> None:
    with shop_desk(tmp_path, "pad = 0.5") as desk:
        old = drafted(desk, FIVE)
    with shop_desk(tmp_path, "pad = 0.75") as desk:
        decided = maker_side.approve(desk, number(old), ANN)

        assert not decided.done
        assert (
            "your sizes, ease or wording, or tapeline itself, have changed; 1.2 stands in its place" in decided.reason
        )
        assert decided.draft is not None
        assert decided.draft.number == "1.2"
        assert parts(desk) == []


def test_after_a_change_of_the_wording_the_old_version_is_refused(tmp_path: Path) -> None:
    with shop_desk(tmp_path) as desk:
        old = drafted(desk, FOUR)
    with shop_desk(tmp_path, "[maker]\nname = 'Ann'") as desk:
        assert not maker_side.approve(desk, number(old), ANN).done


def test_after_new_words_of_the_makers_own_the_old_version_is_refused(tmp_path: Path) -> None:
    with shop_desk(tmp_path) as desk:
        old = drafted(desk, FOUR)
    (tmp_path / "words.toml").write_text("[topic]\n", encoding="utf-8")
    with shop_desk(tmp_path) as desk:
        assert not maker_side.approve(desk, number(old), ANN).done


def test_an_unfilled_place_takes_a_second_yes(desk: Desk) -> None:
    row = drafted(desk, OTHER)

    refused = maker_side.approve(desk, number(row), ANN)

    assert not refused.done
    assert len(refused.lacks) == 1
    assert "a place is not filled in" in refused.reason
    assert parts(desk) == []
    assert maker_side.approve(desk, number(row), ANN, sure=True).done
    assert decisions(desk) == [(1, "Ann", "terminal", "approve_lacking")]


def test_a_text_with_its_caution_cut_out_takes_a_second_yes(desk: Desk) -> None:
    row = drafted(desk, FIVE)
    changed = maker_side.change(desk, number(row), "Take my No. 3!", ANN)
    assert changed.draft is not None
    assert changed.lacks

    refused = maker_side.approve(desk, number(changed.draft), ANN)

    assert not refused.done
    assert "the weight caution is not whole" in refused.reason
    assert parts(desk) == []
    assert maker_side.approve(desk, number(changed.draft), ANN, sure=True).done


def test_a_second_yes_does_not_bring_back_what_is_old(desk: Desk) -> None:
    old = drafted(desk, FOUR)
    say(desk, "5.25 in wide")

    assert not maker_side.approve(desk, number(old), ANN, sure=True).done


def test_an_empty_text_never_goes(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    def break_off(*_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("replies.fold.read", break_off)
    row = drafted(desk, FIVE)

    decided = maker_side.approve(desk, number(row), ANN, sure=True)

    assert not decided.done
    assert "has no text" in decided.reason


def test_a_changed_text_is_the_next_version_and_still_waits(desk: Desk) -> None:
    row = drafted(desk, FOUR)

    decided = maker_side.change(desk, number(row), "  How wide is she?  ", ANN)

    assert decided.draft is not None
    assert (decided.draft.number, decided.draft.state, decided.draft.text) == ("1.2", "waiting", "How wide is she?")
    assert maker_side.approve(desk, decided_number(decided), ANN).parts[0].text == "How wide is she?"


def decided_number(decided: Decided) -> Number:
    assert decided.draft is not None
    return number(decided.draft)


def test_a_changed_question_still_knows_what_it_asks(desk: Desk) -> None:
    row = drafted(desk, FOUR)
    changed = maker_side.change(desk, number(row), "How wide is she?", ANN)
    maker_side.approve(desk, decided_number(changed), ANN)
    with desk.database.write() as connection:
        part = desk.worked_out(1).history.parts[0]
        claimed = claim(connection, part, at=desk.clock())
        assert claimed is not None
        arrived(connection, claimed, "5001:sent")

    assert drafted(desk, "5.25").kind == "answer"


def test_an_empty_change_is_refused(desk: Desk) -> None:
    row = drafted(desk, FOUR)

    assert not maker_side.change(desk, number(row), " \n ", ANN).done
    assert desk.standing(1).history.waiting == row


def test_a_draft_that_was_set_aside_cannot_be_sent(desk: Desk) -> None:
    row = drafted(desk, FIVE)
    assert maker_side.set_aside(desk, number(row), ANN).done

    decided = maker_side.approve(desk, number(row), ANN)

    assert not decided.done
    assert "already set aside by Ann" in decided.reason


def test_approving_drops_an_earlier_text_that_was_held(desk: Desk) -> None:
    first = drafted(desk, FOUR)
    maker_side.approve(desk, number(first), ANN)
    second = drafted(desk, "5.25 in wide")
    assert parts(desk) == [(1, "held")]

    maker_side.approve(desk, number(second), ANN)

    assert parts(desk) == [(1, "dropped"), (2, "queued")]


def test_an_approved_text_is_held_when_the_customer_writes_again(desk: Desk) -> None:
    maker_side.approve(desk, number(drafted(desk, FOUR)), ANN)
    say(desk, "5.25 in wide")

    assert parts(desk) == [(1, "held")]
    desk.draft(1)
    assert [part.error for part in desk.worked_out(1).history.parts] == ["the customer wrote again"]


def test_an_approved_text_goes_on_after_a_mere_thanks(desk: Desk) -> None:
    maker_side.approve(desk, number(drafted(desk, FIVE)), ANN)
    say(desk, "thanks!")
    assert parts(desk) == [(1, "held")]

    desk.draft(1)

    assert parts(desk) == [(1, "queued")]
    assert desk.worked_out(1).history.waiting is None


def test_thanks_does_not_let_go_what_was_held_for_a_reason(desk: Desk) -> None:
    maker_side.approve(desk, number(drafted(desk, FOUR)), ANN)
    drafted(desk, "5.25 in wide")
    say(desk, "thanks!")
    desk.draft(1)

    assert parts(desk) == [(1, "held")]


def test_a_held_text_goes_or_is_dropped_as_the_maker_says(desk: Desk) -> None:
    row = drafted(desk, FOUR)
    maker_side.approve(desk, number(row), ANN)
    drafted(desk, "5.25 in wide")

    assert maker_side.let_go(desk, number(row), ANN) == 1
    assert parts(desk) == [(1, "queued")]
    say(desk, "and she is 3 years old")
    assert maker_side.drop(desk, number(row), ANN) == 1
    assert parts(desk) == [(1, "dropped")]


def test_closing_drops_what_has_not_begun_to_go(desk: Desk) -> None:
    maker_side.approve(desk, number(drafted(desk, FOUR)), ANN)

    maker_side.close(desk, 1, ANN)

    assert parts(desk) == [(1, "dropped")]


@pytest.mark.parametrize("unknown", [Number(enquiry=9, version=1), Number(enquiry=1, version=9)])
def test_a_draft_that_does_not_exist_is_told_in_words(desk: Desk, unknown: Number) -> None:
    drafted(desk, FIVE)

    with pytest.raises(NotThereError, match=r"no enquiry 9|no draft 1\.9"):
        maker_side.approve(desk, unknown, ANN)


def _at_once(desk: Desk, this: Number) -> list[Decided]:
    """Ann approves and Bea sets aside at the same moment."""
    gate = threading.Barrier(2)
    results: list[Decided] = []

    def approve() -> None:
        gate.wait()
        results.append(maker_side.approve(desk, this, ANN))

    def set_aside() -> None:
        gate.wait()
        results.append(maker_side.set_aside(desk, this, BEA))

    jobs = [threading.Thread(target=approve), threading.Thread(target=set_aside)]
    for job in jobs:
        job.start()
    for job in jobs:
        job.join()
    return results


def test_of_two_makers_who_decide_at_once_one_wins(tmp_path: Path) -> None:
    with shop_desk(tmp_path) as desk:
        for enquiry in range(1, 6):
            results = _at_once(desk, number(drafted(desk, FIVE, address=str(enquiry))))

            assert sorted(one.done for one in results) == [False, True]
            assert len(decisions(desk, enquiry)) == 1
            assert "was already" in next(one.reason for one in results if not one.done)


def _decide_in_a_process(folder: Path, name: str, gate: "multiprocessing.synchronize.Barrier") -> None:
    with open_desk(folder) as desk:
        gate.wait()
        maker_side.approve(desk, Number(enquiry=1, version=1), Decider(maker=name))


def test_of_two_programs_that_decide_at_once_one_wins(tmp_path: Path) -> None:
    with shop_desk(tmp_path) as desk:
        drafted(desk, FIVE)
        gate = PROCESSES.Barrier(2)
        jobs = [PROCESSES.Process(target=_decide_in_a_process, args=(tmp_path, name, gate)) for name in ("Ann", "Bea")]
        for job in jobs:
            job.start()
        for job in jobs:
            job.join(60)

        assert [job.exitcode for job in jobs] == [0, 0]
        assert len(decisions(desk)) == 1
        assert parts(desk) == [(1, "queued")]


@pytest.mark.parametrize(("written", "read"), [("7.3", (7, 3)), (" #12.1 ", (12, 1))])
def test_a_number_is_read_as_the_maker_writes_it(written: str, read: tuple[int, int]) -> None:
    assert parse_number(written) == Number(enquiry=read[0], version=read[1])


@pytest.mark.parametrize("written", ["7", "7.", ".3", "7.3.1", "seven", "", "7.-3", "٧.٣", "7" * 40 + ".1"])
def test_what_is_no_number_is_refused_in_words(written: str) -> None:
    with pytest.raises(DeclinedError, match=r"such as 7\.3"):
        parse_number(written)


def test_only_the_makers_own_accounts_may_decide() -> None:
    settings = parse_settings(
        "[telegram]\nmakers = [42]\n[email]\nmakers = ['me@workshop.example']\n", folder=Path("shop")
    )

    assert decider(settings, "telegram", 42) == Decider(maker="42", surface="telegram")
    assert decider(settings, "telegram", 43) is None
    assert decider(settings, "discord", 42) is None
    assert decider(settings, "telegram", "42") is None
    assert decider(settings, "email", "Me@Workshop.example") is not None
    assert decider(settings, "nowhere", 42) is None


def test_there_is_never_more_than_one_waiting_draft(desk: Desk) -> None:
    for text in (FOUR, "width 5.25 in", "sorry, width 5.5 in", "weight 15 lb, I weighed her again"):
        say(desk, text)
        desk.draft(1)
    with desk.database.read() as connection:
        waiting = waiting_draft(connection, 1)

    assert waiting is not None
    assert [row.state for row in desk.worked_out(1).history.drafts].count("waiting") == 1
