"""A shop's program that is killed at a step between receiving a message and sending the answer."""

import asyncio
import os
import signal
from pathlib import Path

from bot import departures, maker_side
from bot import desk as desk_module
from bot.approval import decision
from bot.approval.decision import Number
from bot.build import open_desk
from bot.channels.paste import keep_pasted
from bot.message import Outgoing
from tests.fakes import ANN, FIVE, FakeChannel, message

FIRST = Number(enquiry=1, version=1)


def die(*_: object, **__: object) -> None:
    """End this process as a power cut does."""
    os.kill(os.getpid(), signal.SIGKILL)


class Dies(FakeChannel):
    """A channel in which the process dies while it hands a text over, or just after that."""

    def __init__(self, folder: Path, step: str) -> None:
        super().__init__()
        self._folder, self._step = folder, step

    async def deliver(self, text: Outgoing) -> str:
        if self._step == "after it was handed over":
            (self._folder / "world").write_text(text.text, encoding="utf-8")
        die()
        raise AssertionError("it lives")


def run_to(step: str, folder: Path) -> None:
    """Take a message, draft, approve and send, until the step comes at which the process is killed."""
    with open_desk(folder) as desk:
        if step == "before a message is committed":
            desk_module._move_cursor = die
            desk.keep(message(FIVE, external_id="5001:1"))
        if step == "between keeping and drafting":
            desk.keep(message(FIVE, external_id="5001:1"))
            die()
        if step == "while drafting":
            desk_module.draft_for = die
            desk.draft(desk.keep(message(FIVE, external_id="5001:1")).enquiry)
        if step == "while storing the draft":
            desk_module.Desk._release = die
            desk.draft(desk.keep(message(FIVE, external_id="5001:1")).enquiry)
        if step == "between approval and copying":
            keep_pasted(desk, FIVE, name="Mira")
            desk.draft(1)
            maker_side.approve(desk, FIRST, ANN)
            die()
        desk.draft(desk.keep(message(FIVE, external_id="5001:1")).enquiry)
        if step == "while approving":
            decision._queue = die
            maker_side.approve(desk, FIRST, ANN)
        maker_side.approve(desk, FIRST, ANN)
        if step == "between approval and sending":
            die()
        if step == "between claiming and handing over":
            departures.outgoing = die
        channel = Dies(folder, step)
        asyncio.run(departures.Sender(desk.database, {channel.name: channel}, clock=desk.clock).send_due())
