"""Words that name a measure together, also as one word."""

import pytest

from replies.reading.composer import Composer, Compounds
from replies.reading.lexicon import Sense
from replies.reading.word_lists import Rule
from tests.replies.reading.readings import measures

RULES = [
    Rule(all=frozenset({"FLOOR", "THROAT"}), gives="throat_height"),
    Rule(all=frozenset({"THROAT"}), also=frozenset({"HEIGHT"}), gives="throat_height"),
    Rule(any=frozenset({"HEIGHT", "FLOOR"}), also=frozenset({"SHOULDER"}), gives="height"),
]


@pytest.mark.parametrize(
    ("atoms", "gives"),
    [
        ({"THROAT"}, "throat_height"),
        ({"FLOOR", "THROAT"}, "throat_height"),
        ({"THROAT", "HEIGHT"}, "throat_height"),
        ({"FLOOR", "SHOULDER"}, "height"),
        ({"SHOULDER"}, None),
        ({"THROAT", "TAIL"}, None),
    ],
)
def test_the_first_rule_that_covers_all_words_gives_the_measure(atoms: set[str], gives: str | None) -> None:
    rule = Composer(RULES).compose(frozenset(atoms))

    assert (rule.gives if rule else None) == gives


@pytest.mark.parametrize(
    ("word", "parts"),
    [
        ("schulterhohe", ("SHOULDER", "HEIGHT")),
        ("ruckenlange", ("BACK", "LENGTH")),
        ("hohe", ()),
        ("schulterpolster", ()),
        ("ruckenslange", ("BACK", "LENGTH")),
    ],
)
def test_a_compound_is_parted_into_two_known_words(word: str, parts: tuple[str, ...]) -> None:
    known = {"schulter": "SHOULDER", "hohe": "HEIGHT", "rucken": "BACK", "lange": "LENGTH"}
    compounds = Compounds({text: Sense("atom", name) for text, name in known.items()}, ["s", "n", "en", "e", "es"])

    assert tuple(sense.name for sense in compounds.parts(word)) == parts


@pytest.mark.parametrize(
    ("text", "measure"),
    [
        ("Schulterbreite 13 cm", "width"),
        ("Brustbreite 13 cm", "width"),
        ("Körperlänge 33 cm", "length"),
        ("lichaamslengte 33 cm", "length"),
        ("skulderhøyde 28 cm", "height"),
        ("brystomkreds 41 cm", "girth"),
    ],
)
def test_compounds_nobody_listed_are_understood(text: str, measure: str) -> None:
    assert list(measures(text)) == [measure]
