"""The eye that goes through a message: whose each number is.

A name, "the other one", a breed or a pronoun turns it to a dog, and the numbers that follow are that dog's, until it
turns again. Where nothing turns it and several dogs are known, a measure is of the one that still lacks it.
"""

from bisect import bisect_right
from collections.abc import Sequence
from itertools import pairwise

from replies.reading.facts import SetAside
from replies.reading.marks import PHRASE, Mark
from replies.reading.name_order import names_stand_behind, numbers_before_names
from replies.reading.page import Candidate, Named, Page, Slot
from replies.reading.several import speaks_of_several, told_by_sex
from replies.reading.small_words import Small
from replies.reading.tell_apart import (
    amount_of,
    breeds_behind,
    breeds_of,
    differs_in_breed,
    dog_with_gap,
    is_of_another,
    numbers_ahead,
    values_known,
)

_MOST_DOGS = 60
"""No customer speaks of more dogs; a text that seems to is no message."""


BOTH = -1
"""Stands for every dog of the message, also those that are named later."""


class Gaze:
    """The eye that goes through the text.

    current      the dog that it rests on; None: none, or it can't be told which
    new_pending  another dog is expected: the next number, breed or name is its own
    nameless     a name that may be of several dogs without one
    values       what is known of each dog, with what is told: inches and pounds
    """

    def __init__(self, page: Page, names: Sequence[Named]) -> None:
        self.page = page
        self.names = {named.first: named for named in names}
        self.order = sorted(self.names)
        self.distinct = list(dict.fromkeys(named.name.casefold() for named in names))
        self.behind = names_stand_behind(page, names) if len(self.distinct) > 1 else False
        self.many = len(self.distinct) > 1 or len(page.context.dogs) > 1 or speaks_of_several(page)
        self.sexes = not self.distinct and not page.context.dogs and told_by_sex(page)
        self.named_behind = numbers_before_names(page, self.names)
        self.anew = page.index.holds("again") or page.index.holds_among(Small.MEASURED_ANEW)
        self.values = [values_known(page, dog) for dog in range(len(page.dogs))]
        self.by_mark: dict[str, int] = {}
        self.told_in: dict[int, int] = {}
        self.undecided: list[Candidate] = []
        self.by_gap: set[int] = set()
        self.nameless: str | None = None
        self.current: int | None = self._at_first()
        self.new_pending = False
        self.both_until = -1
        self.others_until = -1
        self._name_in_order()

    def _at_first(self) -> int | None:
        context = self.page.context
        asked = {asked.dog for asked in context.asked if asked.dog < len(context.dogs)}
        if len(asked) == 1:
            return asked.pop()
        of_table = not context.dogs and len(self.page.dogs) == 1
        return 0 if len(context.dogs) == 1 or of_table else None

    # --- Numbers ---

    def _number(self, at: int, mark: Mark) -> None:
        candidate = self.page.candidates[mark.quantity]
        if candidate.dogs:
            return
        if candidate.note == "a difference":
            candidate.dogs = (self._here(at),)
            return
        if candidate.aside is not None and candidate.aside is not SetAside.WITHDRAWN:
            return
        self._see_breed_behind(at)
        if self._is_both(at) and at not in self.named_behind:
            candidate.dogs = (BOTH,)
            return
        if self.behind or at in self.named_behind:
            self._give(candidate, self._next_named(at))
        elif self.current is None and len(self.page.context.dogs) > 1 and not self.new_pending:
            self._by_gap(candidate)
        elif self.current is not None or not self._several_asked():
            self._give(candidate, self._here(at))

    def _see_breed_behind(self, at: int) -> None:
        """Turn where a number stands before another breed than the last one: "a 9 lb maltese and a 13 lb beagle"."""
        breeds = breeds_of(self.page.marks[at + 1]) if at + 1 < len(self.page.marks) else ()
        current = self.current
        if current is None or not self.told_in.get(current) or len(self.distinct) > 1:
            return
        if differs_in_breed(self.page, current, breeds):
            self.current = self._add(Slot(breeds=breeds))

    def _give(self, candidate: Candidate, slot: int) -> None:
        candidate.dogs = (slot,)
        if candidate.measure is not None:
            self.told_in[slot] = self.told_in.get(slot, 0) + 1
            self.values[slot][candidate.measure] = amount_of(self.page, candidate, slot)

    def _by_gap(self, candidate: Candidate) -> None:
        """Give a measure of which nothing tells whose it is to the dog that lacks it."""
        slot = dog_with_gap(self.page, candidate, self.values) if candidate.measure is not None else None
        if slot is None:
            self.undecided.append(candidate)
            return
        self.by_gap.add(slot)
        self.current = slot
        self._name_current()
        self._give(candidate, slot)

    def _decide_late(self) -> None:
        """Give what stood before a measure that only one dog lacked to that dog, too."""
        if len(self.by_gap) != 1:
            return
        slot = next(iter(self.by_gap))
        for candidate in self.undecided:
            if candidate.measure is not None and candidate.measure not in self.values[slot]:
                self._give(candidate, slot)

    def _several_asked(self) -> bool:
        return len({asked.dog for asked in self.page.context.asked}) > 1

    def _here(self, at: int) -> int:
        if self.current is None or self.new_pending:
            self.new_pending = False
            self.current = self._add(Slot())
        return self.current

    def _add(self, slot: Slot) -> int:
        if len(self.page.dogs) < _MOST_DOGS:
            self.page.dogs.append(slot)
            self.values.append({})
        return len(self.page.dogs) - 1

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

    def _turn(self, slot: int) -> None:
        self.current = slot
        self.new_pending = False
        self._name_current()

    # --- Names ---

    def _name(self, named: Named) -> None:
        """Turn to the dog of a name."""
        self.nameless = None
        slot = self._slot_named(named)
        if slot is None:
            self.nameless = named.name
        self.new_pending = False
        if not self.behind:
            self.current = slot
        self.both_until = -1

    def _name_current(self) -> None:
        if self.nameless is not None and self.current is not None and self.page.dogs[self.current].name is None:
            self.page.dogs[self.current].name = self.nameless
        self.nameless = None

    def _name_in_order(self) -> None:
        """Read "they are called Alfie and Dora" where just as many dogs have no name yet: in the order of the dogs."""
        nameless = [slot for slot in self.page.dogs if slot.name is None]
        met = self._met()
        row: dict[str, Named] = {}
        for at in self.order:
            named = self.names[at]
            if named.name.casefold() not in met:
                row.setdefault(named.name.casefold(), named)
        joined = all(later.first - one.last == 2 for one, later in pairwise(row.values()))
        if len(nameless) > 1 and len(row) == len(nameless) and joined:
            for slot, named in zip(nameless, row.values(), strict=True):
                slot.name = named.name

    def _met(self) -> set[str]:
        return {slot.name.casefold() for slot in self.page.dogs if slot.name is not None}

    def _slot_named(self, named: Named) -> int | None:
        """Give the dog of a name, also one that is new; None: it may be of several."""
        key = named.name.casefold()
        for number, slot in enumerate(self.page.dogs):
            if slot.name is not None and slot.name.casefold() == key:
                return number
        if self.new_pending:
            return self._add(Slot(name=named.name))
        may_be = self._may_be_named(named)
        if self.current in may_be:
            may_be = [self.current]
        if len(may_be) > 1:
            return None
        if may_be:
            self.page.dogs[may_be[0]].name = named.name
            return may_be[0]
        return self._add(Slot(name=named.name))

    def _may_be_named(self, named: Named) -> list[int]:
        """Give the dogs without a name that this may be the name of."""
        told = numbers_ahead(self.page, named.last, self.names)
        breeds = breeds_behind(self.page, named.last)
        return [
            number
            for number, slot in enumerate(self.page.dogs)
            if slot.name is None
            and slot.carried
            and (slot.known is not None or number == self.current)
            and self._takes_name(number, named)
            and not differs_in_breed(self.page, number, breeds)
            and (self.anew or not is_of_another(self.page, number, told))
        ]

    def _takes_name(self, number: int, named: Named) -> bool:
        """May a dog without a name be told of by this name, of all those in the message."""
        first = named.name.casefold() == self.distinct[0]
        known = self.page.dogs[number].known is not None
        return len(self.distinct) == 1 or not self.told_in.get(number) or (first and (known or not self.many))

    def _next_named(self, at: int) -> int:
        """Give the dog whose name stands next behind a number, where names stand behind what is told of them."""
        place = bisect_right(self.order, at)
        if place >= len(self.order):
            return self._here(at)
        return self._slot_named(self.names[self.order[place]]) or 0
