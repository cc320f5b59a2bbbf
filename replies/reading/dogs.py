"""Tells whose each number is: which dogs a message speaks of, and which of them it has in mind at each number."""

from replies.reading.facts import SetAside
from replies.reading.gaze import BOTH
from replies.reading.meant_for import leave_other_breeds, leave_others, leave_served
from replies.reading.page import Page, Slot
from replies.reading.turns import Turns
from replies.reading.uncarried import is_of_other_animals, leave_uncarried


def meet_known_dogs(page: Page) -> None:
    """Begin with the dogs that are known."""
    for known, dog in enumerate(page.context.dogs):
        page.dogs.append(Slot(known=known, name=dog.name, breeds=dog.breeds, sex=dog.sex))


def find_dogs(page: Page) -> None:
    """Find the dogs of a message and give each number to one or several of them, or set it aside."""
    if is_of_other_animals(page):
        for candidate in page.candidates:
            if candidate.aside is None:
                candidate.leave(SetAside.NOT_THIS_DOG, page.words.notes["not_carried"])
        return
    Turns(page, page.names).go()
    _share(page)


def _share(page: Page) -> None:
    """Give what is said of all dogs to each; leave out dogs that are not to be carried."""
    leave_uncarried(page)
    leave_others(page)
    leave_other_breeds(page)
    leave_served(page)
    if not page.dogs and any(candidate.dogs == (BOTH,) for candidate in page.candidates):
        page.dogs.append(Slot())
    carried = tuple(number for number, slot in enumerate(page.dogs) if slot.carried)
    for candidate in page.candidates:
        if candidate.dogs == (BOTH,):
            candidate.dogs = carried
