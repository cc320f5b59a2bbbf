"""Processes of the program's own that start in a moment: forked from one that has read it and its word lists already.

A run of the tests has one such server, so all that it is to have imported stands here.
"""

import multiprocessing

PROCESSES = multiprocessing.get_context("forkserver")
PROCESSES.set_forkserver_preload(
    [
        "tests.bot.channels.telegram.killed",
        "tests.bot.channels.telegram.warm",
        "bot.channels.discord.channel",
        "tests.bot.crashing",
    ]
)
