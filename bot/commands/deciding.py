"""Deciding at the terminal by single keys: a draft is shown anew after each change, until it is decided or left."""

from collections.abc import Callable, Sequence
from enum import Enum
from typing import TYPE_CHECKING

import click

from bot.commands.at_desk import maker

if TYPE_CHECKING:
    from bot.approval.decision import Number
    from bot.desk import Desk
    from bot.store.parts import Part

_KEYS = "a approve   c change the words   m set a measure   s set aside   l later"


class End(Enum):
    """How deciding about an enquiry ended."""

    APPROVED = "approved"
    SET_ASIDE = "set aside"
    LATER = "later"
    NOTHING = "nothing"
    """There was nothing to decide."""


def decide(
    desk: "Desk",
    enquiry: int,
    *,
    show: Callable[[int], None],
    hand_over: "Callable[[Number, Sequence[Part]], None]",
) -> End:
    """Let the maker decide about the draft of an enquiry.

    show        shows the enquiry as it stands, before each question
    hand_over   does what is to be done with an approved text
    """
    from bot.approval.decision import Number

    changed = True
    while True:
        if changed:
            show(enquiry)
        waiting = desk.standing(enquiry).history.waiting
        if waiting is None:
            click.echo("Nothing is to be sent.")
            return End.NOTHING
        number = Number(enquiry=enquiry, version=waiting.version)
        match _key():
            case "a":
                parts = _approved(desk, number)
                if parts is not None:
                    hand_over(number, parts)
                    return End.APPROVED
            case "c":
                _change(desk, number, waiting.text)
            case "m":
                _correct(desk, number)
            case "s":
                if _set_aside(desk, number):
                    return End.SET_ASIDE
            case _:
                click.echo(f"It waits: {number}")
                return End.LATER
        # What was refused is read best where it stands, without the whole screen once more below it.
        changed = desk.standing(enquiry).history.waiting != waiting


def _key() -> str:
    """Ask until one of the keys is pressed; leaving, by whichever key, is for later."""
    click.echo(f"\n{_KEYS}  ", nl=False)
    while (key := click.getchar().lower()) not in "acmslq\x1b\x04":
        pass
    click.echo(key if key.isprintable() else "")
    return key


def _approved(desk: "Desk", number: "Number") -> "Sequence[Part] | None":
    from bot import maker_side

    decided = maker_side.approve(desk, number, maker(desk))
    if decided.lacks:
        for lack in decided.lacks:
            click.echo(f"  {lack}")
        if not click.confirm("Send it all the same?", default=False):
            return None
        decided = maker_side.approve(desk, number, maker(desk), sure=True)
    if not decided.done:
        click.echo(f"  {decided.reason}")
        return None
    return decided.parts


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
