"""What the commands of the maker's side share: her desk, her name for the record, a draft's number."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from bot.approval.decision import Decided, Decider, Number
    from bot.desk import Desk


@contextmanager
def at_desk(folder: Path | None) -> Iterator["Desk"]:
    """Open the desk of the shop that is found, with everything that came in meanwhile read.

    Raises   NoShopError, SettingsError, StoreError: hers to mend
    """
    from bot.build import open_desk

    with open_desk(folder) as desk:
        desk.catch_up()
        yield desk


def maker(desk: "Desk") -> "Decider":
    """Give who decides at this terminal: whoever may open the shop's folder."""
    from bot.approval.decision import Decider

    return Decider(maker=desk.settings.own.maker.name or "maker")


def at_terminal() -> bool:
    """Tell whether somebody sits here who can be asked."""
    streams = (sys.stdin, sys.stdout)
    return all(stream is not None and stream.isatty() for stream in streams)


def number_of(desk: "Desk", written: str) -> "Number":
    """Read a draft's number; of an enquiry's number alone, its waiting draft.

    Raises   DeclinedError, NotThereError
    """
    from bot.approval.decision import Number, parse_number
    from bot.errors import DeclinedError

    if "." in written:
        return parse_number(written)
    waiting = desk.standing(enquiry_of(written)).history.waiting
    if waiting is None:
        raise DeclinedError(f"nothing waits in enquiry {written}")
    return Number(enquiry=waiting.enquiry_id, version=waiting.version)


def enquiry_of(written: str) -> int:
    """Read an enquiry's number; that of a draft names its enquiry.

    Raises   DeclinedError when it is none
    """
    from bot.errors import DeclinedError

    number = written.strip().removeprefix("#").partition(".")[0]
    if not (number.isascii() and number.isdigit() and len(number) < 10):
        raise DeclinedError(f"{written!r} is no enquiry: write its number, such as 7")
    return int(number)


def refused(decided: "Decided") -> int:
    """Say why nothing has moved, and which draft stands now. Gives the exit code."""
    click.echo(f"tapeline: {decided.reason}", err=True)
    if decided.draft is not None and decided.draft.number not in decided.reason:
        click.echo(f"          {decided.draft.number} waits now: tapeline show {decided.draft.enquiry_id}", err=True)
    return 1
