"""What the maker is told of texts that were approved and have not gone, and the buttons that settle it."""

from collections.abc import Mapping

from bot.approval.buttons import UNDER_A_COPY, UNDER_A_HELD_TEXT, UNDER_AN_UNSURE_TEXT, Action
from bot.waiting import Needs, Waiting
from replies.writing.plain import one_line

SETTLED_BY: Mapping[Needs, tuple[Action, ...]] = {
    Needs.COPY: UNDER_A_COPY,
    Needs.HELD: UNDER_A_HELD_TEXT,
    Needs.UNSURE: UNDER_AN_UNSURE_TEXT,
}
_SAID: Mapping[Needs, str] = {
    Needs.DECIDE: "waits for your decision",
    Needs.COPY: "is approved and there to copy",
    Needs.HELD: "was approved but is held",
    Needs.UNSURE: "may have gone, or not: look in the chat, and say so",
    Needs.FAILED: "could not be sent; reach the customer another way",
    Needs.UNREAD: "has new messages, which will be read in a moment",
}


def words_of(waiting: Waiting) -> str:
    """Say what waits, for whom, and why.

    waiting   its customer's name comes as she chose it: it is shown as plain text, never as markup
    """
    what = waiting.number or f"enquiry {waiting.enquiry}"
    why = f" ({one_line(waiting.why)})" if waiting.why else ""
    return f"{what}, for {one_line(waiting.customer) or 'somebody'} ({waiting.channel}), {_SAID[waiting.needs]}{why}."
