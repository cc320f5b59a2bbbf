"""Tells whose each number is: which dogs a message speaks of, and which of them it has in mind at each number.

One idea: going through the text, a name, "the other one", a breed or a pronoun turns the eye to a dog, and the numbers
that follow are that dog's, until it turns again.
"""

from bisect import bisect_right
from collections.abc import Sequence

from replies.reading.corrections import LONGEST_SENTENCE
from replies.reading.facts import SetAside
from replies.reading.marks import NUMBER, PHRASE, SENTENCE_ENDS, STOP, Mark
from replies.reading.name_order import names_stand_behind, numbers_before_names
from replies.reading.page import Named, Page, Slot
from replies.reading.several import mark_of_one, speaks_of_several, told_by_sex
from replies.reading.small_words import Small
from replies.reading.uncarried import (
    is_of_other_animals,
    leave_other_breeds,
    leave_others,
    leave_served,
    leave_uncarried,
    scope_of,
    told_elsewhere,
    turns_to_own,
)
from sizing.breeds import spoken_breeds

_MOST_DOGS = 60
"""No customer speaks of more dogs; a text that seems to is no message."""


BOTH = -1
"""Stands for every dog of the message, also those that are named later."""


def meet_known_dogs(page: Page) -> None:
    """Begin with the dogs that are known."""
    for known, dog in enumerate(page.context.dogs):
        page.dogs.append(Slot(known=known, name=dog.name, breeds=dog.breeds))


def find_dogs(page: Page) -> None:
    """Find the dogs of a message and give each number to one or several of them, or set it aside."""
    if is_of_other_animals(page):
        for candidate in page.candidates:
            if candidate.aside is None:
                candidate.leave(SetAside.NOT_THIS_DOG, page.words.notes["not_carried"])
        return
    gaze = _Gaze(page, page.names)
    gaze.go()
    _share(page)


