"""Where a maker is shown drafts by mail: each as a mail that she answers.

What is mailed cannot be taken back, so an old draft is told off when she answers it.
"""

import asyncio
import secrets
from collections.abc import Iterable, Sequence

from bot.approval.buttons import LABELS, UNDER_A_COPY, Action
from bot.approval.decision import Number, parse_number
from bot.approval.summary import Summary
from bot.approval.summary_text import Line, to_lines
from bot.channels.email.account import Account
from bot.channels.email.compose import html_line, html_of, maker_mail
from bot.channels.email.sending import send
from bot.channels.email.tokens import COPY, DECIDE, SURE, Token, Tokens, settle
from bot.channels.every_maker import to_every
from bot.channels.shown import Shown
from bot.desk import Desk
from bot.message import Attachment, ChannelName
from bot.store.drafts import find_draft
from bot.store.parts import parts_of_draft

SURFACE = ChannelName.EMAIL
PICTURES = frozenset({"image/jpeg", "image/png", "image/webp", "image/gif"})
MOST_BYTES = 10_000_000
"""Bytes of pictures that go with one draft; many servers take 25 MB in all, and mail makes four bytes of three."""
LONGEST_LOCAL = 64
"""Characters before the @ (RFC 5321, section 4.5.3.1.1)."""
HOW = (
    'Answer this mail with the one word "approve", and the draft below goes out as it stands. Or answer with '
    '"set aside", with "correct" and a measure, such as "correct width 5.5", or with the new text.'
)
TITLES = {"question": "a question", "answer": "an answer", "handover": "a text for you to write"}


class MakerMails:
    """The mails to the makers."""

    surface = SURFACE

    def __init__(self, desk: Desk, account: Account, tokens: Tokens) -> None:
        own = desk.settings.own.email
        self._desk = desk
        self._account = account
        self._tokens = tokens
        self._makers = own.makers
        self._plus = own.plus_addresses
        self._shown = Shown(desk.database, SURFACE)
        self._turn = asyncio.Lock()

    async def show(self, summary: Summary) -> Sequence[str]:
        """Mail a draft to every maker who has not got it. See `MakerSurface.show`."""
        await self.show_where_new(summary)
        return await asyncio.to_thread(self._shown.where, parse_number(summary.number))

    async def show_where_new(self, summary: Summary) -> list[str]:
        """Mail a draft to every maker who has not got it, and give who they are.

        Raises   ChannelError where nobody could be mailed
        """
        async with self._turn:
            number = parse_number(summary.number)
            known = await asyncio.to_thread(self._shown.where, number)
            seen = {reference.partition(" ")[2] for reference in known}
            new = [maker for maker in self._makers if maker not in seen]

            async def mail(maker: str) -> None:
                await self._mail_draft(maker, summary)
                await asyncio.to_thread(self._shown.note, number, f"{number} {maker}")

            await to_every(new, mail, channel=ChannelName.EMAIL)
        return new

    async def retire(self, reference: str, note: str) -> None:
        """A mail stays where it is; what it allowed is over."""

    async def tell(self, text: str, *, number: Number | None = None, actions: Sequence[Action] = ()) -> None:
        """Mail every maker something. See `MakerSurface.tell`."""
        await to_every(
            self._makers,
            lambda maker: self.say(maker, text, number=number, actions=actions),
            channel=ChannelName.EMAIL,
        )

    async def say(
        self,
        maker: str,
        text: str,
        *,
        number: Number | None = None,
        actions: Sequence[Action] = (),
        answers: str | None = None,
    ) -> None:
        """Mail one maker something.

        answers   id of the mail of hers that it answers; None: it answers none
        Raises    ChannelError
        """
        purpose = await asyncio.to_thread(self._purpose, number, actions)
        how = _how(actions) if purpose else ""
        words = "\n\n".join(part for part in (text.strip(), how) if part)
        await self._send(
            maker,
            subject=f"{number}: {_subject(actions)}" if number else "A word from tapeline",
            text=words,
            html=html_of(words),
            token=Token(number=number, purpose=purpose) if number and purpose else None,
            enquiry=number.enquiry if number else None,
            answers=answers,
        )

    async def _mail_draft(self, maker: str, summary: Summary) -> None:
        number = parse_number(summary.number)
        files, upto = await asyncio.to_thread(self._shown.new_files, summary.enquiry, maker)
        lines = [Line(text=HOW), Line(text=""), *to_lines(summary), *_said(summary)]
        await self._send(
            maker,
            subject=f"{number}: {TITLES.get(summary.kind, summary.kind)} waits for you",
            text="\n".join(line.text for line in lines),
            html=html_of_lines(lines),
            token=Token(number=number, purpose=DECIDE),
            enquiry=summary.enquiry,
            files=_pictures(files),
        )
        if files:
            await asyncio.to_thread(lambda: self._shown.note_files(summary.enquiry, maker, upto=upto))

    async def _send(
        self,
        maker: str,
        *,
        subject: str,
        text: str,
        html: str,
        token: Token | None,
        enquiry: int | None,
        answers: str | None = None,
        files: Iterable[Attachment] = (),
    ) -> None:
        home = self._account.domain
        proof = self._tokens.make(token, maker) if token else ""
        thread = f"{self._tokens.thread(enquiry, maker)}@{home}" if enquiry else ""
        mail = maker_mail(
            self._account,
            maker,
            subject=subject,
            text=text,
            html=html,
            own_id=f"{proof or f'tl-note.{secrets.token_hex(12)}'}@{home}",
            answers=[one for one in (thread, answers) if one],
            answer_to=self._answer_to(proof),
            at=self._desk.clock(),
            files=files,
        )
        await send(self._account, mail)

    def _answer_to(self, proof: str) -> str:
        """Put the token into the address that takes her answer, where the server knows such addresses."""
        local, _, domain = self._account.address.rpartition("@")
        tagged = f"{local}+{proof}"
        return f"{tagged}@{domain}" if self._plus and proof and len(tagged) <= LONGEST_LOCAL else ""

    def _purpose(self, number: Number | None, actions: Sequence[Action]) -> str:
        """Give what an answer to a mail with these actions may do; "": nothing."""
        if number is None or not actions:
            return ""
        if Action.APPROVE_SURE in actions:
            return SURE
        return COPY if tuple(actions) == UNDER_A_COPY else settle(self.attempts(number))

    def attempts(self, number: Number) -> int:
        """Give how often it was tried to send a draft: a mail about it asks about the last time only."""
        with self._desk.database.read() as connection:
            row = find_draft(connection, number.enquiry, number.version)
            parts = parts_of_draft(connection, row.id) if row else []
        return max((part.attempts for part in parts), default=0)


