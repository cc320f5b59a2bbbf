"""The table of breeds and the words for them."""

from collections.abc import Iterator

import pytest

import sizing.breeds as breeds
import sizing.tables as tables
from sizing.breeds import breed_rows, breed_words, find_breed, spoken_breeds
from sizing.errors import DataError


@pytest.mark.parametrize("breed", sorted({row.breed for row in breed_rows()}))
def test_every_breed_is_found_by_its_own_name(breed: str) -> None:
    assert breed in find_breed(f"this is a {breed.upper()}, she is 4")


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("my chi", ("Chihuahua",)),
        ("frenchies", ("French Bulldog",)),
        ("a yorkie", ("Yorkshire Terrier",)),
        ("min pin", ("Miniature Pinscher",)),
        ("minpin", ("Miniature Pinscher",)),
        ("our JRT", ("Jack Russell Terrier", "Russell Terrier")),
        ("doxie", ("Dachshund (miniature)", "Dachshund (rabbit)", "Dachshund (standard)")),
        ("mini dachshund", ("Dachshund (miniature)",)),
        ("toy poodle", ("Poodle (Toy)",)),
        ("Lowchen", ("Löwchen",)),
        ("shih-tzu", ("Shih Tzu",)),
        ("chihuahua x pug", ("Chihuahua", "Pug")),
        ("a cockapoo", ("Cocker Spaniel", "English Cocker Spaniel", "Poodle (Miniature)")),
        ("a border collie", ("Border Collie",)),
        ("a weimaraner", ("Weimaraner",)),
    ],
)
def test_what_people_call_a_breed_is_found(words: str, found: tuple[str, ...]) -> None:
    assert find_breed(words) == found


@pytest.mark.parametrize(
    "words", ["", "she is 12 long", "chilly", "pugnacious", "labour", "the chin", "her border is torn", "13 x 10 x 5"]
)
def test_other_words_are_no_breed(words: str) -> None:
    assert find_breed(words) == ()


def test_the_place_of_a_breed_in_the_text_is_told() -> None:
    text = "Löwi is a Löwchen, not a pug"

    assert [text[start:end] for start, end, _ in breed_words(text)] == ["Löwchen", "pug"]


def test_every_spoken_name_means_breeds_of_the_table_or_a_breed_without_a_row() -> None:
    known = {row.breed for row in breed_rows()}

    assert all(set(names) <= known or len(names) == 1 for names in spoken_breeds().values())


def test_every_row_has_its_source() -> None:
    assert all(row.source for row in breed_rows())


HEADER = (
    "breed,source,height_min_in,height_max_in,weight_min_lb,weight_max_lb,"
    "length_to_height,proportion_text,read_or_memory"
)


@pytest.fixture
def fresh() -> Iterator[None]:
    breeds.breed_rows.cache_clear()
    yield
    breeds.breed_rows.cache_clear()


@pytest.mark.usefixtures("fresh")
@pytest.mark.parametrize(
    ("row", "says"),
    [
        ("Pug,,10,13,14,18,,,read", "line 2: breed, source and read_or_memory must be filled in"),
        ("Pug,a page,10,x,14,18,,,read", "line 2: height_max_in is 'x'; write a positive number or leave it blank"),
        ("Pug,a page,10,-13,14,18,,,read", "height_max_in is '-13'"),
        ("Pug,a page,13,10,14,18,,,read", r"the least height, 13\.0, is above the most, 10\.0; exchange them"),
    ],
)
def test_a_wrong_row_is_named_with_the_remedy(monkeypatch: pytest.MonkeyPatch, row: str, says: str) -> None:
    monkeypatch.setattr(tables, "text", lambda name: f"{HEADER}\n{row}\n")

    with pytest.raises(DataError, match=says):
        breed_rows()
