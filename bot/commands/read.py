"""Shows what is read in a message, and which words decided."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path

import click

from bot.commands.shop_in_force import SHOP, settings_in_force
from bot.commands.source import SOURCE, read_text

_CHANNELS = ("chat", "email", "paste")
_MEASURES = ("length", "height", "width", "throat_height", "weight")


@click.command("read")
@click.argument("source", metavar="FILE|-", type=SOURCE)
@click.option("--channel", type=click.Choice(_CHANNELS), default="chat", help="What kind of text it is.")
@click.option("--subject", default="", help="The subject of an e-mail.")
@click.option("--asked", multiple=True, type=click.Choice(_MEASURES), help="What had just been asked; may come often.")
@SHOP
@click.option("--json", "as_json", is_flag=True, help="As a line of rehearse --json.")
def command(source: str, channel: str, subject: str, asked: Sequence[str], folder: Path | None, as_json: bool) -> None:
    """Mark up a message with what is read in it, and why.

    FILE holds one message as plain text; "-" reads standard input.
    """
    from bot.json_dog import to_json
    from bot.json_lines import Line, answer_line
    from bot.rehearsal import Rehearsal
    from bot.workshop import open_workshop
    from replies.reading.context import Channel
    from sizing.measures import Measure

    text = read_text(source)
    workshop = open_workshop(settings_in_force(folder))
    line = Line(
        id="message",
        text=text,
        channel=Channel(channel),
        subject=subject,
        asked=tuple(map(Measure, asked)) if asked else None,
    )
    judged, ids = Rehearsal(workshop, today=date.today()).hear(line)
    if as_json:
        click.echo(to_json(answer_line(line.id, judged.enquiry, judged.assessments, judged.draft, ids)))
        return
    from bot.screens.reading import marked_message, what_was_read
    from bot.screens.terminal import console
    from sizing.measures import FIVE

    screen, shop = console(), workshop.shop
    (reading,) = judged.enquiry.readings.values()
    for part in marked_message(text.rstrip("\n"), reading, screen):
        screen.print(part)
    screen.print()
    missing = [measure for one in judged.assessments for measure in one.missing] if judged.assessments else FIVE
    for part in what_was_read(reading, missing, screen, length_unit=shop.length_unit, weight_unit=shop.weight_unit):
        screen.print(part)
