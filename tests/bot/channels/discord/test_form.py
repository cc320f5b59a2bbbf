"""What is written into a form is read as measures, whoever wrote it and however."""

import asyncio
from datetime import date

import pytest

from bot.channels.discord.form import FIELDS, LONGEST, filled_in, form, form_words
from bot.channels.discord.maker_forms import text_in, written_in
from bot.workbench import draft_for
from bot.workshop import open_workshop
from replies.enquiry import MessageEvent
from sizing.measures import Measure


def read(fields: dict[str, str]) -> dict[Measure, float]:
    """Give what is read out of a form, in inches and pounds."""
    event = MessageEvent(id="1", text=filled_in(fields))
    drafted = draft_for([event], open_workshop(None), date(2026, 3, 2))
    (dog,) = drafted.enquiry.dogs
    return {measure: known.taken.amount.low for measure, known in dog.measures.items()}


def test_every_field_of_the_form_is_read_as_its_measure() -> None:
    given = {"length": "13 in", "height": "11 1/2 in", "width": "5.25 in", "throat_height": "8 in", "weight": "14 lb"}

    assert read(given) == {
        Measure.LENGTH: 13,
        Measure.HEIGHT: 11.5,
        Measure.WIDTH: 5.25,
        Measure.THROAT_HEIGHT: 8,
        Measure.WEIGHT: 14,
    }


@pytest.mark.parametrize("field", [measure.value for measure in FIELDS if measure is not Measure.WEIGHT])
def test_one_field_alone_is_read(field: str) -> None:
    assert read({field: "33 cm"}) == {Measure(field): pytest.approx(33 / 2.54)}


def test_the_form_is_within_what_discord_takes() -> None:
    # API reference, modal and text input: title 45, at most 5 components, label 45, description 100
    async def shown() -> dict[str, object]:
        return form().to_dict()

    told = asyncio.run(shown())

    assert len(str(told["title"])) <= 45
    assert len(told["components"]) == len(FIELDS) == 5  # type: ignore[arg-type]
    for measure in FIELDS:
        words = form_words().fields[measure]
        assert len(words.label) <= 45
        assert len(words.hint) <= LONGEST


@pytest.mark.parametrize(
    ("components", "fields"),
    [
        pytest.param(
            [{"type": 18, "component": {"type": 4, "custom_id": "width", "value": "5"}}], {"width": "5"}, id="labels"
        ),
        pytest.param(
            [{"type": 1, "components": [{"type": 4, "custom_id": "width", "value": "5"}]}], {"width": "5"}, id="rows"
        ),
        pytest.param([{"type": 99, "custom_id": "x", "values": ["a"]}], {}, id="unknown"),
        pytest.param([], {}, id="nothing"),
    ],
)
def test_what_comes_back_is_read_by_the_codes_of_its_fields(
    components: list[dict[str, object]], fields: dict[str, str]
) -> None:
    assert written_in({"custom_id": "x", "components": components}) == fields


def test_a_text_in_several_fields_is_put_together_at_its_paragraphs() -> None:
    assert text_in({"text 1": "One.\n", "text 2": "", "text 3": "Two."}) == "One.\n\nTwo."
    assert written_in(None) == {}
