"""Finds what numbers may be of: words for measures and for places of the body, joined to names of measures.

One idea: words that stand together name one measure if a rule of labels.toml covers them all.
"""

from collections.abc import Sequence
from itertools import takewhile
from typing import NamedTuple

from replies.reading.atoms import MOST_BETWEEN, Atom, is_ago, is_atom, run_at
from replies.reading.marks import NUMBER, PHRASE, STOP, Mark
from replies.reading.quantity import Quantity
from replies.reading.small_words import Small
from replies.reading.word_lists import Rule
from replies.reading.words import Words

_MOST_WORDS = 6
"""The name of a measure holds at most this many known words ("from the top of the shoulder down to the floor")."""
_TAIL = frozenset(("TAIL", "TAILBASE", "TAILTIP"))
_ONLY_BESIDE = frozenset(("WITH", "WITHOUT"))


class Label(NamedTuple):
    """A name of a measure in the text, or words that may complete one on the other side of a number.

    first, last   indices of its marks
    atoms         the groups of labels.toml whose words stand in it
    rule          what it names by itself; None: nothing
    undone        named because it is not told: "the throat I'll do tomorrow"
    forms         parts of speech of its words
    letter        a single letter
    """

    first: int
    last: int
    atoms: frozenset[str]
    rule: Rule | None
    forms: frozenset[str]
    letter: bool = False
    undone: bool = False


def find_labels(marks: Sequence[Mark], words: Words, quantities: Sequence[Quantity] = ()) -> list[Label]:
    """Find the names of measures in a row of marks, in order. In linear time.

    quantities   the numbers among the marks; "three years back" names no back
    """
    labels: list[Label] = []
    letters = {mark.text[0] for mark in marks if mark.kind == PHRASE and mark.name("letter")}
    at = 0
    while at < len(marks):
        mark = marks[at]
        if mark.kind != PHRASE or not mark.senses:
            at += 1
            continue
        letter = mark.name("letter")
        if letter and _is_size(marks, at):
            at += 1
            continue
        if letter and not _is_tail_word(marks, at) and (mark.text[0] in "lhw" or letters - {mark.text[0]}):
            atoms = frozenset((letter,))
            labels.append(Label(at, at, atoms, words.composer.compose(atoms), frozenset(("letter",)), letter=True))
            at += 1
            continue
        if not is_atom(marks, at) or is_ago(marks, at, quantities):
            at += 1
            continue
        run = run_at(marks, at)
        labels += _split(run, words)
        at = run[-1][0] + 1
    labels = _with_lone_words(marks, labels, words)
    own = [
        label
        for label in _with_brackets(marks, labels, words)
        if not _is_of_a_thing(marks, label.last) and not _is_other_end(marks, label)
    ]
    return [_marked_undone(marks, label) for label in own]


def _is_other_end(marks: Sequence[Mark], label: Label) -> bool:
    """Is "back" said against "front", each behind its own number: "5 front, 6 back"."""
    at = label.first
    if at != label.last or not marks[at].among(Small.BACK_END):
        return False
    fronts = (
        place for place in range(max(0, at - _OTHER_END), at + 1 + _OTHER_END) if _is_front_of_number(marks, place)
    )
    return any(any(mark.kind == NUMBER for mark in marks[min(at, front) + 1 : max(at, front)]) for front in fronts)


def _is_front_of_number(marks: Sequence[Mark], at: int) -> bool:
    if at >= len(marks) or not marks[at].among(Small.FRONT_END):
        return False
    before = takewhile(lambda mark: mark.kind != STOP, reversed(marks[max(0, at - _BEHIND_NUMBER) : at]))
    return any(mark.kind == NUMBER for mark in before)


def _is_of_a_thing(marks: Sequence[Mark], last: int) -> bool:
    """Is a name said of something that is no dog: "thats the width of the tin."."""
    if last + 3 >= len(marks) or marks[last + 1].text != "of":
        return False
    behind = marks[last + 1 : last + 5]
    if not behind[1].among(Small.ARTICLES) or behind[2].kind != PHRASE:
        return False
    thing = not behind[2].senses or behind[2].has("thing", "product", "part")
    return thing and (len(behind) < 4 or behind[3].kind == STOP)


_NEAR_UNDONE = 4
_OTHER_END, _BEHIND_NUMBER = 7, 4


def _marked_undone(marks: Sequence[Mark], label: Label) -> Label:
    """Mark a name whose measure is said to be missing, or still to come."""
    if label.letter or label.rule is None:
        return label
    if _undone_before(marks, label.first) or _undone_after(marks, label.last):
        return label._replace(undone=True)
    return label


def _undone_before(marks: Sequence[Mark], first: int) -> bool:
    for at in range(first - 1, max(first - 1 - _NEAR_UNDONE, -1), -1):
        mark = marks[at]
        if mark.kind != PHRASE:
            return False
        if mark.has("undone_before"):
            return True
        if not mark.has("connector", "filler", "list"):
            return False
    return False


def _undone_after(marks: Sequence[Mark], last: int) -> bool:
    for at in range(last + 1, min(last + 1 + _NEAR_UNDONE, len(marks))):
        mark = marks[at]
        if mark.kind == PHRASE and mark.has("undone_after"):
            return not any(one.kind == NUMBER for one in marks[at + 1 : at + 4])
        if mark.kind != PHRASE or not mark.has("connector", "filler"):
            return False
    return False


