"""Messages that came while the bot was down are all handled, in the order of each customer."""

from pathlib import Path

from bot.store.database import open_database
from bot.store.drafts import waiting_drafts
from bot.store.messages import messages_of
from tests.bot.channels.telegram.running import telegram_shop

CUSTOMERS, MESSAGES = 50, 20


def test_a_thousand_queued_messages_are_kept_in_order_and_drafted(tmp_path: Path) -> None:
    with telegram_shop(tmp_path, settle_s=45) as shop:
        people = [shop.api.person(f"Customer {number}") for number in range(CUSTOMERS)]
        for number in range(MESSAGES):
            for person in people:
                shop.api.write(person, "length 13 in" if number == 0 else f"and number {number} of me is this")
        shop.start()
        shop.api.wait_until(lambda: shop.api.unconfirmed() == 0, timeout_s=60)
        shop.clock.advance(46)
        drafted = shop.wait(lambda: (rows := _waiting(tmp_path)) and len(rows) == CUSTOMERS and rows)

        with open_database(tmp_path) as database, database.read() as connection:
            kept = [[row.text for row in messages_of(connection, row.enquiry_id)] for row in drafted]
        whole = ["length 13 in", *(f"and number {number} of me is this" for number in range(1, MESSAGES))]
        assert kept == [whole] * CUSTOMERS


def _waiting(folder: Path) -> list:
    with open_database(folder) as database, database.read() as connection:
        return waiting_drafts(connection)
