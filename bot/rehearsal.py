"""Past messages through everything except sending: what would have been read, said and asked.

A question counts as sent at once, an answer as approved, and what was the maker's to write as written, so that the next
message of the conversation finds what it would have found. Start at `Rehearsal.hear`.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from bot.json_lines import Line
from bot.workshop import Judged, Workshop, judge
from replies.draft import DraftKind
from replies.enquiry import SentEvent
from replies.fold import Folding


@dataclass(slots=True)
class _Conversation:
    folding: Folding
    ids: dict[str, str] = field(default_factory=dict)


class Rehearsal:
    """Past messages, one after another.

    today   the day for lines that do not tell theirs
    """

    def __init__(self, workshop: Workshop, *, today: date) -> None:
        self._workshop = workshop
        self._today = today
        self._conversations: dict[str, _Conversation] = {}
        self._count = 0

    def hear(self, line: Line) -> tuple[Judged, Mapping[str, str]]:
        """Take the next line.

        Returns   its conversation as it stands after it; and from the message ids in there to those of the lines
        """
        self._count += 1
        key = str(self._count)  # of its own, since the ids of lines may come twice
        conversation = self._conversation(line.conversation)
        conversation.ids[key] = line.id
        conversation.folding.add(line.event(key))
        on = line.sent_at.date() if line.sent_at else self._today
        judged = judge(conversation.folding.enquiry(), self._workshop, on)
        if judged.draft.kind is not DraftKind.NONE:
            conversation.folding.add(SentEvent(asks=judged.draft.asks))
        return judged, conversation.ids

    def _conversation(self, name: str | None) -> _Conversation:
        if name is None:
            return self._begin()
        if name not in self._conversations:
            self._conversations[name] = self._begin()
        return self._conversations[name]

    def _begin(self) -> _Conversation:
        return _Conversation(folding=Folding(shop=self._workshop.shop, words=self._workshop.words))