class _Gaze:
    """The eye that goes through the text."""

    def __init__(self, page: Page, names: Sequence[Named]) -> None:
        self.page = page
        self.names = {named.first: named for named in names}
        self.order = sorted(self.names)
        self.distinct = list(dict.fromkeys(named.name.casefold() for named in names))
        self.behind = names_stand_behind(page, names) if len(self.distinct) > 1 else False
        self.many = len(self.distinct) > 1 or len(page.context.dogs) > 1 or speaks_of_several(page)
        self.sexes = not self.distinct and not page.context.dogs and told_by_sex(page)
        self.named_behind = numbers_before_names(page, self.names)
        self.by_mark: dict[str, int] = {}
        self.told_in: dict[int, int] = {}
        self.current: int | None = self._at_first()
        self.new_pending = False
        self.both_until = -1

    def _at_first(self) -> int | None:
        context = self.page.context
        asked = {asked.dog for asked in context.asked if asked.dog < len(context.dogs)}
        if len(asked) == 1:
            return asked.pop()
        if len(context.dogs) == 1 or (context.dogs and not asked):
            return len(context.dogs) - 1
        return None

    def go(self) -> None:
        """Go through the marks once."""
        page = self.page
        skip = -1
        for at, mark in enumerate(page.marks):
            if at <= skip:
                continue
            named = self.names.get(at)
            if named is not None:
                if not _is_standard(page.marks, at):
                    self._name(named)
                skip = named.last
            elif mark.kind == NUMBER:
                self._number(at, mark)
            elif mark.kind == PHRASE and (mark.senses or self.many):
                self._phrase(at, mark)

    def _number(self, at: int, mark: Mark) -> None:
        candidate = self.page.candidates[mark.quantity]
        if candidate.dogs:
            return
        if candidate.note == "a difference":
            candidate.dogs = (self._here(at),)
            return
        if candidate.aside is not None and candidate.aside is not SetAside.WITHDRAWN:
            return
        if self._is_both(at) and at not in self.named_behind:
            candidate.dogs = (BOTH,)
            return
        if self.behind or at in self.named_behind:
            slot = self._next_named(at)
        elif self.current is None and self._several_asked():
            return
        else:
            slot = self._here(at)
        if candidate.measure is not None:
            self.told_in[slot] = self.told_in.get(slot, 0) + 1
        candidate.dogs = (slot,)

    def _several_asked(self) -> bool:
        return len({asked.dog for asked in self.page.context.asked}) > 1

    def _here(self, at: int) -> int:
        if self.current is None:
            self.current = self._add(Slot())
        if self.new_pending:
            self.new_pending = False
            self.current = self._add(Slot())
        return self.current

    def _add(self, slot: Slot) -> int:
        if len(self.page.dogs) >= _MOST_DOGS:
            return len(self.page.dogs) - 1
        self.page.dogs.append(slot)
        return len(self.page.dogs) - 1

    def _name(self, named: Named) -> None:
        """Turn to the dog of a name."""
        slot = self._slot_named(named)
        if slot is None:
            return
        self.new_pending = False
        if not self.behind:
            self.current = slot
        self.both_until = -1

    def _slot_named(self, named: Named) -> int | None:
        key = named.name.casefold()
        for number, slot in enumerate(self.page.dogs):
            if slot.name is not None and slot.name.casefold() == key:
                return number
        unnamed = self._unnamed(named)
        if unnamed is not None:
            self.page.dogs[unnamed].name = named.name
            return unnamed
        return self._add(Slot(name=named.name))

    def _unnamed(self, named: Named) -> int | None:
        """Give the dog without a name that this is the name of; None: it is another dog's."""
        if self.new_pending:
            return None
        current = self.current
        if current is not None and self.page.dogs[current].name is None:
            first = named.name.casefold() == self.distinct[0]
            if (
                len(self.distinct) == 1
                or not self.told_in.get(current)
                or (first and self.page.dogs[current].known is None and not self.many)
            ):
                return current
            if self.page.dogs[current].known is not None and first:
                return current
            return None
        return None

    def _next_named(self, at: int) -> int:
        """Give the dog whose name stands next behind a number, where names stand behind what is told of them."""
        place = bisect_right(self.order, at)
        if place >= len(self.order):
            return self._here(at)
        return self._slot_named(self.names[self.order[place]]) or 0

    def _phrase(self, at: int, mark: Mark) -> None:
        if mark.has("dog") and self._numbered(at):
            return
        if mark.has("both") or (mark.text == "all" and self._before_number(at)):
            if self.many and not self._both_of_words(at):
                self.both_until = self._clause_end(at)
            return
        if mark.has("same") and (self.many or self.new_pending or len(self.page.dogs) > 1):
            self.page.likenings[at] = self._here(at)
        elif mark.has("other"):
            self._other(at, mark)
        elif mark.has("first") and self.many and len(self.page.dogs) > 1:
            self.current = 0
        elif self.many and (told_as := mark_of_one(self.page.marks, at)):
            self._by_mark(told_as)
        elif mark.has("kin") and self._is_new_kin(at):
            self.new_pending = True
        elif mark.has("animal") and not mark.has("breed", "filler", "connector"):
            self._aside_animal(at)
        elif mark.has("owner"):
            self._owner(at)
        elif mark.has("breed"):
            self._breed(at, mark)
        elif mark.has("pronoun"):
            self._pronoun(mark)

    def _numbered(self, at: int) -> bool:
        """Turn to the first or second dog of those known: "dog 1 is Basil, dog 2 is Sybil"."""
        following = self.page.marks[at + 1] if at + 1 < len(self.page.marks) else None
        if following is None or following.kind != NUMBER or len(self.page.context.dogs) < 2:
            return False
        quantity = self.page.quantities.found[following.quantity]
        place = int(quantity.low) - 1
        if quantity.unit is not None or quantity.low % 1 or not 0 <= place < len(self.page.context.dogs):
            return False
        self.page.candidates[following.quantity].leave(SetAside.NOT_A_MEASURE, "the number of a dog")
        self.current = place
        return True

    def _is_both(self, at: int) -> bool:
        if at <= self.both_until:
            return True
        following = self.page.marks[at + 1 : at + 4]
        for mark in following:
            if mark.kind != PHRASE:
                return False
            if mark.has("both"):
                return self.many
            if not mark.has("atom", "connector", "filler"):
                return False
        return False

    def _before_number(self, at: int) -> bool:
        """Does a measure of all dogs follow: "all 10 tall"."""
        marks = self.page.marks[at + 1 : at + 3]
        return len(marks) == 2 and marks[0].kind == NUMBER and marks[1].has("atom")

    def _both_of_words(self, at: int) -> bool:
        """Does "both" belong to measures: "both across", "both measured twice"."""
        following = self.page.marks[at + 1] if at + 1 < len(self.page.marks) else None
        return following is not None and following.has("atom") and self._clause_has_no_number(at)

    def _clause_has_no_number(self, at: int) -> bool:
        return not any(mark.kind == NUMBER for mark in self.page.marks[at : self._clause_end(at) + 1])

    def _clause_end(self, at: int) -> int:
        for place in range(at + 1, min(at + LONGEST_SENTENCE, len(self.page.marks))):
            mark = self.page.marks[place]
            if (mark.kind == STOP and mark.text in SENTENCE_ENDS) or (place in self.names and place > at + 1):
                return place
        return min(at + LONGEST_SENTENCE, len(self.page.marks))

    def _other(self, at: int, mark: Mark) -> None:
        """Turn to the other dog, or expect another one."""
        if not self._tells_of_dogs(at, mark):
            return
        others = [number for number in range(len(self.page.dogs)) if number != self.current]
        known_other = len(self.page.dogs) == 2 and self.current is not None and not self._says(mark, Small.IS_FURTHER)
        if known_other:
            self.current = others[0]
            self.new_pending = False
        elif self.current is not None or self.page.dogs:
            self.new_pending = True

    def _tells_of_dogs(self, at: int, mark: Mark) -> bool:
        """Is "the other" another dog, rather than another measure."""
        if self._says(mark, Small.IS_A_DOG):
            return True
        before = self.page.marks[at - 1] if at else None
        if before is not None and before.among(Small.ON_A_SIDE) and not self.names.get(at + 1):
            return False  # "10.5 on the other": another side, another end
        if self.many:
            return True
        return not self.page.context.asked and (self._says(mark, Small.IS_SECOND) or bool(self.told_in))

    def _says(self, mark: Mark, which: Small) -> bool:
        return self.page.words.small.holds_one_of(mark.text, which)

    def _by_mark(self, key: str) -> None:
        """Turn to "the big one", "the boy"."""
        if key not in self.by_mark:
            if self.by_mark or (self.current is not None and self.told_in.get(self.current)):
                self.by_mark[key] = self._add(Slot())
            else:
                self.by_mark[key] = self._here(0)
        self.current = self.by_mark[key]
        self.new_pending = False

    def _is_new_kin(self, at: int) -> bool:
        """Is "her brother", "his sister" a dog of which something is told."""
        before = self.page.marks[at - 1] if at else None
        if before is None or not before.among(Small.WHOSE):
            return False
        following = self.page.marks[at + 1] if at + 1 < len(self.page.marks) else None
        told = (
            at + 1 in self.names
            or (following is not None and following.kind == NUMBER)
            or (following is not None and following.has("filler", "same") and self._number_or_same(at))
        )
        return told and (self.current is not None or bool(self.page.dogs))

    def _number_or_same(self, at: int) -> bool:
        for mark in self.page.marks[at + 1 : at + 8]:
            if mark.kind == NUMBER or mark.has("same"):
                return True
            if mark.kind == STOP and mark.text in SENTENCE_ENDS:
                return False
        return False

    def _aside_animal(self, at: int) -> None:
        """The numbers of a cat's sentence are the cat's."""
        until = self._clause_end(at)
        for place in range(at + 1, until):
            mark = self.page.marks[place]
            if (mark.kind == PHRASE and mark.has("dog", "breed")) or place in self.names:
                return
            if mark.kind == NUMBER:
                self.page.candidates[mark.quantity].leave(SetAside.NOT_THIS_DOG, self.page.words.notes["not_carried"])

    def _owner(self, at: int) -> None:
        """A friend's dog is to be carried where she wants a carrier for it; else its numbers are set aside."""
        start, end = scope_of(self.page, at)
        sentence = self.page.marks[start:end]
        if _only_speaks(self.page, at):
            return
        self._leave_in_brackets(at)
        if any(mark.has("wants_one") for mark in self.page.marks[at + 1 : at + 5]):
            if self.page.dogs:
                self.new_pending = True
            return
        mine = turns_to_own(self.page.marks[end : end + LONGEST_SENTENCE]) or self._was_earlier(at, sentence)
        if not mine and not any(mark.has("needs_none") for mark in sentence):
            return
        for mark in sentence:
            if mark.kind == NUMBER:
                self.page.candidates[mark.quantity].leave(SetAside.NOT_THIS_DOG, self.page.words.notes["not_carried"])

    def _was_earlier(self, at: int, sentence: Sequence[Mark]) -> bool:
        """Is it a dog before this one, whose measures are told of another one too: "our last dog was 16 long"."""
        if not self._says(self.page.marks[at], Small.EARLIER):
            return False
        inside = [self.page.candidates[mark.quantity] for mark in sentence if mark.kind == NUMBER]
        return bool(inside) and told_elsewhere(self.page, inside)

    def _leave_in_brackets(self, at: int) -> None:
        """Set aside what is told in passing of another's dog, or of an earlier one: "for my old dog (12 lb)"."""
        if at + 1 >= len(self.page.marks) or self.page.marks[at + 1].text != "(":
            return
        for mark in self.page.marks[at + 2 : at + 10]:
            if mark.text == ")":
                return
            if mark.kind == NUMBER:
                self.page.candidates[mark.quantity].leave(SetAside.NOT_THIS_DOG, self.page.words.notes["not_carried"])

    def _breed(self, at: int, mark: Mark) -> None:
        breeds = spoken_breeds().get(mark.name("breed") or "", ())
        if not breeds:
            return
        if self.new_pending:
            self._here(at)
        slot = self.page.dogs[self.current] if self.current is not None else None
        if (
            slot is not None
            and slot.breeds
            and not set(slot.breeds) & set(breeds)
            and self.told_in.get(self.current or 0)
            and len(self.distinct) < 2
            and self._says_other_breed(at)
        ):
            self.current = self._add(Slot(breeds=breeds))
            return
        if slot is None:
            self.current = self._add(Slot(breeds=breeds))
        elif not slot.breeds:
            slot.breeds = breeds

    def _says_other_breed(self, at: int) -> bool:
        """Does a second breed bring its own numbers."""
        return any(mark.kind == NUMBER for mark in self.page.marks[at + 1 : at + 8])

    def _by_sex(self, sex: str) -> None:
        """Turn to the dog that is a he, or a she, where that is all that tells two apart."""
        for number, slot in enumerate(self.page.dogs):
            if slot.sex == sex:
                self.current = number
                return
        if self.current is not None and self.page.dogs[self.current].sex is None:
            self.page.dogs[self.current].sex = sex
            return
        self.current = self._add(Slot(sex=sex))

    def _pronoun(self, mark: Mark) -> None:
        sex = mark.name("pronoun")
        if sex not in ("he", "she"):
            return
        if self.sexes:
            self._by_sex(sex)
            return
        if self.current is None:
            return
        slot = self.page.dogs[self.current]
        if slot.sex is None:
            slot.sex = sex
        elif slot.sex != sex and len(self.page.dogs) == 2 and self.many:
            other = 1 - self.current
            if self.page.dogs[other].sex in (None, sex):
                self.current = other
                self.page.dogs[other].sex = sex


