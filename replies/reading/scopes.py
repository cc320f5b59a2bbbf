"""Sets aside what is told of another dog, another time, or as a joke: the numbers in the reach of a word that says so.

Going through the text, such a word opens a scope. The numbers in it are set aside, until a word turns back to the dog
as it is ("now", "ours", "he's"), or the sentence or the bracket ends. Some words reach back to the number before them.
"""

from collections import Counter
from dataclasses import dataclass

from replies.reading.cues import Cue
from replies.reading.facts import SetAside
from replies.reading.marks import NUMBER, SENTENCE_ENDS, STOP, Mark
from replies.reading.page import Candidate, Page
from replies.reading.scope_reach import BACK, CLOSE_BY, LOOKED_AHEAD, Reach
from replies.reading.small_words import Small

_NAMED_WITHIN = 2
"""So many marks behind "my previous dog" its name may follow."""
_FEW = 2
"""Where more is told, "just curious" is said of something else."""
_OF_DOGS = ("companion", "uncarried", "relative")
_OPENING = ("opens", "beside", "around", "close_by", "before_dog", "than_dog", "others_dog", "contrasted")


@dataclass(slots=True)
class _Scope:
    """What is being told of.

    kind    as in scopes.toml; None: the dog as it is
    first   the mark at which it began
    taken   the last number in it
    once    it is of one number only
    """

    kind: str
    first: int
    taken: int | None = None
    once: bool = False


def see_scopes(page: Page) -> None:
    """Set aside the numbers of other dogs, other times and jokes. In linear time."""
    _Walk(page, page.single.find(page.words.scopes.cues)).go()


