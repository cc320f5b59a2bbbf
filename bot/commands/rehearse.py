"""Runs past messages through everything except sending, so that a maker sees what it would have done."""

import sys
from collections.abc import Iterable, Iterator
from datetime import date
from pathlib import Path

import click

from bot.commands.shop_in_force import SHOP, settings_in_force
from bot.commands.source import SOURCE, open_source, watched
from bot.faults import record
from bot.json_dog import to_json
from bot.json_lines import BadLineError, ErrorOut, Line, LineOut, answer_line, read_line
from bot.rehearsal import Rehearsal
from bot.tally import Tally
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
    free = not (as_json and sys.stdout is not None and sys.stdout.isatty())
    with open_source(source) as file, watched(file, source, screen_is_free=free) as lines:
        return _give_json(lines, rehearsal) if as_json else _give_summary(lines, rehearsal)


def _give_json(lines: Iterable[bytes], rehearsal: Rehearsal) -> int:
    code = 0
    for number, line in _read(lines):
        answer = _answer(line, number, rehearsal)
        if isinstance(answer, ErrorOut):
            code = max(code, EXIT_BAD_LINE if isinstance(line, BadLineError) else EXIT_OURS)
        sys.stdout.write(to_json(answer) + "\n")
        sys.stdout.flush()
    return code


def _answer(line: Line | BadLineError, number: int, rehearsal: Rehearsal) -> LineOut | ErrorOut:
    """A fault of our own is told in the line's place, and all other lines are still answered."""
    if isinstance(line, BadLineError):
        return ErrorOut(id=line.line_id, error=str(line))
    for left_out in line.left_out:
        click.echo(f"line {number}: {left_out}", err=True)
    try:
        judged, ids = rehearsal.hear(line)
        return answer_line(line.id, judged.enquiry, judged.assessments, judged.draft, ids)
    except Exception as error:
        return ErrorOut(id=line.id, error=record(error))


def _give_summary(lines: Iterable[bytes], rehearsal: Rehearsal) -> int:
    from bot.screens.rehearsed import rehearsed_screen
    from bot.screens.terminal import console

    tally, code = Tally(), 0
    for number, line in _read(lines):
        if isinstance(line, BadLineError):
            tally.bad.append((number, str(line)))
            code = max(code, EXIT_BAD_LINE)
            continue
        try:
            judged, _ = rehearsal.hear(line)
        except Exception as error:
            tally.bad.append((number, record(error)))
            code = EXIT_OURS
        else:
            tally.add(f"={line.conversation}" if line.conversation is not None else str(number), judged)
    screen = console()
    for part in rehearsed_screen(tally, screen):
        screen.print(part)
    return code


def _read(lines: Iterable[bytes]) -> Iterator[tuple[int, Line | BadLineError]]:
    for number, raw in enumerate(lines, start=1):
        whole = raw.removeprefix(b"\xef\xbb\xbf") if number == 1 else raw
        if not whole.strip():
            continue
        try:
            yield number, read_line(whole)
        except BadLineError as error:
            yield number, error
