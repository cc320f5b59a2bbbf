"""Customers: who writes, and where they are reached."""

from dataclasses import dataclass, field

from sqlalchemy import Connection, insert, select, update

from bot.message import ChannelName
from bot.store.schema import customer


@dataclass(frozen=True, slots=True, kw_only=True)
class Customer:
    """Somebody who writes on one channel."""

    id: int
    channel: ChannelName
    address: str = field(repr=False)
    display_name: str = field(repr=False)


def find_customer(connection: Connection, channel: ChannelName, address: str) -> Customer | None:
    """Find who is reached at `address`."""
    wanted = (customer.c.channel == channel) & (customer.c.address == address)
    row = connection.execute(select(customer).where(wanted)).mappings().one_or_none()
    return Customer(**dict(row) | {"channel": ChannelName(row["channel"])}) if row else None


def add_customer(connection: Connection, channel: ChannelName, address: str, *, display_name: str) -> Customer:
    """Add somebody who writes for the first time."""
    added = connection.execute(
        insert(customer).values(channel=channel, address=address, display_name=display_name).returning(customer.c.id)
    ).scalar_one()
    return Customer(id=added, channel=channel, address=address, display_name=display_name)


def rename_customer(connection: Connection, customer_id: int, display_name: str) -> None:
    """Keep the name that a customer goes by now."""
    connection.execute(update(customer).where(customer.c.id == customer_id).values(display_name=display_name))
