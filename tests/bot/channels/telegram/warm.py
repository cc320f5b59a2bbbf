"""Imported once by the process that shops are forked from: word lists and templates are then read already."""

from datetime import UTC, datetime

from bot.workbench import draft_for
from bot.workshop import open_workshop
from replies.enquiry import MessageEvent
from tests.bot.channels.telegram.running import WHOLE

draft_for([MessageEvent(id="1", text=WHOLE)], open_workshop(None), datetime.now(UTC).date())
