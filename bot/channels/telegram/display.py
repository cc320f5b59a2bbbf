"""What the maker is shown in Telegram, from what she decides by. Pure.

Everything is plain text with entities: what customers wrote is never read as markup.
"""

from collections.abc import Sequence

from telegram import InlineKeyboardButton, InlineKeyboardMarkup, MessageEntity

from bot.approval.buttons import LABELS, Action, code
from bot.approval.decision import Number
from bot.approval.summary import Summary
from bot.channels.excerpts import lines_of, said_in, shortened
from bot.channels.telegram.text import Mark, Piece, in_pieces
from bot.keeping import sound_text

LONGEST_LABEL = 60
IN_A_ROW = 2


def pieces_of(summary: Summary) -> list[Piece]:
    """Give a summary as messages: what she decides by in bold, the draft whole, then the customer's own words."""
    text = ""
    marks = []
    for line in lines_of(summary):
        words = sound_text(line.text)
        if line.strong:
            marks.append(Mark(start=len(text), end=len(text) + len(words)))
        text += f"{words}\n"
    said = sound_text(said_in(summary))
    if said:
        text += "\nIn the customer's words:\n"
        marks.append(Mark(start=len(text), end=len(text) + len(said), kind=MessageEntity.EXPANDABLE_BLOCKQUOTE))
        text += said
    return in_pieces(text, marks)


def keyboard(number: Number, actions: Sequence[Action]) -> InlineKeyboardMarkup | None:
    """Put buttons under a text; None: none."""
    buttons = [InlineKeyboardButton(LABELS[action], callback_data=code(action, number)) for action in actions]
    rows = [buttons[place : place + IN_A_ROW] for place in range(0, len(buttons), IN_A_ROW)]
    return InlineKeyboardMarkup(rows) if rows else None


def retired(number: Number, note: str) -> InlineKeyboardMarkup:
    """Put one button in the place of all others: it says why, and shows what waits now."""
    label = shortened(sound_text(" ".join(note.split())), LONGEST_LABEL) or LABELS[Action.SHOW]
    return InlineKeyboardMarkup([[InlineKeyboardButton(label, callback_data=code(Action.SHOW, number))]])
