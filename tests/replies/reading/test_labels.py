"""The names of measures, in the many ways in which people say them."""

import pytest

from tests.replies.reading.readings import dogs, measures

NAMES = {
    "length": [
        "length 13 in", "back length: 13 in", "back 13 in", "his back is 13 in", "13 in long", "13 inches in length",
        "13 in from neck to tail", "from the base of the neck to the base of the tail he is 13 in",
        "collar to tail 13 in",
        "13 in nape to rump", "withers to base of tail 13 in", "shoulder blades to tail base: 13 in", "L = 13 in",
        "topline 13 in", "body length 13 in", "lenght 13 in", "legnth 13 in", "length (neck to tail) 13 in",
        "it's 13 in along the back", "13 in along her spine", "13 in where the neck starts to where the tail starts",
        "Rückenlänge 33 cm", "Rücken 33 cm", "33 cm lang", "longueur 33 cm", "longueur du dos : 33 cm",
        "du cou à la queue 33 cm", "largo del lomo 33 cm", "lunghezza 33 cm", "lungo 33 cm",
        "comprimento 33 cm", "ruglengte 33 cm", "lengte 33 cm", "längd 33 cm", "rygglängd 33 cm", "ryglængde 33 cm",
        "długość grzbietu 33 cm", "długość 33 cm",
    ],
    "height": [
        "height 11 in", "shoulder height 11 in", "11 in tall", "11 in high", "he stands 11 in at the shoulder",
        "11 in at the withers", "floor to shoulder 11 in", "from the ground up to his shoulder it's 11 in", "H: 11 in",
        "wither height is 11 in", "11 in to the top of the shoulder", "ground to withers 11 in", "hight 11 in",
        "heigth 11 in", "shoulder to floor 11 in", "he comes up to 11 in at the shoulder blades",
        "Schulterhöhe 28 cm", "Widerristhöhe 28 cm", "28 cm hoch", "Höhe 28 cm", "hauteur au garrot 28 cm",
        "hauteur 28 cm", "altura a la cruz 28 cm", "alto 28 cm", "altezza al garrese 28 cm", "altura 28 cm",
        "schofthoogte 28 cm", "schouderhoogte 28 cm", "mankhöjd 28 cm", "skulderhøjde 28 cm", "wysokość w kłębie 28 cm",
        "wysokość 28 cm",
    ],
    "width": [
        "width 5 in", "5 in wide", "5 in across", "W 5 in", "5 in across the shoulders", "shoulder width 5 in",
        "5 in across the chest", "chest width is 5 in", "5 in at the widest point", "at his widest he's 5 in",
        "widht 5 in",
        "5 in side to side", "5 in from one side to the other", "widest part of the ribs 5 in",
        "Breite 13 cm", "13 cm breit", "largeur 13 cm", "largeur des épaules 13 cm", "ancho 13 cm", "larghezza 13 cm",
        "largura 13 cm", "breedte 13 cm", "bredd 13 cm", "bredde 13 cm", "szerokość 13 cm",
    ],
    "throat_height": [
        "throat height 8 in", "throat 8 in", "floor to throat 8 in", "8 in from the ground to his throat",
        "8 in up to the throat", "8 in to the throat", "throat to floor 8 in", "the hollow of the throat is at 8 in",
        "throat hight 8 in", "height to throat 8 in", "height of the throat 8 in",
        "Kehlhöhe 20 cm", "Kehle 20 cm", "hauteur de la gorge 20 cm", "altura de la garganta 20 cm",
        "altezza della gola 20 cm", "altura da garganta 20 cm", "keelhoogte 20 cm", "strupe 20 cm", "gardło 20 cm",
    ],
    "weight": [
        "weight 12 lb", "weighs 12 lb", "12 lb", "12 lbs", "12 pounds", "he's 12 lb", "wt 12 lb", "wt. 12 lb",
        "weighing in at 12 lb", "tips the scales at 12 lb", "weigth 12 lb", "wieght 12 lb",
        "Gewicht 5 kg", "wiegt 5 kg", "poids 5 kg", "pèse 5 kg", "peso 5 kg", "pesa 5 kg", "gewicht 5 kg",
        "weegt 5 kg", "vikt 5 kg", "väger 5 kg", "vejer 5 kg", "waga 5 kg", "waży 5 kg",
    ],
    "girth": [
        "girth 16 in", "chest girth 16 in", "16 in around the chest", "around his ribs 16 in",
        "chest circumference 16 in", "16 in round the ribcage", "Brustumfang 41 cm", "tour de poitrine 41 cm",
        "contorno de pecho 41 cm", "borstomvang 41 cm", "bröstomfång 41 cm", "obwód klatki piersiowej 41 cm",
    ],
    "neck": [
        "neck 10 in", "neck girth 10 in", "10 in around the neck", "neck circumference 10 in", "Halsumfang 25 cm",
        "tour de cou 25 cm", "obwód szyi 25 cm",
    ],
}  # fmt: skip


