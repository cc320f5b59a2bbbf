"""Deciding at the terminal: one draft after another, by single keys, until it is decided or left for later."""

from typing import TYPE_CHECKING

import click

from bot.commands.at_desk import maker
from bot.commands.handing_over import hand_over
from bot.commands.show import show

if TYPE_CHECKING:
    from bot.approval.decision import Number
    from bot.desk import Desk

_KEYS = "a approve   c change   m set a measure   s set aside   l later"


def decide(desk: "Desk", enquiry: int) -> None:
    """Show an enquiry's draft and let the maker decide about it, anew after each change."""
    from bot.approval.decision import Number

    while True:
        show(desk, enquiry, hints=False)
        waiting = desk.standing(enquiry).history.waiting
        if waiting is None:
            click.echo("Nothing is to be sent.")
            return
        click.echo(f"\n{_KEYS}  ", nl=False)
        key = click.getchar().lower()
        click.echo(key if key.isprintable() else "")
        if _done(desk, Number(enquiry=enquiry, version=waiting.version), waiting.text, key):
            return


def _done(desk: "Desk", number: "Number", text: str, key: str) -> bool:
    """Do what a key says; False where the enquiry is to be shown again."""
    match key:
        case "a":
            return _approve(desk, number)
        case "c":
            _change(desk, number, text)
        case "m":
            _correct(desk, number)
        case "s":
            return _set_aside(desk, number)
        case "l" | "q" | "\x1b" | "\x04":
            click.echo(f"It waits: tapeline show {number.enquiry}")
            return True
        case _:
            click.echo("One of these keys:")
    return False


def _approve(desk: "Desk", number: "Number") -> bool:
    from bot import maker_side

    decided = maker_side.approve(desk, number, maker(desk))
    if decided.lacks:
        for lack in decided.lacks:
            click.echo(f"  {lack}")
        if not click.confirm("Send it all the same?", default=False):
            return False
        decided = maker_side.approve(desk, number, maker(desk), sure=True)
    if not decided.done:
        click.echo(f"  {decided.reason}")
        return False
    hand_over(desk, number, decided.parts)
    return True


def _change(desk: "Desk", number: "Number", text: str) -> None:
    from bot import maker_side

    edited = click.edit(text, extension=".txt")
    if edited is None:
        click.echo("  Nothing was changed.")
        return
    decided = maker_side.change(desk, number, edited, maker(desk))
    if not decided.done:
        click.echo(f"  {decided.reason}")


def _correct(desk: "Desk", number: "Number") -> None:
    from bot import maker_side
    from bot.errors import CorrectionError

    written = click.prompt('Which measure? Such as "width 5.5"', default="", show_default=False)
    if not written.strip():
        return
    try:
        maker_side.correct(desk, number.enquiry, written, maker(desk))
    except CorrectionError as error:
        click.echo(f"  {error}")


def _set_aside(desk: "Desk", number: "Number") -> bool:
    from bot import maker_side

    decided = maker_side.set_aside(desk, number, maker(desk))
    click.echo(f"{number} is set aside." if decided.done else f"  {decided.reason}")
    return decided.done
