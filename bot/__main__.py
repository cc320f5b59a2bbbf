"""`python -m bot` is `tapeline`."""

from bot.cli import main

main()
