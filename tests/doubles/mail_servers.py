"""Real mail servers on 127.0.0.1 for tests: Dovecot for mailboxes, Exim for sending, over TLS with an own authority.

Each runs in a folder of its own on high ports and is stopped by its process id. Any name is a mailbox: the password is
the same for all, and a mailbox is made when it is first used, so every test takes a name of its own.
"""

import contextlib
import os
import re
import shutil
import signal
import socket
import ssl
import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from email.message import Message
from email.parser import BytesParser
from imaplib import IMAP4_SSL
from pathlib import Path
from smtplib import LMTP

import trustme

PASSWORD = "a-made-up-password"
HOME = "workshop.example"
"""The domain whose mailboxes exist, and those of customers.example; mail to gone.example comes back."""
DOVECOT, EXIM = "/usr/sbin/dovecot", "/usr/sbin/exim4"
LMTP_FILE = Path("/usr/lib/dovecot/lmtp")

_DOVECOT = """
base_dir = {folder}/run
state_dir = {folder}/state
log_path = {folder}/dovecot.log
protocols = imap lmtp
listen = 127.0.0.1
ssl = required
ssl_cert = <{folder}/server.pem
ssl_key = <{folder}/server.key
mail_location = maildir:{folder}/mail/%n
mail_uid = {uid}
mail_gid = {gid}
first_valid_uid = 1
disable_plaintext_auth = yes
auth_mechanisms = plain login
auth_failure_delay = 0
imap_idle_notify_interval = 2 mins
mail_max_userip_connections = 100
default_vsz_limit = 1 G
passdb {{
  driver = static
  args = password={password}
}}
userdb {{
  driver = static
  args = uid={uid} gid={gid} home={folder}/home/%n allow_all_users=yes
}}
namespace inbox {{
  inbox = yes
  separator = /
  mailbox Sent {{
    special_use = \\Sent
    auto = create
  }}
}}
service imap-login {{
  inet_listener imap {{
    port = {imap_starttls}
  }}
  inet_listener imaps {{
    port = {imap}
    ssl = yes
  }}
}}
service anvil {{
  unix_listener anvil-auth-penalty {{
    mode = 0
  }}
}}
service lmtp {{
  inet_listener lmtp {{
    port = {lmtp}
  }}
}}
protocol imap {{
  imap_capability = {capability}
}}
"""

_EXIM = """
exim_path = {exim}
spool_directory = {folder}/spool
log_file_path = {folder}/exim-%slog
pid_file_path = {folder}/exim.pid
primary_hostname = mx.workshop.example
exim_user = {user}
exim_group = {group}
never_users =
local_interfaces = 127.0.0.1
daemon_smtp_ports = {submission} : {submissions}
tls_on_connect_ports = {submissions}
tls_advertise_hosts = *
tls_certificate = {folder}/server.pem
tls_privatekey = {folder}/server.key
auth_advertise_hosts = ${{if eq{{$tls_in_cipher}}{{}}{{}}{{*}}}}
acl_smtp_rcpt = rcpt
acl_smtp_data = accept
acl_smtp_mail = accept
host_lookup =
rfc1413_hosts =
rfc1413_query_timeout = 0s
smtp_accept_max = 200
smtp_accept_queue_per_connection = 0
queue_run_max = 5
message_size_limit = 60M
bounce_return_size_limit = 100K
keep_environment =
add_environment = PATH=/usr/bin:/bin
begin acl
rcpt:
  accept authenticated = *
  accept domains = workshop.example : customers.example
  deny message = relaying is not for strangers
begin routers
gone:
  driver = redirect
  domains = gone.example
  allow_fail
  data = :fail: nobody of that name lives here any more
mailbox:
  driver = accept
  domains = workshop.example : customers.example
  local_part_suffix = +*
  local_part_suffix_optional
  transport = lmtp
begin transports
lmtp:
  driver = smtp
  protocol = lmtp
  hosts = 127.0.0.1
  port = {lmtp}
  allow_localhost
  hosts_override
  delivery_date_add
  return_path_add
  envelope_to_add
  hosts_avoid_tls = *
begin retry
* * F,1h,2s
begin authenticators
plain:
  driver = plaintext
  public_name = PLAIN
  server_prompts = :
  server_condition = ${{if eq{{$auth3}}{{{password}}}}}
  server_set_id = $auth2
"""