class _Walk(Reach):
    """Goes through the marks once."""

    def __init__(self, page: Page, hits: list[Cue]) -> None:
        super().__init__(page, hits)
        self.barred = {sense.name for hit in hits for sense in hit.senses.all if sense.kind == "bars"}
        self.ages = self.ages_told()
        self.turns_to_own = any(hit.says("turn", "own") for hit in hits)
        self.named_so = Counter(named.name.casefold() for named in page.names)
        self.scope: _Scope | None = None
        self.before: list[tuple[_Scope | None, int | None]] = []
        self.left: int | None = None
        """The number that was set aside last."""
        self.turned = -CLOSE_BY
        """Where the text last turned back from it."""
        self.whole: str | None = None
        """The kind of scope that the whole message is."""

    def go(self) -> None:
        """Open and close scopes from mark to mark."""
        within = -1
        for at, mark in enumerate(self.marks):
            if at in self.hits and at > within:
                self._cue(self.hits[at])
                within = self.hits[at].last
            if mark.kind == NUMBER:
                self._age(at)
                self._number(at, mark)
            elif mark.kind == STOP:
                self._stop(at, mark)
            elif at > within and (self.scope is not None or mark.has("animal", "large_animal")):
                self._word(at, mark)
        self._close(len(self.marks))
        if len(self.named) < len(self.page.names):
            self.page.names = [named for named in self.page.names if named.first in self.named]
        if self.whole is not None:
            self._take_whole(self.whole)

    def _word(self, at: int, mark: Mark) -> None:
        """Turn to an animal, or back to the dog."""
        if at in self.named:
            self._close(at)
        elif self.is_short_subject(at) and self._others_told(at):
            self._close(at)
            self.turned = at
        elif self.animal_follows(at):
            self._open("companion", Cue(at, at))
        elif mark.has("dog", "breed") and self._others_told(at - 1):
            self._close(at)

    # --- Where scopes open and close ---

    def _cue(self, hit: Cue) -> None:
        """Do what a phrase says: the first that applies of what it may say; of two kinds the one listed first."""
        said: dict[str, str] = {}
        for sense in hit.senses.all:
            if sense.name not in self.barred:
                said.setdefault(sense.kind, sense.name)
        if "never" in said or ("if_young" in said and not self.is_young()):
            return
        if "turn" in said:
            self.page.turns.append((hit.first, hit.last, said["turn"]))
            self._turn(said["turn"], hit)
        opening = next((how for how in _OPENING if how in said and self._opens(how, hit)), None)
        if opening == "close_by":
            self._open(said[opening], hit)
            return
        back = next((how for how in ("behind", "beside", "around", "pointed") if how in said), None)
        if "around" in said:
            self.page.worn.update(range(hit.first, hit.last + 1))
        if "outdone" in said and self._than_nothing(hit):
            self._take_outdone(said["outdone"], hit)
        if back is not None and self._take_back(said[back], hit, pointed=back == "pointed"):
            return
        if opening is not None:
            self._open(said[opening], hit, once=opening in ("around", "than_dog"))
        elif "whole" in said:
            self.whole = said["whole"]

    def _opens(self, how: str, hit: Cue) -> bool:
        if how in ("close_by", "around"):
            return self.number_follows(hit)
        if how in ("before_dog", "than_dog"):
            return self.dog_follows(hit)
        if how == "others_dog":
            return self.turns_to_own and self.dog_follows(hit)
        if how == "contrasted":
            return self.is_contrasted(hit)
        return True

    def _open(self, kind: str, hit: Cue, *, once: bool = False) -> None:
        if self.scope is not None and self.scope.kind in self.page.words.scopes.others:
            return
        self.scope = _Scope(kind, hit.first, once=once)
        if kind in self.page.words.scopes.others:
            for at in range(hit.last + 1, hit.last + 1 + _NAMED_WITHIN):
                self._is_others_name(at)

    def _is_others_name(self, at: int) -> None:
        """Take a name right behind "my previous dog" for that dog's, where it stands nowhere else."""
        named = self.named.get(at)
        if named is not None and self.named_so[named.name.casefold()] == 1:
            del self.named[at]

    def _turn(self, which: str, hit: Cue) -> None:
        scope = self.scope
        if scope is None:
            self._turned(hit)
            return
        if which == "subject" and not self._may_turn(hit.first):
            return
        weak = which not in ("own", "meant", "subject") and not self.is_behind_but(hit.first)
        if weak and scope.kind in _OF_DOGS and scope.taken is None:
            return
        self._close(hit.first)
        self._turned(hit)

    def _turned(self, hit: Cue) -> None:
        if self.left is not None and hit.first - self.place(self.left) <= LOOKED_AHEAD:
            self.turned = hit.last

    def _may_turn(self, at: int) -> bool:
        """Does "he's", "the dog" turn back: from others only when a number of theirs was told."""
        if self.scope is None or self.scope.once or self.scope.kind in ("supposed", "joke"):
            return False
        return self.scope.kind not in self.page.words.scopes.others or self._others_told(at)

    def _others_told(self, at: int) -> bool:
        """Was a number of another dog told before this mark."""
        scope = self.scope
        if scope is None or scope.kind not in self.page.words.scopes.others or scope.kind == "supposed":
            return False
        return scope.taken is not None and self.place(scope.taken) < at

    def _age(self, at: int) -> None:
        """Read "at 3 months 8 long, at 9 months 12 long": what is told of the youngest ages is no more."""
        if at not in self.ages:
            return
        if self.ages[at] < max(self.ages.values()):
            self._open("past", Cue(at, at))
        elif self.scope is not None and self.scope.kind == "past":
            self._close(at)

    def _close(self, at: int) -> None:
        if self.scope is None:
            return
        if self.scope.kind in self.page.words.scopes.others:
            self.page.elsewhere.update(range(self.scope.first, at))
        self.scope = None

    def _stop(self, at: int, mark: Mark) -> None:
        if mark.text == "(":
            self.before.append((self.scope, self.scope.taken if self.scope is not None else None))
        elif self.scope is not None and self.scope.once and mark.text == ",":
            self._close(at)
        elif mark.text == ")" and self.before:
            outer, taken = self.before.pop()
            if outer is not self.scope:
                self._close(at)
                self.scope = outer
            elif outer is not None and outer.taken != taken:
                self._close(at)  # "my husband (6'3) carries him, 15 lb"
        elif self.scope is not None and (mark.text in SENTENCE_ENDS or self._ends_at_unit(at, mark)):
            self._close(at)
            self.before.clear()

    def _ends_at_unit(self, at: int, mark: Mark) -> bool:
        """Does the point behind a unit end the sentence: "will be 20 kg. shoulder 38 cm"; not "14 in. tall"."""
        if self.page.raw(mark) != "." or not self.page.tidied.text[mark.end : mark.end + 1].isspace():
            return False
        following = self.marks[at + 1 : at + 3]
        named = bool(following) and following[0].has("atom", "letter", "list")
        return not named or (len(following) == 2 and following[1].kind == NUMBER)

    # --- Which numbers are meant ---

    def _number(self, at: int, mark: Mark) -> None:
        candidate = self.page.candidates[mark.quantity]
        if self.is_year(at) and self._take_back("past", Cue(at, at), pointed=True):
            candidate.leave(SetAside.NOT_A_MEASURE, "a year")
        if not self.is_amount(candidate) or candidate.aside is not None:
            return
        if self.is_of_animal(at):
            self._leave(candidate, "companion")
        elif self.scope is None:
            if self.is_change(at):
                candidate.leave(SetAside.UNCLEAR, "a change from one value to another")
            elif self.has_become(at):
                self._leave(candidate, "past")
            elif self.left is not None and (at - self.turned <= CLOSE_BY or self._is_without(at)):
                self.page.against[candidate.number] = self.left
            self.left = None
        elif not self.is_now(at) and not (self.scope.kind == "person" and self.is_short(at)):
            self._leave(candidate, self.scope.kind)
            self.scope.taken = self.left = candidate.number
            if self.scope.once:
                self._close(at)

    def _is_without(self, at: int) -> bool:
        """Is it the value without what the number before was taken with: "8.5 barefoot"."""
        near = self.left is not None and at - self.place(self.left) <= LOOKED_AHEAD
        return near and self.is_now(at, "off")

    def _leave(self, candidate: Candidate, kind: str) -> None:
        scopes = self.page.words.scopes
        if kind in scopes.weak and self.marks[self.place(candidate.number) - 1].text == "(":
            candidate.leave(SetAside.NOT_A_MEASURE, scopes.notes[kind])  # "12 in shoulder (17 with the ears up)"
            return
        if kind in scopes.weak:
            candidate.older, candidate.note = True, scopes.notes[kind]
            return
        why = SetAside.NOT_THIS_DOG if kind in scopes.others else SetAside.NOT_A_MEASURE
        candidate.leave(why, scopes.notes[kind])
        candidate.beside = kind

    def _take_back(self, kind: str, hit: Cue, *, pointed: bool) -> bool:
        """Set aside what stands right before a phrase; False: nothing does."""
        found = self.reach_back(hit, pointed=pointed)
        for number in found:
            candidate = self.page.candidates[number]
            if candidate.aside is None and not self.is_now(self.place(number)):
                self._leave(candidate, kind)
                self.left = number
        return bool(found)

    def _than_nothing(self, hit: Cue) -> bool:
        following = self.marks[hit.last + 1 : hit.last + 2]
        return not (following and following[0].among(Small.COMPARES))

    def _take_outdone(self, kind: str, hit: Cue) -> None:
        """Read "the beagle is 25 lb so way bigger": it is only there to compare."""
        for number in self.reach_back(hit):
            if self.is_of_dog_named_by_breed(number) and self.page.candidates[number].aside is None:
                self._leave(self.page.candidates[number], kind)
                self.page.elsewhere.update(range(self.place(number) - BACK, hit.last + 1))

    def _take_whole(self, kind: str) -> None:
        free = [one for one in self.page.candidates if one.aside is None and self.is_amount(one)]
        if len(free) <= _FEW and not self.page.context.dogs:
            for candidate in free:
                self._leave(candidate, kind)
