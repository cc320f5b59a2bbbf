"""Sets up a shop: asks at most five questions and writes a commented shop.toml."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bot.commands.shop_in_force import SHOP

if TYPE_CHECKING:
    from bot.shop_file import Answers

_UNITS = {"in": ("in", "lb"), "cm": ("cm", "kg")}


@click.command("init")
@SHOP
@click.option("--name", help="Your name, under each text.")
@click.option("--workshop", help="Your workshop's name, below yours.")
@click.option("--units", type=click.Choice(list(_UNITS)), help="in: inches and pounds; cm: centimetres and kilograms.")
@click.option("--time-zone", help="Such as Europe/London, for quiet hours.")
@click.option(
    "--questions-by-themselves/--no-questions-by-themselves",
    default=None,
    help="Whether questions for missing measures go out without you. Answers never do.",
)
@click.option("--overwrite", is_flag=True, help="Write a new shop.toml over an old one, which is kept beside it.")
def command(
    folder: Path | None,
    name: str | None,
    workshop: str | None,
    units: str | None,
    time_zone: str | None,
    questions_by_themselves: bool | None,
    overwrite: bool,
) -> None:
    """Set up a shop: a folder with a commented shop.toml.

    What no option says is asked at a terminal; elsewhere the usual is taken.
    """
    from bot.errors import BotError, DeclinedError
    from bot.settings import FILE_NAME, find_folder
    from bot.shop_file import write_shop_file

    place = find_folder(folder)
    old = place / FILE_NAME
    if old.exists() and not overwrite:
        raise DeclinedError(f"{old} exists and was left as it is. To begin anew: tapeline init --overwrite")
    answers = _answers(name, workshop, units, time_zone, questions_by_themselves)
    kept = _keep(old)
    try:
        path = write_shop_file(place, answers, overwrite=overwrite)
    except BotError:
        if kept:
            kept.unlink()
        raise
    _say_what_next(path, kept)


def _answers(
    name: str | None, workshop: str | None, units: str | None, zone: str | None, by_themselves: bool | None
) -> "Answers":
    from bot.shop_file import Answers

    ask = sys.stdin is not None and sys.stdin.isatty()
    name = _text(name, "Your name, as you sign", ask=ask)
    workshop = _text(workshop, "Your workshop's name (leave empty for none)", ask=ask)
    if units is None:
        kinds = click.Choice(list(_UNITS))
        units = click.prompt("Inches or centimetres?", type=kinds, default="in") if ask else "in"
    zone = _zone(zone, ask=ask)
    if by_themselves is None:
        question = "May questions for missing measures go out without you? (answers never do)"
        by_themselves = ask and click.confirm(question, default=False)
    length, weight = _UNITS[units]
    return Answers(
        maker_name=name,
        workshop=workshop,
        length_unit=length,
        weight_unit=weight,
        time_zone=zone,
        questions_by_themselves=by_themselves,
    )


def _text(given: str | None, question: str, *, ask: bool) -> str:
    if given is not None:
        return given
    return str(click.prompt(question, default="", show_default=False)).strip() if ask else ""


def _zone(given: str | None, *, ask: bool) -> str:
    if given is not None:
        return given
    here = _zone_of_this_machine()
    if not ask:
        return here

    def known(value: str) -> str:
        from bot.time_zones import is_zone, meant

        if not is_zone(value):
            raise click.BadParameter(f"no such time zone: {meant(value)}")
        return value

    return str(click.prompt("Your time zone", default=here, value_proc=known))


def _zone_of_this_machine() -> str:
    """Give the place that the machine's clock is set to; UTC where it does not say."""
    from bot.time_zones import is_zone

    name = Path("/etc/localtime").resolve().as_posix().partition("/zoneinfo/")[2]
    return name if is_zone(name) else "UTC"


def _keep(old: Path) -> Path | None:
    """Keep a settings file that is about to be written over."""
    if not old.exists():
        return None
    names = (old.with_name(f"{old.name}.old{number or ''}") for number in range(10_000))
    kept = next(path for path in names if not path.exists())
    kept.write_bytes(old.read_bytes())
    return kept


def _say_what_next(path: Path, kept: Path | None) -> None:
    click.echo(f"Written: {path}")
    if kept:
        click.echo(f"The old one is kept: {kept}")
    click.echo("\nThe sizes in it are invented: open it and put yours in their place. Then")
    click.echo("  tapeline check                  tells whether all is well, and shows where your sizes overlap")
    click.echo("  tapeline rehearse old.jsonl     shows what it would have said to past messages")
    click.echo("  tapeline paste                  drafts the first answer")
