"""The form with a field for each of the five measures, and the message that it becomes. Its words are in form.toml."""

import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Annotated

import discord
from pydantic import BaseModel, ConfigDict, Field, ValidationError

from bot.errors import Fault, SettingsError
from sizing.measures import Measure
from sizing.units import is_weight

FORM = "tl1:measures"
"""The code of the button that opens the form, and of the form."""
COMMAND = "measures"
LONGEST = 100
"""Characters of one field."""
FIELDS = (Measure.LENGTH, Measure.HEIGHT, Measure.WIDTH, Measure.THROAT_HEIGHT, Measure.WEIGHT)

Line = Annotated[str, Field(min_length=1, max_length=500)]


class _Model(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)


class FieldWords(_Model):
    """The words of one field, as long as Discord takes them."""

    label: Annotated[str, Field(min_length=1, max_length=45)]
    hint: Annotated[str, Field(min_length=1, max_length=100)]


class FormWords(_Model):
    """The words of the form and around it."""

    command: Annotated[str, Field(min_length=1, max_length=100)]
    title: Annotated[str, Field(min_length=1, max_length=45)]
    button: Annotated[str, Field(min_length=1, max_length=80)]
    sign: Line
    taken: Line
    answer_here: Line
    answer_in_thread: Line
    answer_in_private: Line
    empty: Line
    failed: Line
    example_length: Annotated[str, Field(max_length=100)]
    example_weight: Annotated[str, Field(max_length=100)]
    fields: dict[str, FieldWords]


@cache
def form_words() -> FormWords:
    """Read the words.

    Raises   SettingsError that names the key
    """
    path = Path(__file__).with_suffix(".toml")
    try:
        words = FormWords.model_validate(tomllib.loads(path.read_text(encoding="utf-8")))
    except ValidationError as error:
        faults = [
            Fault(file=path.name, key=".".join(map(str, one["loc"])), given=None, remedy=one["msg"])
            for one in error.errors()
        ]
        raise SettingsError(faults) from error
    missing = [measure for measure in FIELDS if measure not in words.fields]
    if missing:
        raise SettingsError(
            [Fault(file=path.name, key=f"fields.{one}", given=None, remedy="it is needed") for one in missing]
        )
    return words


def form() -> discord.ui.Modal:
    """Give the form, ready to be shown. What comes back is read by `filled_in`, after a restart as well."""
    words = form_words()
    modal = discord.ui.Modal(title=words.title, custom_id=FORM)
    for measure in FIELDS:
        field = discord.ui.TextInput["discord.ui.Modal"](
            custom_id=measure,
            placeholder=words.example_weight if is_weight(measure) else words.example_length,
            required=False,
            max_length=LONGEST,
        )
        told = words.fields[measure]
        modal.add_item(discord.ui.Label(text=told.label, description=told.hint, component=field))
    modal.stop()  # the library need not remember it
    return modal


def form_button() -> discord.ui.View:
    """Give the button that opens the form. It works for as long as the message that it stands under."""
    view = discord.ui.View(timeout=None)
    view.add_item(discord.ui.Button(label=form_words().button, custom_id=FORM))
    view.stop()
    return view


def filled_in(fields: Mapping[str, str]) -> str:
    """Give the message that a form becomes, one labelled measure a line; "": nothing was filled in.

    >>> filled_in({"width": " 5.5 in ", "weight": "15 lb", "height": ""})
    'Width: 5.5 in\\nWeight: 15 lb'
    """
    words = form_words()
    given = {measure: " ".join(fields.get(measure, "").split()) for measure in FIELDS}
    return "\n".join(f"{words.fields[measure].label}: {value}" for measure, value in given.items() if value)
