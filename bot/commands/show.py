"""Shows an enquiry."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from bot.commands.shop_in_force import SHOP

if TYPE_CHECKING:
    from bot.desk import Desk


@click.command("show")
@click.argument("number", metavar="N")
@click.option("--draft-again", is_flag=True, help="Draft anew what was set aside, or open a closed enquiry again.")
@click.option(
    "--files",
    "files",
    type=click.Path(file_okay=False, path_type=Path),
    help="Write the files that came with it, and mails as they came, into this folder.",
)
@click.option("--json", "as_json", is_flag=True, help="For another program, in inches and pounds.")
@SHOP
def command(number: str, draft_again: bool, files: Path | None, as_json: bool, folder: Path | None) -> None:
    """Show enquiry N: the size, the room in each direction, the load, the doubts, the draft."""
    from bot import maker_side
    from bot.commands.at_desk import at_desk, enquiry_of

    enquiry = enquiry_of(number)
    with at_desk(folder) as desk:
        if draft_again:
            maker_side.draft_again(desk, enquiry)
        if files is not None:
            from bot.commands.handing_files import write_files

            for path in write_files(desk, enquiry, files):
                click.echo(path)
        elif as_json:
            _give_json(desk, enquiry)
        else:
            show(desk, enquiry)


def show(desk: "Desk", enquiry: int, *, hints: bool = True) -> None:
    """Print an enquiry's screen, and with `hints` the commands that go on from there."""
    from bot.screens.enquiry import enquiry_screen
    from bot.screens.terminal import console

    screen, standing = console(), desk.standing(enquiry)
    for part in enquiry_screen(standing, desk.workshop.shop, screen, zone=desk.settings.zone):
        screen.print(part)
    waiting = standing.history.waiting
    if hints and waiting is not None:
        screen.print()
        for line in (f"approve {waiting.number}", f"change {enquiry}", f'correct {enquiry} "width 5.5"'):
            screen.print(f"  tapeline {line}", style="quiet")


def _give_json(desk: "Desk", enquiry: int) -> None:
    from bot.json_dog import to_json
    from bot.json_lines import answer_line

    standing = desk.standing(enquiry)
    drafted = standing.drafted
    ids = {message: message for message in drafted.enquiry.readings}
    click.echo(to_json(answer_line(str(enquiry), drafted.enquiry, drafted.assessments, drafted.draft, ids)))
