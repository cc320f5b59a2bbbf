"""Cuts a message into clauses, and tells of each how it is put: as a question, a request, or a telling.

One idea: a clause ends with its sentence, and wherever a new question or request opens: "12 lb, what do they cost and
can i pay by card" holds three.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from replies.reading.marks import NUMBER, PHRASE, STOP, Mark
from replies.reading.topic_words import Group, TopicVocabulary

SENTENCE_ENDS = frozenset((".", "!", "?", "\n", "\n\n", ";", "|", "..."))
_PARTS = frozenset((",", ":", "-", "(", ")", "/", "\t"))
_QUESTION, _LIKELY, _WEAK = 1.5, 1.0, 0.5
"""How much the order of words asks: surely, where nothing speaks against it, only beside words about something else."""
_SIGNS = 3
_NEAR = 24
"""So many marks before a telling a question is looked for."""
_DONE = "ed"
"""How a word ends that tells of what is done: "you have measured"."""
_WRAPPED = 48
"""A line that long ends where the mail program broke it, not where a clause does."""


class Hit(NamedTuple):
    """A phrase of topic.toml.

    first, last   indices of its marks in the whole row
    start         its first code point
    names         the groups in which it stands
    idle          one of them says nothing
    """

    first: int
    last: int
    start: int
    names: tuple[str, ...]
    idle: bool


@dataclass(frozen=True, slots=True)
class Clause:
    """A clause of a message.

    marks   with the sign that ends it
    hits    the known phrases in it
    loose   its words that are in no known phrase, and no figure of speech
    opens   index in the whole row of marks at which it begins, behind greetings and "and"
    marked  a question mark stands behind it
    form    how much its form alone asks: 1 and more is a question
    reason  it gives the reason of the clause before it
    """

    marks: Sequence[Mark]
    hits: tuple[Hit, ...]
    loose: tuple[Mark, ...]
    opens: int
    marked: bool
    form: float
    reason: bool = False

    @property
    def start(self) -> int:
        """Its first code point."""
        return self.marks[0].start

    @property
    def end(self) -> int:
        """The code point behind it."""
        return self.marks[-1].end

    @property
    def words(self) -> int:
        """How many words it holds that are no figure of speech."""
        idle = sum(hit.last - hit.first + 1 for hit in self.hits if hit.idle)
        return sum(mark.kind == PHRASE for mark in self.marks) - idle


def cut_into_clauses(marks: Sequence[Mark], vocabulary: TopicVocabulary, *, wrapped: str = "") -> list[Clause]:
    """Cut a message into clauses, in order. In linear time.

    marks     of one word each
    wrapped   the text, where lines may have been broken by a mail program; "" where every line end was typed
    """
    row = _Row(marks, vocabulary, wrapped)
    clauses = [
        row.clause(first, last) for first, last in row.parts() if any(mark.kind != STOP for mark in marks[first:last])
    ]
    for at in range(1, len(clauses)):
        before, reason = clauses[at - 1 : at + 1]
        if reason.reason and reason.marked and (before.form >= _LIKELY or reason.start in row.told_behind):
            clauses[at - 1 : at + 1] = [replace(before, marked=True), replace(reason, marked=False, form=0.0)]
        elif reason.marked and before.form and _is_choice(before, reason):
            clauses[at - 1] = replace(before, marked=True)
    return clauses


def _is_choice(before: Clause, other: Clause) -> bool:
    """Is a clause the other half of a choice: "are they any good, or shall I do it again?"."""
    return other.marks[0].text == "or" and before.marks[-1].text == ","


class _Row:
    """The words of a message with the phrases of topic.toml among them."""

    def __init__(self, marks: Sequence[Mark], vocabulary: TopicVocabulary, wrapped: str) -> None:
        self.wrapped = wrapped
        self.marks, self.vocabulary, self.forms = marks, vocabulary, vocabulary.forms
        self.hits: list[Hit] = []
        self.told_behind: set[int] = set()
        self.hit_at: list[Hit | None] = [None] * len(marks)
        texts = [mark.text if mark.kind == PHRASE else "\0" for mark in marks] + ["\0"]
        for at, size, senses in vocabulary.lexicon.find_all(texts):
            names = tuple(sense.name for sense in senses.all)
            hit = Hit(at, at + size - 1, marks[at].start, names, any(self._group(name).idle for name in names))
            self.hits.append(hit)
            self.hit_at[at : at + size] = [hit] * size

    def _group(self, name: str) -> Group:
        return self.vocabulary.groups[name]

    def parts(self) -> Iterator[tuple[int, int]]:
        """Give the first mark of each clause and the one behind it."""
        first, numbered = 0, False
        line = 0
        for at, mark in enumerate(self.marks):
            if mark.kind == STOP and self._ends(at, line):
                yield first, at + 1
                first, numbered = at + 1, False
            elif at > first and self._is_seam(at, first, numbered=numbered):
                if self._tells_behind_question(at, first):
                    self.told_behind.add(mark.start)
                yield first, at
                first, numbered = at, False
            if mark.kind == NUMBER:
                numbered = True
            elif mark.kind == STOP and mark.text in ("\n", "\n\n"):
                line = mark.end
        if first < len(self.marks):
            yield first, len(self.marks)

    def _ends(self, at: int, line: int) -> bool:
        """Does a sentence end at this sign: also at a picture, but not where a long line was wrapped."""
        mark = self.marks[at]
        if mark.text == "\n" and mark.start - line >= _WRAPPED:
            following = self.marks[at + 1] if at + 1 < len(self.marks) else None
            return following is None or not self.wrapped[following.start : following.start + 1].islower()
        return mark.text in SENTENCE_ENDS or not mark.text.isascii()

    def _is_seam(self, at: int, first: int, *, numbered: bool) -> bool:
        """Does a new clause begin here within a sentence: behind a comma, "and" or a number, with its own form."""
        mark, before = self.marks[at], self.marks[at - 1]
        if mark.kind != PHRASE:
            return False
        if self._is_within(at):
            return before.kind == STOP and before.text in _PARTS and self._all_idle(first, at)
        if self._gives_reason(at):
            return True
        if mark.text in self.forms.joints:
            return self._opens_form(at)
        if before.kind == STOP and before.text in _PARTS:
            return self._opens_form(at) or self._all_idle(first, at) or self._tells_behind_question(at, first)
        if before.text in self.forms.openers or before.text in self.forms.told_of:
            return False
        if before.kind == NUMBER and mark.text in self.forms.of_number:
            return False
        return numbered and self._form_at(at, inside=True) >= 1

    def _gives_reason(self, at: int) -> bool:
        """Does a reason begin here: "so it's here in time"."""
        return self.marks[at].text in self.forms.reasons and self._word(at + 1) in self.forms.told_of

    def _tells_behind_question(self, at: int, first: int) -> bool:
        """Does the customer go on to tell of her dog: "not sure which size, he's a stocky thing"."""
        if self.marks[at].text not in self.forms.tellers or self.marks[at - 1].text != ",":
            return False
        near = range(max(first, at - _NEAR), at)
        groups = [self._group(name) for place in near for name in self._names_at(place)]
        asked = any(group.asks >= 1 and not group.wish for group in groups)
        return asked or self._form_at(self._opening(first, min(at, first + _NEAR)), inside=False) >= _LIKELY

    def _names_at(self, at: int) -> tuple[str, ...]:
        hit = self.hit_at[at]
        return () if hit is None else hit.names

    def _is_within(self, at: int) -> bool:
        """Does the word stand inside a phrase, not at its beginning."""
        hit = self.hit_at[at]
        return hit is not None and hit.first < at

    def _all_idle(self, first: int, at: int) -> bool:
        return all(self._is_idle(place) for place in range(first, at) if self.marks[place].kind == PHRASE)

    def _is_idle(self, at: int) -> bool:
        hit = self.hit_at[at]
        return hit is not None and hit.idle

    def _opening(self, at: int, end: int) -> int:
        """Give the place at which the clause itself begins: behind greetings, "please", "and"."""
        while at < end:
            mark = self.marks[at]
            if (
                mark.kind == STOP
                or self._is_idle(at)
                or (mark.text in self.forms.openers and self._form_at(at, inside=False) < 1)
                or self._has(at, "please")
            ):
                at += 1
            else:
                break
        return at

    def _has(self, at: int, name: str) -> bool:
        hit = self.hit_at[at]
        return hit is not None and name in hit.names

    def _opens_form(self, at: int) -> bool:
        place = self._opening(at, min(len(self.marks), at + 5))
        if place >= len(self.marks) or (place > at and self.marks[place - 1].kind == STOP):
            return False
        hit = self.hit_at[place]
        asks = sum(self._group(name).asks for name in hit.names) if hit is not None and hit.first == place else 0.0
        return asks >= 1 or self._form_at(place, inside=True) > 0

    def _form_at(self, at: int, *, inside: bool) -> float:
        """Give how much the words that open a clause here ask by their order alone.

        inside   in the middle of a sentence
        """
        mark, forms = self.marks[at], self.forms
        if mark.kind != PHRASE or self._is_idle(at):
            return 0.0
        following = self._word(at + 1)
        if following in forms.inversions.get(mark.text, ()):
            return _QUESTION
        if mark.text in forms.question_words:
            if mark.text in forms.contracted:
                return _LIKELY
            told = following in forms.told_of or following in forms.calling
            return _WEAK if told or (inside and mark.text in forms.relative) else _LIKELY
        if mark.text in forms.time_words:
            return _QUESTION if following in forms.inversions else _WEAK if following in forms.addressed else 0.0
        if following in forms.calling and mark.text not in forms.not_calling:
            return _LIKELY
        if mark.text in forms.addressed:
            told = self._word(at + 2).endswith(_DONE)
            return _LIKELY if following in forms.offers and not told else _WEAK
        return _WEAK if mark.text in forms.scant or (mark.text in forms.bare and following) else 0.0

    def _word(self, at: int) -> str:
        if at >= len(self.marks) or self.marks[at].kind != PHRASE or self._is_idle(at):
            return ""
        return self.marks[at].text

    def clause(self, first: int, last: int) -> Clause:
        """Make a clause of the marks from `first` to before `last`."""
        opens = self._opening(first, last)
        inside = first > 0 and self.marks[first - 1].text not in SENTENCE_ENDS and self.marks[first - 1].text.isascii()
        reason = inside and (self._gives_reason(first) or self.marks[first].start in self.told_behind)
        if opens < last and self.marks[first].text in self.forms.joints and self.marks[opens].text in self.forms.joined:
            inside = False
        marked = self._is_marked(last)
        form = self._form_at(opens, inside=inside) if opens < last and (marked or not reason) else 0.0
        if form < _QUESTION and any(self._is_turned(at) for at in range(first + 1, last - 1)):
            form = _QUESTION
        within = self.hit_at[first:last]
        hits = tuple(
            hit for hit, before in zip(within, [None, *within], strict=False) if hit is not None and hit is not before
        )
        loose = tuple(
            self.marks[at] for at in range(first, last) if self.marks[at].kind == PHRASE and self.hit_at[at] is None
        )
        return Clause(self.marks[first:last], hits, loose, opens, marked, form, reason)

    def _is_turned(self, at: int) -> bool:
        """Does a verb stand before its person here: "how heavy is it"."""
        behind = self.forms.inversions.get(self.marks[at].text)
        if behind is None:
            return False
        following = self._word(at + 1)
        return (
            following in behind
            and (following in self.forms.persons or following == "it")
            and not self._is_idle(at)
            and self.marks[at - 1].text not in self.forms.told_of
        )

    def _is_marked(self, last: int) -> bool:
        """Does a question mark end the clause, or stand behind the signs and pictures that do."""
        for mark in self.marks[last - 1 : last + _SIGNS]:
            if mark.kind != STOP or mark.text in ("\n", "\n\n"):
                return False
            if mark.text == "?":
                return True
        return False