def _with_lone_words(marks: Sequence[Mark], labels: list[Label], words: Words) -> list[Label]:
    """Read "19 with, 12 without" where the message speaks of the tail."""
    if not any(atom in _TAIL or atom.startswith("TAIL") for label in labels for atom in label.atoms):
        return labels
    found = list(labels)
    for at, mark in enumerate(marks):
        name = mark.name("atom") if mark.kind == PHRASE else None
        if name in _ONLY_BESIDE and mark.among(Small.LONE_WITH) and _stands_alone(marks, at):
            atoms = frozenset(("TAIL_OUT" if name == "WITHOUT" else "TAIL_IN",))
            found = [label for label in found if label.first != at]
            found.append(Label(at, at, atoms, words.composer.compose(atoms), frozenset(("adjective",))))
    return sorted(found, key=lambda label: label.first)


def _stands_alone(marks: Sequence[Mark], at: int) -> bool:
    """Does the word stand right behind a number, with nothing behind it, or right before one."""
    following = marks[at + 1] if at + 1 < len(marks) else None
    behind = (
        at > 0
        and marks[at - 1].kind == NUMBER
        and (following is None or following.kind == STOP or following.among(Small.BEHIND_LONE_WITH))
    )
    if behind or not at or marks[at - 1].kind != STOP:
        return behind
    ahead = (
        next(iter(marks[at + 2 : at + 3]), None)
        if following is not None and following.among(Small.MEASURES_SO)
        else following
    )
    return ahead is not None and ahead.kind == NUMBER


def _with_brackets(marks: Sequence[Mark], labels: Sequence[Label], words: Words) -> list[Label]:
    """Join a name with words in brackets behind it, "width (tape round the ribs): 39"; leave out what can't belong."""
    joined: list[Label] = []
    for label in labels:
        before = joined[-1] if joined else None
        if before is not None and _in_brackets_behind(marks, before, label):
            atoms = before.atoms | label.atoms
            rule = words.composer.compose(atoms)
            if rule is not None:
                joined[-1] = Label(before.first, label.last, atoms, rule, before.forms)
            continue
        joined.append(label)
    return joined


def _in_brackets_behind(marks: Sequence[Mark], before: Label, label: Label) -> bool:
    if before.letter or label.letter or label.first - before.last > MOST_BETWEEN:
        return False
    between = marks[before.last + 1 : label.first]
    if any(mark.kind == NUMBER or mark.text == ")" for mark in between) or not any(
        mark.text == "(" for mark in between
    ):
        return False
    for mark in marks[label.last + 1 : label.last + 8]:
        if mark.kind == NUMBER:
            return False
        if mark.text == ")":
            return True
    return False


def _is_size(marks: Sequence[Mark], at: int) -> bool:
    """Is the letter a size of the shop's: "carrier size L, 1 piece", but not the head of a table "size L W H"."""
    if not at or not marks[at - 1].among(Small.SIZE_HEADS):
        return False
    behind = marks[at + 1 : at + 2]
    return not any(mark.name("letter") or mark.text in (":", "=", "|") for mark in behind)


def _is_tail_word(marks: Sequence[Mark], at: int) -> bool:
    """Is "w" here the "with" of "w tail"."""
    return at + 1 < len(marks) and marks[at].has("atom") and marks[at + 1].name("atom") in _TAIL


def _split(run: Sequence[Atom], words: Words) -> list[Label]:
    """Part a run into the fewest names of measures, each covered by a rule."""
    run = _with_tails(run)
    best: list[tuple[float, int, Label | None]] = [(0.0, 0, None)]
    for end in range(1, len(run) + 1):
        options = []
        for start in range(max(0, end - _MOST_WORDS), end):
            label = _label(run[start:end], words)
            if label.rule is None and end - start > 1:
                continue
            options.append((best[start][0] + 1.0 + (label.rule.far if label.rule else 0.5), start, label))
        best.append(min(options, key=lambda option: option[0]))
    labels: list[Label] = []
    end = len(run)
    while end:
        _, end, last = best[end]
        labels += [last] if last is not None else []
    return labels[::-1]


def _with_tails(run: Sequence[Atom]) -> list[Atom]:
    """Read "without" and "with" together with the tail or the head behind them; alone they say nothing."""
    joined: list[Atom] = []
    at = 0
    while at < len(run):
        place, name, form = run[at]
        following = run[at + 1][1] if at + 1 < len(run) else None
        if name in _ONLY_BESIDE and following in _TAIL:
            joined.append((place, "TAIL_OUT" if name == "WITHOUT" else "TAIL_IN", "adjective"))
            joined.append((run[at + 1][0], "TAIL_OUT" if name == "WITHOUT" else "TAIL_IN", "adjective"))
            at += 2
        elif (name in _ONLY_BESIDE and following in ("NECK", "NECKBASE")) or (
            name == "WITHOUT" and following in ("HEAD", "NOSE")
        ):
            at += 2
        elif name == "WITHOUT":
            at += 1
        else:
            joined.append((place, name, form))
            at += 1
    return joined or [run[0]]


def _label(atoms: Sequence[Atom], words: Words) -> Label:
    names = frozenset(name for _, name, _ in atoms)
    forms = frozenset(form for _, _, form in atoms)
    return Label(atoms[0][0], atoms[-1][0], names, words.composer.compose(names), forms)
