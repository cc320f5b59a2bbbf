"""Words of doubt around a number."""

import pytest

from tests.replies.reading.found import amounts

HEDGED = [
    ("about", "about 12", "12 hedged"),
    ("a tilde", "~12", "12 hedged"),
    ("just under", "just under 12 lb", "12 lb hedged"),
    ("a hair over", "a hair over 11", "11 hedged"),
    ("ish glued", "12ish", "12 hedged"),
    ("ish with a hyphen", "12-ish", "12 hedged"),
    ("ish before the unit", "12ish inches", "12 in hedged"),
    ("ish behind the unit", "12 lb ish", "12 lb hedged"),
    ("tall-ish", "a foot tall-ish", "1 ft hedged"),
    ("or so", "12 or so", "12 hedged"),
    ("or so before the unit", "20 or so pounds", "20 lb hedged"),
    ("and a bit", "12 and a bit", "12 hedged"),
    ("more than, as a sign", "> 10 lb", "10 lb hedged"),
    ("like", "like 6.5 across", "6.5 hedged"),
    ("before a range", "around 12-13", "12-13 hedged"),
    ("German", "ca. 12 kg", "12 kg hedged"),
    ("Dutch", "ongeveer 30 cm", "30 cm hedged"),
    ("French", "environ 30 cm", "30 cm hedged"),
    ("Spanish", "más o menos 30 cm", "30 cm hedged"),
    ("a guess", "maybe 12", "12 hedged guessed"),
    ("a guess in several words", "i'd guess 12ish", "12 hedged guessed"),
    ("a guess behind", "12 i think", "12 hedged guessed"),
    ("a guess, German", "vielleicht 30 cm", "30 cm hedged guessed"),
]


@pytest.mark.parametrize(("text", "amount"), [row[1:] for row in HEDGED], ids=[row[0] for row in HEDGED])
def test_words_of_doubt_are_seen(text: str, amount: str) -> None:
    assert amounts(text) == [amount]


SURE = [
    ("around the chest", "chest around 18", "18"),
    ("all the way around", "all around 18", "18"),
    ("around it measured", "tape around 18", "18"),
    ("they say", "they say 15 lb", "15 lb"),
    ("says", "vet says 15 lb", "15 lb"),
    ("fits under", "must fit under 18", "18"),
    ("the end of markup", "<b>length</b> 13.25 in<br>", "13.25 in"),
    ("a quoted line", "so\n> 12", "12"),
    ("about on the line above", "what about\n12", "12"),
    ("doubt about another word", "about my dog: 12", "12"),
    ("English", "an English setter 12", "12"),
    ("a dish", "12 dishes", "12"),
]


@pytest.mark.parametrize(("text", "amount"), [row[1:] for row in SURE], ids=[row[0] for row in SURE])
def test_words_that_only_look_like_doubt_are_not(text: str, amount: str) -> None:
    assert amounts(text) == [amount]
