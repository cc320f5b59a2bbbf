"""What the maker is told after messages changed their enquiry."""

from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from bot.regroup import Regrouped
    from sizing.chart import Shop


def tell(regrouped: "Regrouped", shop: "Shop") -> None:
    """Name the measures that she had set and must set again, since the order of the dogs may be another now."""
    from bot.approval.words import MEASURES
    from sizing.units import is_weight
    from sizing.written import amount_with_unit

    for row in regrouped.set_again:
        amount = amount_with_unit(row.amount, shop.weight_unit if is_weight(row.measure) else shop.length_unit)
        click.echo(f"tapeline: you had set {MEASURES[row.measure]} {amount}: set it again", err=True)
