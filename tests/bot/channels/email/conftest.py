"""Mail servers for the whole run, and shops on them that wait less between attempts than a real one."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from bot import retry
from bot.channels.email import mailbox
from tests.bot.channels.email.running import MailShop, mail_shop
from tests.doubles.mail_servers import MailServers, mail_servers, missing


@pytest.fixture(autouse=True)
def short_waits(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(retry, "FIRST_S", 0.05)
    monkeypatch.setattr(retry, "LONGEST_S", 0.5)
    monkeypatch.setattr(mailbox, "LOOK_S", 0.05)


@pytest.fixture(scope="session")
def servers() -> Iterator[MailServers]:
    """Dovecot and Exim. Where they are not installed, what needs them is skipped, which fails where CI=true."""
    if why := missing():
        pytest.skip(why)
    with mail_servers() as running:
        yield running


@pytest.fixture
def shop(servers: MailServers, tmp_path: Path) -> Iterator[MailShop]:
    """A running shop with one maker."""
    with mail_shop(servers, tmp_path) as opened:
        opened.start()
        yield opened
