"""Keeps tests away from the home folder and from any network but loopback, and lets none of them be skipped unseen."""

import ipaddress
import os
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings

# A slow machine is no fault; where CI=true every run tries the same examples, so that a red one can be repeated.
settings.register_profile("here", deadline=None, derandomize=os.environ.get("CI") == "true")
settings.load_profile("here")

_LOCAL_NAMES = frozenset({"localhost", "", "0.0.0.0"})


def _is_here(host: object) -> bool:
    if not isinstance(host, str | bytes):
        return host is None
    name = host.decode() if isinstance(host, bytes) else host
    if name in _LOCAL_NAMES:
        return True
    try:
        return ipaddress.ip_address(name.partition("%")[0]).is_loopback
    except ValueError:
        return False


def _watch(event: str, arguments: tuple[object, ...]) -> None:
    if event == "socket.connect":
        address = arguments[1]
        if isinstance(address, tuple) and not _is_here(address[0]):
            raise RuntimeError(f"a test went to the network: {address[0]}")
    elif event == "socket.getaddrinfo" and not _is_here(arguments[0]):
        raise RuntimeError(f"a test looked up {arguments[0]!r}")


sys.addaudithook(_watch)


@pytest.fixture(autouse=True, scope="session")
def no_home_folder(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Whoever makes a folder in the home folder meets a file in its way, which names what was forgotten."""
    file = tmp_path_factory.mktemp("home") / "a-test-must-not-use-the-home-folder"
    file.write_text("", encoding="utf-8")
    home = str(file / "home")
    kept = dict(os.environ)
    os.environ.update({"HOME": home, "USERPROFILE": home, "LOCALAPPDATA": home, "APPDATA": home})
    for name in [name for name in os.environ if name.startswith(("XDG_", "TAPELINE_"))]:
        del os.environ[name]
    yield file
    os.environ.clear()
    os.environ.update(kept)


def pytest_sessionfinish(session: pytest.Session) -> None:
    """Where CI=true, a skipped test is a failed run: what was not tried is not known to work."""
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if os.environ.get("CI") == "true" and reporter is not None and reporter.stats.get("skipped"):
        session.exitstatus = pytest.ExitCode.TESTS_FAILED