def _only_speaks(page: Page, at: int) -> bool:
    """Does a person only give a number: "my mum measured too and got 32"."""
    following = [mark for mark in page.marks[at + 1 : at + 3] if mark.kind == PHRASE and not mark.among(Small.FURTHER)]
    return bool(following) and following[0].text.split()[0] in page.words.small.lists[Small.ONLY_SPEAKS]


def _is_standard(marks: Sequence[Mark], at: int) -> bool:
    """Is a dog named only because another one is likened to it: "same as Ivy", "an inch longer than Ivy"."""
    before = marks[at - 1] if at else None
    return before is not None and before.kind == PHRASE and (before.has("same") or before.among(Small.COMPARES))


def _share(page: Page) -> None:
    """Give what is said of all dogs to each; leave out dogs that are not to be carried."""
    leave_uncarried(page)
    leave_others(page)
    leave_other_breeds(page)
    leave_served(page)
    if not page.dogs and any(candidate.dogs == (BOTH,) for candidate in page.candidates):
        page.dogs.append(Slot())
    carried = [number for number, slot in enumerate(page.dogs) if slot.carried]
    for candidate in page.candidates:
        if candidate.dogs == (BOTH,):
            candidate.dogs = tuple(_named_in_message(page, carried))


def _named_in_message(page: Page, carried: Sequence[int]) -> Sequence[int]:
    return carried
