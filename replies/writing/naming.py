"""What the dogs of an enquiry are called in a text."""

import re
from collections import Counter
from collections.abc import Sequence

from replies.enquiry import EnquiryDog
from replies.writing.plain import plain_name

_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth")
_PLAIN_BREED = re.compile(r"[^\W\d_]+(?:[ \-’'][^\W\d_]+)*")


def callings(dogs: Sequence[EnquiryDog]) -> tuple[str, ...]:
    """Give what each dog is called in the middle of a sentence: its name, else its breed, else "your dog" and the like.

    dogs      in order of first mention; none known counts as one
    Returns   as many as there are dogs, all different
    """
    if len(dogs) <= 1:
        return (plain_name(dogs[0].name) or "your dog",) if dogs else ("your dog",)
    wanted = [plain_name(dog.name) or _breed(dog) for dog in dogs]
    often = Counter(wanted)
    return tuple(
        calling if calling is not None and often[calling] == 1 else f"the {_ordinal(number)} dog"
        for number, calling in enumerate(wanted)
    )


def names(dogs: Sequence[EnquiryDog]) -> tuple[str, ...]:
    """Give the names that are known, each once."""
    told = (plain_name(dog.name) for dog in dogs)
    return tuple(dict.fromkeys(name for name in told if name is not None))


def _breed(dog: EnquiryDog) -> str | None:
    plain = len(dog.breeds) == 1 and _PLAIN_BREED.fullmatch(dog.breeds[0])
    return f"the {dog.breeds[0]}" if plain else None


def _ordinal(number: int) -> str:
    return _ORDINALS[number] if number < len(_ORDINALS) else f"{number + 1}th"