def missing() -> str:
    """Say which programs these tests need and do not find; "": none."""
    if os.name != "posix" or os.geteuid() != 0:
        return "the mail servers of these tests have to be started as root"
    wanted = {"dovecot-imapd": DOVECOT, "dovecot-lmtpd": str(LMTP_FILE), "exim4-daemon-light": EXIM}
    absent = [package for package, file in wanted.items() if not Path(file).exists()]
    return f"not installed (Debian packages): {', '.join(absent)}" if absent else ""


def free_port() -> int:
    """Give a port that nobody listens on."""
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])


@dataclass(frozen=True, slots=True)
class Authority:
    """An authority of our own, and a certificate of it for this machine."""

    folder: Path
    ca: trustme.CA = field(default_factory=trustme.CA)

    def write(self, *names: str) -> None:
        """Write the authority's certificate, the server's for these names (this machine's), and its key."""
        server = self.ca.issue_cert(*(names or ("localhost", "127.0.0.1")))
        self.ca.cert_pem.write_to_path(str(self.folder / "ca.pem"))
        pem = b"".join(blob.bytes() for blob in server.cert_chain_pems)
        (self.folder / "server.pem").write_bytes(pem)
        server.private_key_pem.write_to_path(str(self.folder / "server.key"))
        (self.folder / "server.key").chmod(0o600)

    @property
    def file(self) -> Path:
        """The authority's certificate."""
        return self.folder / "ca.pem"

    def trusting(self) -> ssl.SSLContext:
        """A client's side that trusts this authority alone."""
        return ssl.create_default_context(cafile=str(self.file))

    def serving(self) -> ssl.SSLContext:
        """A server's side."""
        context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        context.load_cert_chain(self.folder / "server.pem", self.folder / "server.key")
        return context


