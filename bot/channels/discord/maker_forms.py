"""The forms in which a maker changes a text or corrects a measure. Their codes name a draft, as those of buttons do."""

from collections.abc import Iterator, Mapping
from typing import Any

import discord

from bot.approval.buttons import Action, code
from bot.approval.decision import Number, parse_number
from bot.approval.summary import Summary
from bot.channels.presses import how_to_correct
from bot.paragraphs import in_parts, utf16_units

LONGEST_FIELD = 4000
"""Characters that a field takes (API reference, text input)."""
MOST_FIELDS = 5
_HINT = 100


def correcting(summary: Summary) -> discord.ui.Modal:
    """Give the form in which she corrects a measure."""
    field = _field("correction", default=None, style=discord.TextStyle.short, longest=200)
    return _modal(Action.CORRECT, summary, "Correct a measure", {how_to_correct(summary): field})


def changing(summary: Summary) -> discord.ui.Modal | None:
    """Give the form in which she changes a text; None: it is longer than a form takes."""
    parts = in_parts(summary.draft, LONGEST_FIELD, size=utf16_units) or [""]
    if len(parts) > MOST_FIELDS:
        return None
    several = len(parts) > 1
    fields = {
        f"The text, part {number}" if several else "The text": _field(
            f"text {number}", default=part, style=discord.TextStyle.paragraph, longest=LONGEST_FIELD
        )
        for number, part in enumerate(parts, start=1)
    }
    return _modal(Action.CHANGE, summary, "Change", fields)


def written_in(data: Mapping[str, Any] | None) -> dict[str, str]:
    """Give what was written into a form's fields, by their codes, in their order."""
    return dict(_values((data or {}).get("components", [])))


def text_in(fields: Mapping[str, str]) -> str:
    """Give the text of a form whose fields hold its parts."""
    return "\n\n".join(part.strip() for part in fields.values() if part.strip())


def _values(components: list[Any]) -> Iterator[tuple[str, str]]:
    for one in components:
        if "custom_id" in one and isinstance(one.get("value"), str):
            yield str(one["custom_id"]), one["value"]
        yield from _values([*one.get("components", []), *([one["component"]] if "component" in one else [])])


def _modal(
    action: Action, summary: Summary, title: str, fields: Mapping[str, discord.ui.TextInput[discord.ui.Modal]]
) -> discord.ui.Modal:
    number: Number = parse_number(summary.number)
    modal = discord.ui.Modal(title=f"{title}: {number}", custom_id=code(action, number))
    for label, field in fields.items():
        modal.add_item(discord.ui.Label(text=title, description=label[:_HINT], component=field))
    modal.stop()  # the library need not remember it: its code says all
    return modal


def _field(
    name: str, *, default: str | None, style: discord.TextStyle, longest: int
) -> discord.ui.TextInput[discord.ui.Modal]:
    return discord.ui.TextInput(custom_id=name, default=default, style=style, max_length=longest, required=True)
