"""Says which size serves a dog whose measures are given directly."""

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bot.commands.shop_in_force import SHOP, shop_in_force

if TYPE_CHECKING:
    from sizing.assessment import Assessment
    from sizing.chart import Shop
    from sizing.measures import Measure, Taken

_OPTIONS = {
    "length": ("length", "Back length: base of the neck to the rump, no head, no tail."),
    "height": ("height", "Shoulder height, straight down to the floor."),
    "width": ("width", "Widest part of the body, straight across."),
    "throat": ("throat_height", "Hollow of the throat, straight down to the floor."),
    "weight": ("weight", "Body weight."),
    "girth": ("girth", "Around the chest."),
    "neck": ("neck", "Around the neck."),
}


def _measure_options(function: click.decorators.FC) -> click.decorators.FC:
    for option, (key, told) in reversed(_OPTIONS.items()):
        function = click.option(f"--{option}", key, metavar="AMOUNT", help=told)(function)
    return function


@click.command("size")
@_measure_options
@click.option("--name", help="The dog's name.")
@click.option("--breed", help="The breed, which tells what is likely.")
@SHOP
@click.option("--json", "as_json", is_flag=True, help="In inches and pounds, for another program.")
def command(name: str | None, breed: str | None, folder: Path | None, as_json: bool, **given: str | None) -> None:
    """Say which size serves a dog of these measures.

    An AMOUNT is written like "14.5in", "13 1/2 in", 1'2", "33cm", "5.2kg" or, for a range, "12-13in". Without a unit
    it is in the shop's.
    """
    from sizing.assess import assess
    from sizing.breeds import find_breed
    from sizing.measures import Dog

    told = {key: words for key, words in given.items() if words is not None}
    if not told:
        raise click.UsageError("Give at least one measure, such as --length 14.5in.")
    shop = shop_in_force(folder)
    measures = _read(told, shop)
    breeds = find_breed(breed) if breed else ()
    dog = Dog(name=name, measures=measures, breeds=breeds)
    assessment = assess(dog, shop, date.today())
    if as_json:
        _give_json(told, assessment)
    else:
        _show(assessment, shop)


def _read(told: Mapping[str, str], shop: "Shop") -> dict["Measure", "Taken"]:
    from sizing.errors import AmountError
    from sizing.given import read_length, read_weight
    from sizing.measures import Measure, Taken
    from sizing.units import is_weight

    measures, faults = {}, []
    for key, words in told.items():
        measure = Measure(key)
        try:
            if is_weight(measure):
                given = read_weight(words, unit=shop.weight_unit)
            else:
                given = read_length(words, unit=shop.length_unit)
        except AmountError as error:
            faults.append(f"{key}: {error}")
        else:
            measures[measure] = Taken(amount=given.amount, unit_stated=given.unit_stated)
    if faults:
        raise AmountError("\n".join(faults))
    return measures


def _give_json(told: Mapping[str, str], assessment: "Assessment") -> None:
    from bot.json_dog import MeasureOut, dog_out, to_json

    measures = {
        measure.value: MeasureOut(
            low=taken.amount.low, high=taken.amount.high, words=told[measure], span=None, message=None
        )
        for measure, taken in assessment.dog.measures.items()
    }
    click.echo(to_json(dog_out(assessment.dog.name, measures, assessment)))


def _show(assessment: "Assessment", shop: "Shop") -> None:
    from bot.screens.judgement import beside, judgement
    from bot.screens.terminal import console

    screen = console()
    for part in (*judgement(assessment, shop, screen), *beside(assessment, shop, screen)):
        screen.print(part)
