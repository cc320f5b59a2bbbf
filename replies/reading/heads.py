"""Tells by how the head is held which of two values counts: "8 but with her head down. head up it's 9"."""

from collections.abc import Sequence

from replies.reading.giving import GROUPS
from replies.reading.labels import Label
from replies.reading.marks import NUMBER, STOP
from replies.reading.page import Candidate, Page
from sizing.reasons import Why


def leave_with_head(page: Page) -> None:
    """A bare number with "head up", "with head" beside it gives way to another one."""
    raised = [label for label in page.labels if label.rule is None and "HEADUP" in label.atoms]
    for candidate in page.candidates:
        if candidate.aside is None and candidate.measure is None:
            place = page.distance.place(candidate.number)
            candidate.older = candidate.older or any(
                0 < place - label.last <= 3 or 0 < label.first - place <= 2 for label in raised
            )


def see_heads(page: Page) -> None:
    """Read "throat to floor 8, but with her head down. head up it's 9": the first is doubtful, the second stands."""
    loose = [label for label in page.labels if label.rule is None]
    told = [one for one in page.candidates if one.aside is None and one.measure in ("throat_height", "height")]
    for candidate in told:
        place = page.distance.place(candidate.number)
        near = next((label for label in loose if place < label.first <= place + _HEAD_WITHIN), None)
        if near is None or _parted(page, place, near.first):
            continue
        rule = page.words.composer.compose(near.atoms | {GROUPS[candidate.measure or ""]})
        if rule is not None and rule.gives == candidate.measure and rule.hint is not None:
            candidate.hints |= {Why(rule.hint)}
            _take_other_posture(page, candidate, loose)


_HEAD_WITHIN = 5


def _parted(page: Page, start: int, end: int) -> bool:
    return any(
        mark.kind == NUMBER or (mark.kind == STOP and mark.text not in (",", "(", "-"))
        for mark in page.marks[start + 1 : end]
    )


def _take_other_posture(page: Page, candidate: Candidate, loose: Sequence[Label]) -> None:
    """Give the next bare number, with the head held otherwise, the same measure."""
    following = page.candidates[candidate.number + 1 : candidate.number + 2]
    if candidate.measure != "throat_height" or not following or not is_bare(following[0]):
        return
    place = page.distance.place(following[0].number)
    if any("HEADUP" in label.atoms and 0 < place - label.last <= 3 for label in loose):
        following[0].measure, following[0].dogs, following[0].older = candidate.measure, candidate.dogs, False


def is_bare(candidate: Candidate) -> bool:
    """Has nothing yet said what a number is."""
    return candidate.aside is None and candidate.measure is None and candidate.end_of is None