@dataclass(slots=True)
class MailServers:
    """Dovecot and Exim, running."""

    folder: Path
    authority: Authority
    ports: dict[str, int]
    idle: bool = True
    _dovecot: subprocess.Popen[bytes] | None = None
    _exim: subprocess.Popen[bytes] | None = None
    _unsent: dict[str, int] = field(default_factory=dict)

    # Life

    def start_dovecot(self) -> None:
        """Start it, and wait until it answers."""
        config = self.folder / "dovecot.conf"
        run = [DOVECOT, "-F", "-c", str(config)]
        self._dovecot = subprocess.Popen(run, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        _wait_for(self.ports["imap"], self._dovecot)
        _wait_for(self.ports["lmtp"], self._dovecot)

    def stop_dovecot(self) -> None:
        """Stop it as an administrator would; mail stays."""
        _end(self._dovecot)
        self._dovecot = None

    def start_exim(self) -> None:
        """Start it, and wait until it answers."""
        run = [EXIM, "-bdf", "-q1s", "-C", str(self.folder / "exim.conf")]
        self._exim = subprocess.Popen(run, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        _wait_for(self.ports["submissions"], self._exim)

    def stop_exim(self) -> None:
        """Stop it; what it has queued stays."""
        _end(self._exim)
        self._exim = None

    # Mail

    def put(self, name: str, raw: bytes, *, sender: str = "ada@customers.example") -> None:
        """Deliver a mail into somebody's mailbox, as the last server on its way does."""
        with LMTP("127.0.0.1", self.ports["lmtp"]) as lmtp:
            lmtp.sendmail(sender, [f"{name}@{HOME}"], raw)

    @contextmanager
    def mailbox(self, name: str, folder: str = "INBOX") -> Iterator[IMAP4_SSL]:
        """Open somebody's mailbox as her own mail program does."""
        with IMAP4_SSL("127.0.0.1", self.ports["imap"], ssl_context=self.authority.trusting()) as imap:
            imap.login(name, PASSWORD)
            imap.select(folder)
            yield imap

    def mails(self, name: str, folder: str = "INBOX") -> list[Message]:
        """Give what is in somebody's mailbox, oldest first: looked up on the disk, for a test looks often."""
        place = self.folder / "mail" / name / ("" if folder == "INBOX" else f".{folder}")
        files = [*place.glob("new/*"), *place.glob("cur/*")]
        return [BytesParser().parsebytes(file.read_bytes()) for file in sorted(files, key=_stored) if file.exists()]

    def rebuild(self, name: str) -> None:
        """Build somebody's mailbox anew, as after a repair: the same mails under other numbers."""
        folder = self.folder / "mail" / name
        head = (folder / "dovecot-uidlist").read_text(encoding="utf-8").splitlines()[0]
        for file in folder.glob("dovecot*"):
            file.unlink()
        # The list of numbers, with none in it, and the next UIDVALIDITY.
        anew = re.sub(r" V(\d+) N\d+", lambda found: f" V{int(found[1]) + 1} N1", head)
        (folder / "dovecot-uidlist").write_text(f"{anew}\n", encoding="utf-8")
        shutil.chown(folder / "dovecot-uidlist", "mail", "mail")

    def flags(self, name: str) -> list[bytes]:
        """Give the flags of each mail in somebody's inbox."""
        with self.mailbox(name) as imap:
            _, data = imap.fetch("1:*", "(FLAGS)")
        return [one for one in data if isinstance(one, bytes)]


def _stored(file: Path) -> list[int]:
    """When a mail was stored: its file is named by seconds and microseconds."""
    return [int(figures) for figures in re.findall(r"\d+", file.name)[:2]]


def write_configuration(folder: Path, ports: dict[str, int], *, idle: bool = True) -> None:
    """Write what both servers go by."""
    import grp
    import pwd

    nobody = pwd.getpwnam("mail")
    user, group = pwd.getpwnam("Debian-exim"), grp.getgrnam("Debian-exim")
    for name in ("run", "state", "mail", "home", "spool"):
        (folder / name).mkdir(exist_ok=True)
    for name in ("mail", "home"):
        os.chown(folder / name, nobody.pw_uid, nobody.pw_gid)
    os.chown(folder / "spool", user.pw_uid, group.gr_gid)
    for kind in ("main", "reject", "panic"):
        (folder / f"exim-{kind}log").touch()
        os.chown(folder / f"exim-{kind}log", user.pw_uid, group.gr_gid)
    values = {
        "folder": folder,
        "uid": nobody.pw_uid,
        "gid": nobody.pw_gid,
        "user": user.pw_name,
        "group": group.gr_name,
        "password": PASSWORD,
        "exim": EXIM,
        "capability": "+UIDPLUS" if idle else "IMAP4rev1 LITERAL+ UIDPLUS SASL-IR",
        **ports,
    }
    (folder / "dovecot.conf").write_text(_DOVECOT.format(**values), encoding="utf-8")
    (folder / "exim.conf").write_text(_EXIM.format(**values), encoding="utf-8")
    (folder / "server.key").chmod(0o644)  # Exim reads it as its own user; it is worth nothing outside of this folder


@contextmanager
def mail_servers(*, idle: bool = True) -> Iterator[MailServers]:
    """Start both servers in a folder that their own users can enter."""
    folder = Path(tempfile.mkdtemp(prefix="tapeline-mail-"))
    folder.chmod(0o755)
    names = ("imap", "imap_starttls", "lmtp", "submission", "submissions")
    servers = MailServers(folder=folder, authority=Authority(folder), ports={name: free_port() for name in names})
    servers.authority.write()
    write_configuration(folder, servers.ports, idle=idle)
    try:
        servers.start_dovecot()
        servers.start_exim()
        yield servers
    finally:
        servers.stop_exim()
        servers.stop_dovecot()
        shutil.rmtree(folder, ignore_errors=True)


def _wait_for(port: int, process: "subprocess.Popen[bytes]") -> None:
    deadline = time.monotonic() + 20
    while time.monotonic() < deadline:
        with contextlib.suppress(OSError), socket.create_connection(("127.0.0.1", port), timeout=1):
            return
        if process.poll() is not None:
            break
        time.sleep(0.01)
    raise RuntimeError(f"a mail server did not come up (exit code {process.poll()})")


def _end(process: "subprocess.Popen[bytes] | None") -> None:
    if process is None:
        return
    process.send_signal(signal.SIGTERM)
    try:
        process.wait(timeout=10)
    except subprocess.TimeoutExpired:
        process.kill()
        process.wait(timeout=10)
