"""The words by which the eye on a message turns to another dog: "the other one", "the big one", a breed, "she"."""

from collections.abc import Sequence

from replies.reading.facts import SetAside
from replies.reading.gaze import Gaze
from replies.reading.mark_index import LONGEST_SENTENCE
from replies.reading.marks import NUMBER, PHRASE, SENTENCE_ENDS, STOP, Mark
from replies.reading.page import Slot
from replies.reading.several import mark_of_one, marks_of_ones
from replies.reading.small_words import Small
from replies.reading.tell_apart import (
    breeds_of,
    differs_in_breed,
    dog_of_breed,
    dog_of_size,
    is_of_another,
    numbers_ahead,
)
from replies.reading.uncarried import leave_animal, leave_in_brackets, leave_owners, only_speaks
from replies.reading.wishes import is_for_further_dog

_TURNING = ("dog", "both", "same", "wish", "other", "first", "kin", "animal", "owner", "breed", "pronoun")
"""Kinds of phrases at which the eye may turn."""


class Turns(Gaze):
    """The eye, with the words that turn it."""

    def go(self) -> None:
        """Go through the marks once."""
        page = self.page
        turning = {*page.index.places(*_TURNING), *marks_of_ones(page)}
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
            elif (at in turning or mark.text == "all") and (mark.senses or self.many):
                self._phrase(at, mark)
        self._decide_late()

    def _phrase(self, at: int, mark: Mark) -> None:
        if at in self.page.in_tries or at in self.page.elsewhere or (mark.has("dog") and self._numbered(at)):
            return
        if mark.has("both") or (mark.text == "all" and self._before_number(at)):
            if self.many and not self._both_of_words(at):
                self.both_until = self._clause_end(at)
            return
        if mark.has("same") and (self.many or self.new_pending or len(self.page.dogs) > 1):
            self.page.likenings[at] = self._here(at)
        elif mark.has("wish") and self._wishes_further(at):
            self.new_pending = True
        elif mark.has("other"):
            self._other(at, mark)
        elif mark.has("first") and self.many and len(self.page.dogs) > 1:
            self._turn(0)
        elif (self.many or self.page.context.dogs) and (told_as := mark_of_one(self.page.marks, at)):
            self._by_mark(told_as, at)
        elif mark.has("kin") and self._is_new_kin(at):
            self.new_pending = True
        elif mark.has("animal") and not mark.has("breed", "filler", "connector"):
            leave_animal(self.page, at, self._clause_end(at), self.names)
        elif mark.has("owner"):
            self._owner(at)
        elif mark.has("breed"):
            self._breed(at, mark)
        elif mark.has("pronoun"):
            self._pronoun(mark)

    def _wishes_further(self, at: int) -> bool:
        known = bool(self.page.context.dogs or self.told_in)
        return known and (is_for_further_dog(self.page, at, self.names, self._met()) or self._tells_anew(at))

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
        self._turn(place)
        return True

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
        further = self._says(mark, Small.IS_FURTHER)
        if len(self.page.dogs) == 2 and not further:
            if self._says(mark, Small.SECOND):
                self._turn(1)
            elif self.current is not None:
                self._turn(1 - self.current)
        elif self.current is not None or self.page.dogs:
            self.new_pending = True

    def _tells_of_dogs(self, at: int, mark: Mark) -> bool:
        """Is "the other" another dog, rather than another measure."""
        following = self.page.marks[at + 1] if at + 1 < len(self.page.marks) else None
        strange = following is not None and following.kind == PHRASE and not following.senses
        if strange and mark.among(Small.LEADS_ON_OTHER) and at + 1 not in self.names:
            return False  # "my other note says 12"
        if following is not None and following.kind == NUMBER and self._says(mark, Small.IS_FURTHER):
            return False  # "he's got another 2 in him"
        if self._counts_measures(mark, following):
            return False  # "the other two again: 3.75 wide, throat 6.5"
        if self._says(mark, Small.IS_A_DOG):
            return True
        before = self.page.marks[at - 1] if at else None
        if before is not None and before.among(Small.ON_A_SIDE) and not self.names.get(at + 1):
            return False  # "10.5 on the other": another side, another end
        if self.many:
            return True
        if self.page.context.asked:
            return self._tells_measures(at)
        return self._says(mark, Small.IS_SECOND) or bool(self.told_in)

    def _counts_measures(self, mark: Mark, following: Mark | None) -> bool:
        """Is it "the other two", where one dog is known: two measures."""
        if following is None or following.kind != NUMBER or len(self.page.context.dogs) != 1:
            return False
        return mark.among(Small.LEADS_ON_OTHER) and self.page.quantities.found[following.quantity].spelled

    def _tells_anew(self, at: int) -> bool:
        """Do measures follow of which the dog in sight has other values."""
        told = numbers_ahead(self.page, at, self.names)
        return self.current is not None and is_of_another(self.page, self.current, told, least=1)

    def _tells_measures(self, at: int) -> bool:
        """Do measures follow by name, as of a dog: "second one is 9.5 tall, 11 long"; not "the second one is 9"."""
        told = {one.measure for one in numbers_ahead(self.page, at, self.names)}
        return len(told) > 1 or self._tells_anew(at)

    def _says(self, mark: Mark, which: Small) -> bool:
        return self.page.words.small.holds_one_of(mark.text, which)

    def _by_mark(self, key: str, at: int) -> None:
        """Turn to "the big one", "the boy"."""
        if self.page.context.dogs:
            self._by_mark_of_known(key, at)
            return
        if key not in self.by_mark:
            if self.by_mark or (self.current is not None and self.told_in.get(self.current)):
                self.by_mark[key] = self._add(Slot())
            else:
                self.by_mark[key] = self._here(0)
        self._turn(self.by_mark[key])

    def _by_mark_of_known(self, key: str, at: int) -> None:
        """Turn to the one of the known dogs that it is said of, or expect another one."""
        if key in self.by_mark:
            self._turn(self.by_mark[key])
            return
        slot = dog_of_size(self.page, key, self.values) if len(self.page.dogs) > 1 else None
        if slot is not None:
            self.by_mark[key] = slot
            self._turn(slot)
        elif len(self.page.dogs) > 1:
            self.current = None
        elif self._tells_anew(at):
            self.by_mark[key] = self._add(Slot())
            self._turn(self.by_mark[key])

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

    def _owner(self, at: int) -> None:
        """A friend's dog is to be carried where she wants a carrier for it; else its numbers are set aside."""
        if only_speaks(self.page, at):
            return
        leave_in_brackets(self.page, at)
        if self.new_pending:
            return
        asks = any(mark.has("wants_one") for mark in self.page.marks[at + 1 : at + 5])
        if (asks or self._is_meant_for(at)) and self.page.dogs:
            self.new_pending = True
        elif not asks:
            self.others_until = leave_owners(self.page, at)

    def _is_meant_for(self, at: int) -> bool:
        """Is it "for my mum's dog", with other values than those of the dog in sight."""
        before = self.page.marks[at - 1] if at else None
        return before is not None and before.among(Small.MEANT_FOR) and self._tells_anew(at)

    def _breed(self, at: int, mark: Mark) -> None:
        breeds = breeds_of(mark)
        if not breeds or at < self.others_until or self._is_crossed(at):
            return
        if self.new_pending:
            self._here(at)
        elif self._turns_to_breed(at, breeds):
            return
        slot = self.page.dogs[self.current] if self.current is not None else None
        if slot is None:
            if len(self.page.context.dogs) < 2:
                self.current = self._add(Slot(breeds=breeds))
        elif self.current is not None and self._is_other_breed(at, self.current, breeds):
            self.current = self._add(Slot(breeds=breeds))
        elif not slot.breeds:
            slot.breeds = breeds

    def _is_crossed(self, at: int) -> bool:
        """Is it the other half of a cross: "boston x pug"."""
        before = self.page.marks[max(0, at - 2) : at]
        return len(before) == 2 and before[1].text in ("x", "cross", "/", "&") and before[0].has("breed")

    def _turns_to_breed(self, at: int, breeds: Sequence[str]) -> bool:
        """Turn to the one known dog of a breed: "the pug is 6 wide"."""
        before = self.page.marks[at - 1] if at else None
        slot = dog_of_breed(self.page, breeds) if len(self.page.dogs) > 1 else None
        if slot is None or before is None or not before.among(Small.THE_OR_OUR):
            return False
        self._turn(slot)
        return True

    def _is_other_breed(self, at: int, dog: int, breeds: Sequence[str]) -> bool:
        """Does a second breed bring its own numbers: it is then another dog's."""
        if not differs_in_breed(self.page, dog, breeds) or len(self.distinct) > 1:
            return False
        if self.told_in.get(dog):
            return any(mark.kind == NUMBER for mark in self.page.marks[at + 1 : at + 8])
        return self._tells_anew(at)

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
            if mark.among(Small.HE_OR_SHE):
                self._of_sex(sex)
            return
        slot = self.page.dogs[self.current]
        if slot.sex is None:
            slot.sex = sex
            slot.sex_told = mark.among(Small.HE_OR_SHE)
        elif slot.sex != sex and len(self.page.dogs) == 2 and self.many:
            other = 1 - self.current
            if self.page.dogs[other].sex in (None, sex):
                self.current = other
                self.page.dogs[other].sex = sex

    def _of_sex(self, sex: str) -> None:
        """Turn to the only one of the known dogs that was called he, or she."""
        found = [number for number, slot in enumerate(self.page.dogs) if slot.sex == sex]
        if len(found) == 1:
            self._turn(found[0])


def _is_standard(marks: Sequence[Mark], at: int) -> bool:
    """Is a dog named only because another one is likened to it: "same as Ivy", "an inch longer than Ivy"."""
    before = marks[at - 1] if at else None
    return before is not None and before.kind == PHRASE and (before.has("same") or before.among(Small.COMPARES))
