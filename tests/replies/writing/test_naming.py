"""What dogs are called."""

from dataclasses import replace

import pytest

from replies.enquiry import EnquiryDog
from replies.writing.naming import callings, names
from tests.replies.enquiries import dog

CAIRN = replace(dog(), breeds=("Cairn Terrier",))


@pytest.mark.parametrize(
    ("dogs", "called"),
    [
        ((), ("your dog",)),
        ((dog(),), ("your dog",)),
        ((CAIRN,), ("your dog",)),
        ((dog("Pickle"),), ("Pickle",)),
        ((dog("Pickle"), dog()), ("Pickle", "the second dog")),
        ((CAIRN, dog("Nip")), ("the Cairn Terrier", "Nip")),
        ((CAIRN, CAIRN), ("the first dog", "the second dog")),
        ((dog("Bella"), dog("Bella")), ("the first dog", "the second dog")),
        ((replace(dog(), breeds=("Dachshund (miniature)",)), dog("Nip")), ("the first dog", "Nip")),
        ((replace(dog(), breeds=("Pug", "Beagle")), dog("Nip")), ("the first dog", "Nip")),
        ((dog("@all"), dog("Nip")), ("the first dog", "Nip")),
    ],
)
def test_a_dog_is_called_by_its_name_its_breed_or_its_place(
    dogs: tuple[EnquiryDog, ...], called: tuple[str, ...]
) -> None:
    assert callings(dogs) == called


def test_many_dogs_are_all_called_differently() -> None:
    assert len(set(callings([dog()] * 12))) == 12


def test_names_are_given_once_and_only_where_they_are_names() -> None:
    assert names([dog("Pickle"), dog("Pickle"), dog(), dog("{{ x }}")]) == ("Pickle",)