def _said(summary: Summary) -> Iterable[Line]:
    said = "\n\n".join(text.strip() for text in summary.said if text.strip())
    return [Line(text=""), Line(text="In the customer's words:"), *map(_plain, said.split("\n"))] if said else []


def _plain(text: str) -> Line:
    return Line(text=text)


def html_of_lines(lines: Iterable[Line]) -> str:
    """Give lines as HTML that shows just them, what she decides by in bold."""
    return "<br>\n".join(f"<b>{html_line(line.text)}</b>" if line.strong else html_line(line.text) for line in lines)


def _pictures(files: Iterable[Attachment]) -> list[Attachment]:
    """Pictures go with the draft, as many as a mail holds; other files are told by name and stay in the store."""
    taken: list[Attachment] = []
    for file in files:
        if file.type in PICTURES and sum(len(one.bytes) for one in taken) + len(file.bytes) <= MOST_BYTES:
            taken.append(file)
    return taken


def _subject(actions: Sequence[Action]) -> str:
    return "a word from you is needed" if actions else "what came of it"


def _how(actions: Sequence[Action]) -> str:
    words = [WORD_OF[action] for action in actions if action in WORD_OF]
    told = " or ".join(f'"{word}"' for word in words)
    return f"Answer this mail with {told}, and nothing else." if told else ""


WORD_OF = {
    Action.APPROVE_SURE: "approve",
    Action.LET_GO: LABELS[Action.LET_GO].lower(),
    Action.DROP: LABELS[Action.DROP].lower(),
    Action.WENT: LABELS[Action.WENT].lower(),
    Action.SEND_AGAIN: "send it again",
    Action.COPIED: "copied",
}
"""What a maker answers instead of pressing a button."""
