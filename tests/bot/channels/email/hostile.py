"""Mails that were built to hurt, and a program that reads them under limits of the system: python -m (this module)."""

import resource
from collections.abc import Callable

from bot.channels.email.letter import read_letter

CPU_S = 60
"""For all together; measured: about 6 s."""
MEMORY = 1_200_000_000
"""Bytes of addresses, the interpreter's own included; measured: at most about 700 MB."""
HEAD = b"From: Eve <eve@customers.example>\r\nSubject: x\r\nMIME-Version: 1.0\r\n"
PLAIN = b"Content-Type: text/plain\r\n"
MIXED = b"Content-Type: multipart/mixed; boundary=b\r\n\r\n"
IMAGE = b"Content-Type: image/png\r\n"
HTML = HEAD + b"Content-Type: text/html\r\n\r\n"
FLOWED = HEAD + b"Content-Type: text/plain; format=flowed\r\n\r\n"
QUOTED = b"Content-Transfer-Encoding: quoted-printable\r\n"
BASE64 = b"Content-Transfer-Encoding: base64\r\n"


def nested(depth: int, inner: bytes = b"12 in") -> bytes:
    """Parts within parts."""
    parts = (b"Content-Type: multipart/mixed; boundary=b%d\r\n\r\n--b%d\r\n" % (n, n) for n in range(depth))
    return HEAD + b"".join(parts) + PLAIN + b"\r\n" + inner


MAILS: dict[str, Callable[[], bytes]] = {
    "ten thousand parts": lambda: HEAD + MIXED + (b"--b\r\n" + PLAIN + b"\r\n12 in\r\n") * 10_000,
    "ten thousand files": lambda: HEAD + MIXED + (b"--b\r\n" + IMAGE + b"\r\nx\r\n") * 10_000,
    "parts in parts, ten thousand deep": lambda: nested(10_000),
    "parts in parts and a million lines": lambda: nested(200, b"\r\n" * 1_000_000),
    "mails in mails": lambda: HEAD + b"Content-Type: message/rfc822\r\n\r\n" * 5000 + b"12 in",
    "25 million line ends": lambda: HEAD + b"\r\n" + b"\n" * 25_000_000,
    "25 million returns": lambda: HEAD + b"\r\n" + b"\r" * 25_000_000,
    "one line of 25 megabytes": lambda: HEAD + b"\r\n" + b"a" * 25_000_000,
    "four million headers": lambda: HEAD + b"X: y\r\n" * 4_000_000 + b"\r\n12 in",
    "a header of 25 megabytes": lambda: HEAD + b"X: " + b"y" * 25_000_000 + b"\r\n\r\n12 in",
    "a content type of quotes": lambda: HEAD + b"Content-Type: text/plain" + b';a="' * 60_000 + b"\r\n\r\n12 in",
    "comments in comments": lambda: b"From: " + b"(" * 100_000 + b"\r\n\r\n12 in",
    "a hundred thousand senders": lambda: b"From: " + b"a@b.c," * 100_000 + b"\r\n\r\n12 in",
    "a hundred thousand encoded words": lambda: b"Subject: " + b"=?utf-8?q?a?= " * 100_000 + b"\r\n\r\n12 in",
    "a million references": lambda: b"References: " + b"<a@b> " * 1_000_000 + b"\r\n\r\n12 in",
    "HTML a million deep": lambda: HTML + b"<div>" * 1_000_000 + b"12 in",
    "HTML tables in tables": lambda: HTML + b"<table><tr><td>" * 300_000 + b"12 in",
    "HTML of entities": lambda: HTML + b"&amp;" * 5_000_000,
    "HTML of attributes": lambda: HTML + b"<p " + b"a=b " * 5_000_000,
    "HTML quotes in quotes": lambda: HTML + b"<blockquote>" * 80_000 + b"12 in",
    "soft line breaks": lambda: HEAD + QUOTED + PLAIN + b"\r\n" + b"=\r\n" * 5_000_000,
    "flowed quotes": lambda: FLOWED + b">" * 20_000_000,
    "flowed lines": lambda: FLOWED + b"a \n" * 700_000,
    "a slow codec": lambda: HEAD + b"Content-Type: text/plain; charset=punycode\r\n\r\n" + b"a" * 5_000_000,
    "a set with two states": lambda: HEAD + b"Content-Type: text/plain; charset=hz\r\n\r\n" + b"~{" * 5_000_000,
    "base64 of 25 megabytes": lambda: HEAD + BASE64 + PLAIN + b"\r\n" + b"A" * 25_000_000,
}


if __name__ == "__main__":
    resource.setrlimit(resource.RLIMIT_CPU, (CPU_S, CPU_S))
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    for name, make in MAILS.items():
        read_letter(make())
        print(name, flush=True)
