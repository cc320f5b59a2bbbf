"""The command line: which commands there are, and whose turn it is when one of them fails.

A command's own file is imported only when it is called, so that help and small commands start at once.
"""

import errno
import gc
import os
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import IO

import click

from bot import __version__

EXIT_MEND = 1
"""Something the user must mend: a setting, a file, a line."""
EXIT_CALL = 2
"""A wrong call."""
EXIT_OURS = 3
"""Our own fault."""
EXIT_INTERRUPTED = 130

COMMANDS: dict[str, dict[str, str]] = {
    "Begin": {
        "demo": "Watch an invented workshop's morning, from message to approved answer.",
        "init": "Set up a shop: a folder with a commented shop.toml.",
        "check": "Check settings, size chart and wording, and show where the sizes overlap.",
    },
    "Answer customers": {
        "run": "Take messages on every channel, show you drafts, send what you approved.",
        "paste": "Paste a message, get the draft, approve it, copy the answer.",
        "waiting": "List what waits for you.",
        "show": "Show an enquiry: the size, the room in each direction, the draft.",
        "approve": "Approve a draft by its number, such as 7.3.",
        "change": "Write a draft in your own words.",
        "correct": 'Set a measure yourself, such as: correct 7 "width 5.5".',
        "set-aside": "Set a draft aside without sending it.",
        "copy": "Print an approved text again, to copy.",
        "settle": "Say what becomes of a text that is held, or of which nobody knows.",
        "split": "Move messages of an enquiry into a new one.",
        "join": "Put two enquiries of a customer together.",
        "close": "Close an enquiry.",
    },
    "Look into it": {
        "size": "Say which size serves a dog of these measures.",
        "read": "Mark up a message with what is read in it, and why.",
        "rehearse": "Run past messages through everything except sending.",
        "chart": "Print the sizes and settings in force.",
        "proof-load": "Say what to hang in a carrier to try it for a wanted rating.",
    },
}


class _Commands(click.Group):
    """Commands that are listed without being imported."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return [name for section in COMMANDS.values() for name in section]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in self.list_commands(ctx):
            return None
        command = import_module(f"bot.commands.{cmd_name.replace('-', '_')}").command
        assert isinstance(command, click.Command)  # noqa: S101
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        for title, section in COMMANDS.items():
            with formatter.section(title):
                formatter.write_dl(list(section.items()))


@click.group(
    cls=_Commands,
    epilog="Each command tells more with --help. New here: tapeline demo.",
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
@click.version_option(__version__, prog_name="tapeline")
def tapeline() -> None:
    """Read a dog's measures out of customers' messages and draft the answer which carrier fits.

    Nothing with a size in it is sent before you approve it.
    """


def main() -> None:
    """Run the program and leave it with the exit code."""
    gc.set_threshold(
        200_000, 20, 20
    )  # what an import makes stays: looking through it for waste costs a tenth of a start
    sys.exit(run(sys.argv[1:]))


def run(arguments: Sequence[str]) -> int:
    """Run one command.

    Returns   the exit code: 0, or one of those above
    Raises    nothing: whatever happens becomes one line on standard error
    """
    _write_whatever_comes(sys.stdout)
    _write_whatever_comes(sys.stderr)
    try:
        code = tapeline.main(args=list(arguments), prog_name="tapeline", standalone_mode=False)
        if sys.stdout is not None:
            sys.stdout.flush()
        return code if isinstance(code, int) else 0
    except (click.Abort, KeyboardInterrupt):
        _say("Stopped.")
        return EXIT_INTERRUPTED
    except click.UsageError as error:
        error.show()
        return EXIT_CALL
    except click.ClickException as error:
        _say(error.format_message())
        return EXIT_MEND
    except SystemExit as end:
        return end.code if isinstance(end.code, int) else EXIT_MEND
    except OSError as error:
        return _after_os_error(error)
    except Exception as error:  # the last line of defence: no traceback ever reaches a user
        return _after(error)


def _after_os_error(error: OSError) -> int:
    if error.errno == errno.EPIPE or (os.name == "nt" and error.errno == errno.EINVAL):
        _close_quietly(sys.stdout)  # whoever read our output has had enough
        return 0
    if error.filename is not None:
        _say(f"{os.fsdecode(error.filename)}: {error.strerror}")
        return EXIT_MEND
    return _after(error)


def _after(error: Exception) -> int:
    if _is_for_the_user(error):
        _say(str(error))
        return EXIT_MEND
    from bot.faults import record

    _say(record(error))
    return EXIT_OURS


def _is_for_the_user(error: Exception) -> bool:
    from bot.errors import BotError
    from replies.errors import RepliesError
    from sizing.errors import SizingError

    return isinstance(error, BotError | RepliesError | SizingError)


def _say(text: str) -> None:
    click.echo(f"tapeline: {text}", err=True)


def _write_whatever_comes(stream: IO[str] | None) -> None:
    """A character that the terminal's encoding lacks must not end the program."""
    if stream is not None and hasattr(stream, "reconfigure"):
        stream.reconfigure(errors="replace")


def _close_quietly(stream: IO[str]) -> None:
    """Keep Python from complaining at its end that nobody reads what it still had to write."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, stream.fileno())
