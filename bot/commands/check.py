"""Checks settings, size chart and wording, and shows where the sizes overlap and where they leave a dog between two."""

from dataclasses import asdict
from pathlib import Path

import click

from bot.commands.shop_in_force import SHOP, settings_in_force


@click.command("check")
@SHOP
@click.option("--json", "as_json", is_flag=True, help="Faults and ladder for another program, in inches.")
@click.option("--connect", is_flag=True, help="Try each channel's account as well, without sending anything.")
def command(folder: Path | None, as_json: bool, connect: bool) -> int:
    """Check settings, size chart and wording, and show where the sizes overlap.

    Every template is tried on every outcome, doubt, unit and number of dogs. The ladder holds dogs of median
    proportions, from small to large, against the sizes.
    """
    from bot.ladder import ladder
    from bot.workshop import open_workshop
    from replies.checking import check_wording

    settings = settings_in_force(folder)
    workshop = open_workshop(settings)
    faults = [str(fault) for fault in check_wording(workshop.wording, workshop.shop)]
    steps = ladder(workshop.shop)
    unreached: list[str] = []
    if connect:
        from bot.commands.connecting import try_accounts

        unreached = try_accounts(folder)
    if as_json:
        import json

        click.echo(json.dumps({"faults": [*faults, *unreached], "ladder": asdict(steps)}))
        return 1 if faults or unreached else 0
    from bot.screens.ladder import ladder_screen
    from bot.screens.rows import rows
    from bot.screens.terminal import console

    screen, shop = console(), workshop.shop
    place = str(settings.folder / "shop.toml") if settings else "no shop found: this is what is built in"
    own = len(workshop.wording.own)
    told = [f"{len(workshop.wording.texts)} templates tried{f', {own} of them yours' if own else ''}"]
    for part in (
        *rows("settings", [place], screen),
        *rows("wording", faults or told, screen, style="bad" if faults else ""),
        *rows("sizes", [f"{len(shop.sizes)}, held against dogs of median proportions by shoulder height"], screen),
    ):
        screen.print(part)
    screen.print()
    for part in ladder_screen(steps, screen, unit=shop.length_unit):
        screen.print(part)
    if faults:
        click.echo(f"tapeline: {len(faults)} to mend in the wording", err=True)
    return 1 if faults or unreached else 0
