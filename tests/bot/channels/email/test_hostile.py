"""Mails that were built to hurt are read in bounded time and memory, and never keep back what comes after them."""

import subprocess
import sys
from pathlib import Path

import pytest

from tests.bot.channels.email.hostile import HEAD, MAILS, MIXED, PLAIN, nested
from tests.bot.channels.email.running import WHOLE, MailShop, mail

ROOT = Path(__file__).parents[4]


def test_every_hostile_mail_is_read_in_bounded_time_and_memory() -> None:
    """In a process of its own, which the system ends when it takes too much."""
    run = [sys.executable, "-m", "tests.bot.channels.email.hostile"]

    done = subprocess.run(run, cwd=ROOT, capture_output=True, text=True, timeout=300)

    assert done.stdout.splitlines() == list(MAILS), done.stderr[-2000:]


def test_a_mail_that_was_built_to_hurt_keeps_back_none_that_comes_after_it(shop: MailShop) -> None:
    shop.servers.put(shop.name, b"Message-ID: <deep@x.example>\r\n" + nested(2000))
    many = MIXED + (b"--b\r\n" + PLAIN + b"\r\nx\r\n") * 10_000
    shop.servers.put(shop.name, HEAD.replace(b"eve@", b"mallory@") + many)
    shop.receive(mail(WHOLE, sender="ada@customers.example"))

    shop.draft("3.1")

    deep_one, many_one = shop.messages(1)[0], shop.messages(2)[0]
    assert deep_one.files[-1] == "(it is built so that only its beginning was read; the rest is in the original)"
    assert many_one.files[-1] == "(it has more parts than any mail program makes; they are in the original)"


@pytest.mark.parametrize("subject", ["x\x00y", "\ud800", "a" * 100_000, "{{ 7 * 7 }} ${x} %s"])
def test_odd_subjects_and_names_are_kept_and_answered(shop: MailShop, subject: str) -> None:
    ada = f"ada-{shop.name}@customers.example"
    body = f'From: "{subject[:500]}" <{ada}>\r\nSubject: {subject}\r\nMessage-ID: <a@b>\r\n\r\n{WHOLE}'
    raw = b"".join(line[:900] + b"\r\n" for line in body.encode("utf-8", "surrogatepass").split(b"\r\n"))
    shop.servers.put(shop.name, raw)
    shop.draft("1.1")
    shop.approve("1.1")

    answer = shop.mailed("No. ", to=ada)

    assert answer["Subject"].startswith("Re: ")
    assert len(shop.mails_of(ada)) == 1
