"""How far a channel has been read: an update offset, a last message, the place in a mail folder."""

from sqlalchemy import ColumnElement, Connection, insert, select, update

from bot.message import ChannelName
from bot.store.schema import cursor


def read_cursor(connection: Connection, channel: ChannelName, account: str, *, folder: str = "") -> str | None:
    """Give how far a channel's folder has been read; None: not at all."""
    return connection.execute(select(cursor.c.value).where(_is(channel, account, folder))).scalar_one_or_none()


def cursors_of(connection: Connection, channel: ChannelName, account: str) -> dict[str, str]:
    """Give all folders of a channel's account, each with how far it has been read."""
    wanted = (cursor.c.channel == channel) & (cursor.c.account == account)
    rows = connection.execute(select(cursor.c.folder, cursor.c.value).where(wanted).order_by(cursor.c.folder))
    return {str(row.folder): str(row.value) for row in rows}


def write_cursor(connection: Connection, channel: ChannelName, account: str, value: str, *, folder: str = "") -> None:
    """Note how far a channel's folder has been read, in the transaction that keeps what was read."""
    moved = connection.execute(update(cursor).where(_is(channel, account, folder)).values(value=value))
    if moved.rowcount == 0:
        connection.execute(insert(cursor).values(channel=channel, account=account, folder=folder, value=value))


def _is(channel: ChannelName, account: str, folder: str) -> ColumnElement[bool]:
    return (cursor.c.channel == channel) & (cursor.c.account == account) & (cursor.c.folder == folder)