@pytest.mark.parametrize(("text", "measure"), [(text, measure) for measure, texts in NAMES.items() for text in texts])
def test_a_measure_is_known_by_its_name(text: str, measure: str) -> None:
    assert list(measures(text)) == [measure]


@pytest.mark.parametrize("text", ["{}", "Hi! {}", "our dog: {}", "{}, thanks"])
@pytest.mark.parametrize(("letter", "measure"), [("L", "length"), ("H", "height"), ("W", "width")])
def test_a_letter_names_a_measure(text: str, letter: str, measure: str) -> None:
    assert measures(text.format(f"{letter}: 12 in")) == {measure: "12 in"}


def test_a_word_that_languages_use_differently_is_left_to_be_asked() -> None:
    assert measures("largo 33 cm") == {}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("LxWxH 13x5x11 in", {"length": "13 in", "width": "5 in", "height": "11 in"}),
        ("13L 11H 5W 8T", {"length": "13", "height": "11", "width": "5", "throat_height": "8"}),
        ("L 13 H 11 W 5 T 8", {"length": "13", "height": "11", "width": "5", "throat_height": "8"}),
        ("L33 B13 H28 cm", {"length": "33 cm", "height": "28 cm", "width": "13 cm"}),
        ('13"L x 11"H', {"length": "13 in", "height": "11 in"}),
    ],
)
def test_letters_name_measures_in_rows(text: str, expected: dict[str, str]) -> None:
    assert measures(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("11 in tall to the top of his head", {"height": "11 in head"}),
        ("14 in from floor to top of head", {"height": "14 in head"}),
        ("nose to tail 22 in", {"length": "22 in tail"}),
        ("22 in long including the tail", {"length": "22 in tail"}),
        ("from his nose to the tip of the tail 30 in", {"length": "30 in tail"}),
        ("width 16 in (measured around)", {"width": "16 in girth"}),
    ],
)
def test_a_measure_taken_to_another_place_is_told_to_be_so(text: str, expected: dict[str, str]) -> None:
    assert measures(text) == expected


def test_a_height_to_the_head_is_left_where_the_shoulder_is_told_too() -> None:
    assert measures("14 in to the top of his head, 11 in at the shoulder") == {"height": "11 in"}


@pytest.mark.parametrize(
    "text", ["length without the tail 13 in", "13 in long, not counting the tail", "13 in excluding tail"]
)
def test_a_length_without_the_tail_is_a_plain_length(text: str) -> None:
    assert measures(text) == {"length": "13 in"}


@pytest.mark.parametrize(
    "text", ["tail 9 in", "his tail is 9 in long", "legs 6 in", "his ears are 4 in long", "paw 2 in"]
)
def test_other_parts_of_a_dog_are_no_measures(text: str) -> None:
    assert dogs(text) in ([], [{}])
