"""Tries the wording on every outcome, doubt, unit and number of dogs, before a customer sees it."""

from collections.abc import Iterator

from replies.drafting import draft
from replies.errors import WordingError, WordingFault
from replies.writing.claims import claims_in
from replies.writing.sample_parts import A_DAY
from replies.writing.samples import samples
from replies.writing.wording import Wording
from sizing.chart import Shop


def check_wording(wording: Wording, shop: Shop) -> list[WordingFault]:
    """Give all that is wrong with the templates in force, each fault once.

    shop     its units and settings count
    Returns  [] where every template can be used, holds marked places and caution, and claims nothing that is not so
    """
    faults = {str(fault): fault for fault in (*_claims(wording), *_failures(wording, shop))}
    return list(faults.values())


def _failures(wording: Wording, shop: Shop) -> Iterator[WordingFault]:
    for sample in samples(shop):
        try:
            draft(sample.enquiry, sample.assessments, sample.shop, wording, A_DAY)
        except WordingError as error:
            yield from error.faults


def _claims(wording: Wording) -> Iterator[WordingFault]:
    """Look for claims in the texts as written, line by line, so that the line can be named."""
    for name in sorted(wording.texts):
        for number, line in enumerate(wording.texts[name].splitlines(), start=1):
            for claim in claims_in(line):
                yield WordingFault(
                    template=name,
                    line=number,
                    problem=f'it says "{claim}", which no document bears out for a bag like this',
                    remedy="say what you did or what the customer should do instead",
                    own=name in wording.own,
                )
