"""Runs past messages through everything except sending, so that a maker sees what it would have done."""

import sys
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import BinaryIO

import click

from bot.commands.shop_in_force import SHOP, settings_in_force
from bot.commands.source import SOURCE, open_source
from bot.json_dog import to_json
from bot.json_lines import BadLineError, ErrorOut, Line, LineOut, answer_line, read_line
from bot.rehearsal import Rehearsal
from bot.workshop import open_workshop

EXIT_BAD_LINE = 1
EXIT_OURS = 3


@click.command("rehearse")
@click.argument("source", metavar="FILE|-", type=SOURCE)
@SHOP
@click.option("--json", "as_json", is_flag=True, help="One JSON object a line, instead of a summary.")
def command(source: str, folder: Path | None, as_json: bool) -> int:
    """Run past messages through everything except sending.

    FILE holds one JSON object a line: {"id": ..., "text": ...}, and if you like "conversation", "channel" (chat, email,
    paste), "subject", "sent_at" and "asked". "-" reads standard input.
    """
    rehearsal = Rehearsal(open_workshop(settings_in_force(folder)), today=date.today())
    with open_source(source) as file:
        return _give_json(file, rehearsal)


def _give_json(file: BinaryIO, rehearsal: Rehearsal) -> int:
    code = 0
    for number, line in _lines(file):
        if isinstance(line, BadLineError):
            code = max(code, EXIT_BAD_LINE)
            answer: LineOut | ErrorOut = ErrorOut(id=line.line_id, error=str(line))
        else:
            _tell_left_out(number, line)
            answer = _answer(line, rehearsal)
            code = EXIT_OURS if isinstance(answer, ErrorOut) else code
        sys.stdout.write(to_json(answer) + "\n")
        sys.stdout.flush()
    return code


def _answer(line: Line, rehearsal: Rehearsal) -> LineOut | ErrorOut:
    """A fault of our own is told in the line's place, and all other lines are still answered."""
    try:
        judged, ids = rehearsal.hear(line)
        return answer_line(line.id, judged.enquiry, judged.assessments, judged.draft, ids)
    except Exception as error:
        from bot.faults import record

        return ErrorOut(id=line.id, error=record(error))


def _lines(file: BinaryIO) -> Iterator[tuple[int, Line | BadLineError]]:
    for number, raw in enumerate(file, start=1):
        whole = raw.removeprefix(b"\xef\xbb\xbf") if number == 1 else raw
        if not whole.strip():
            continue
        try:
            yield number, read_line(whole)
        except BadLineError as error:
            yield number, error


def _tell_left_out(number: int, line: Line) -> None:
    for left_out in line.left_out:
        click.echo(f"line {number}: {left_out}", err=True)
