"""What the maker is shown in Telegram, from what she decides by. Pure.

Everything is plain text with entities: what customers wrote is never read as markup.
"""

from collections.abc import Sequence

from telegram import InlineKeyboardButton, InlineKeyboardMarkup, MessageEntity

from bot.approval.buttons import LABELS, Action, code
from bot.approval.decision import Number
from bot.approval.summary import Summary
from bot.approval.summary_text import to_lines
from bot.channels.telegram.text import Mark, Piece, in_pieces, sound

LONGEST_LINE = 600
"""Characters of a line that is not the draft's; a draft is always shown whole."""
LONGEST_SAID = 2000
"""Characters of the customer's own messages; all of them stand in `tapeline show`."""
LONGEST_LABEL = 60
IN_A_ROW = 2


def pieces_of(summary: Summary) -> list[Piece]:
    """Give a summary as messages: what she decides by in bold, the draft whole, then the customer's own words."""
    whole = set(summary.draft.splitlines())
    text = ""
    marks = []
    for line in to_lines(summary):
        words = sound(line.text if line.text in whole else shortened(line.text, LONGEST_LINE))
        if line.strong:
            marks.append(Mark(start=len(text), end=len(text) + len(words)))
        text += f"{words}\n"
    said = sound(_said(summary))
    if said:
        text += "\nIn the customer's words:\n"
        marks.append(Mark(start=len(text), end=len(text) + len(said), kind=MessageEntity.EXPANDABLE_BLOCKQUOTE))
        text += said
    return in_pieces(text, marks)


def _said(summary: Summary) -> str:
    said = "\n\n".join(text.strip() for text in summary.said if text.strip())
    left = len(said) - LONGEST_SAID
    return said if left <= 0 else f"{said[:LONGEST_SAID]}… ({left} more characters: tapeline show {summary.enquiry})"


def keyboard(number: Number, actions: Sequence[Action]) -> InlineKeyboardMarkup | None:
    """Put buttons under a text; None: none."""
    buttons = [InlineKeyboardButton(LABELS[action], callback_data=code(action, number)) for action in actions]
    rows = [buttons[place : place + IN_A_ROW] for place in range(0, len(buttons), IN_A_ROW)]
    return InlineKeyboardMarkup(rows) if rows else None


def retired(number: Number, note: str) -> InlineKeyboardMarkup:
    """Put one button in the place of all others: it says why, and shows what waits now."""
    label = shortened(sound(" ".join(note.split())), LONGEST_LABEL) or LABELS[Action.SHOW]
    return InlineKeyboardMarkup([[InlineKeyboardButton(label, callback_data=code(Action.SHOW, number))]])


def shortened(text: str, longest: int) -> str:
    """Give a text of at most `longest` characters."""
    return text if len(text) <= longest else f"{text[: longest - 1]}…"
