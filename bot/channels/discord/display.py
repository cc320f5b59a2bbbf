"""What the maker is shown in Discord, from what she decides by, and the buttons under it."""

from collections.abc import Iterator, Sequence

import discord

from bot.approval.buttons import LABELS, Action, code
from bot.approval.decision import Number
from bot.approval.summary import Summary
from bot.channels.discord.text import Stretch, messages_of
from bot.channels.excerpts import lines_of, said_in, shortened
from bot.keeping import sound_text

LONGEST_LABEL = 80
"""Characters of a button (API reference, button)."""
_STYLES = {
    Action.APPROVE: discord.ButtonStyle.success,
    Action.APPROVE_SURE: discord.ButtonStyle.danger,
    Action.SEND_AGAIN: discord.ButtonStyle.danger,
}


def summary_messages(summary: Summary) -> list[str]:
    """Give a summary as messages: what she decides by in bold, the draft whole, then the customer's own words."""
    return messages_of(_stretches(summary))


def _stretches(summary: Summary) -> Iterator[Stretch]:
    for line in lines_of(summary):
        yield Stretch(text=sound_text(line.text), strong=line.strong)
    said = sound_text(said_in(summary))
    if said:
        yield Stretch(text="")
        yield Stretch(text="In the customer's words:")
        yield from (Stretch(text=line, said=True) for line in said.splitlines())


def text_messages(text: str) -> list[str]:
    """Give a text as messages."""
    return messages_of(Stretch(text=line) for line in sound_text(text).splitlines()) or ["(no text)"]


def buttons(number: Number, actions: Sequence[Action]) -> discord.ui.View | None:
    """Give the buttons about a draft; None: none. They work for as long as the message that they stand under."""
    return _view([(LABELS[action], action, number) for action in actions]) if actions else None


def retired(number: Number, note: str) -> discord.ui.View:
    """Give the one button that stands in the place of all others: it says why, and shows what waits now."""
    label = shortened(sound_text(" ".join(note.split())), LONGEST_LABEL) or LABELS[Action.SHOW]
    return _view([(label, Action.SHOW, number)])


def _view(wanted: Sequence[tuple[str, Action, Number]]) -> discord.ui.View:
    view = discord.ui.View(timeout=None)
    for label, action, number in wanted:
        style = _STYLES.get(action, discord.ButtonStyle.secondary)
        view.add_item(discord.ui.Button(label=label, custom_id=code(action, number), style=style))
    view.stop()  # the library need not remember it: the codes say all
    return view
