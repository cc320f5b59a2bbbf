"""What a shop goes by when it reads, judges and words: its chart, its words, its wording."""

import tomllib
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from bot.errors import Fault, SettingsError
from bot.settings import Settings
from replies.draft import Draft
from replies.drafting import draft
from replies.enquiry import Enquiry
from replies.errors import WordListError
from replies.reading.words import Words, load_words
from replies.words import OWN_WORDS
from replies.writing.templating import SUFFIX
from replies.writing.wording import Wording, make_wording
from sizing.assess import assess
from sizing.assessment import Assessment
from sizing.chart import Shop, builtin_shop


@dataclass(frozen=True, slots=True, kw_only=True)
class Workshop:
    """What a shop goes by."""

    shop: Shop
    words: Words
    wording: Wording


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """An enquiry with what is to be said about it.

    assessments   one a dog of the enquiry, in order
    """

    enquiry: Enquiry
    assessments: tuple[Assessment, ...]
    draft: Draft


def open_workshop(settings: Settings | None) -> Workshop:
    """Put together what a shop goes by.

    settings   None: there is no shop, and what is built in holds
    Raises     SettingsError, WordingError, WordListError: the maker must mend a file of her own
    """
    if settings is None:
        return Workshop(shop=builtin_shop(), words=load_words(), wording=make_wording())
    return Workshop(
        shop=settings.shop,
        words=_words(settings.words_file),
        wording=make_wording(settings.signature, _own_wording(settings.wording_folder)),
    )


def judge(enquiry: Enquiry, workshop: Workshop, on: date) -> Judged:
    """Assess every dog of an enquiry, and draft what is to be said: the same for a rehearsal and for a live message.

    on   the day, which the answer bears
    """
    assessments = tuple(assess(dog.for_sizing(), workshop.shop, on) for dog in enquiry.dogs)
    drafted = draft(enquiry, assessments, workshop.shop, workshop.wording, on)
    return Judged(enquiry=enquiry, assessments=assessments, draft=drafted)


def _words(file: Path) -> Words:
    """Read the vocabulary with the maker's own words, whatever she calls their file."""
    try:
        return load_words(_own_words(file))
    except WordListError as error:
        if error.file != OWN_WORDS:
            raise
        raise SettingsError([Fault(file=file.name, key=error.key, given=None, remedy=error.remedy)]) from error


def _own_wording(folder: Path) -> dict[str, str]:
    """Read the maker's own versions of the templates; {} where she has none."""
    files = sorted(path for path in folder.rglob(f"*{SUFFIX}") if path.is_file())
    return {path.relative_to(folder).as_posix(): _text(path) for path in files}


def _own_words(file: Path) -> dict[str, object] | None:
    if not file.exists():
        return None
    try:
        return tomllib.loads(_text(file))
    except tomllib.TOMLDecodeError as error:
        fault = Fault(file=file.name, key="", given=None, remedy=f"this is no TOML ({error})")
        raise SettingsError([fault]) from error


def _text(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        fault = Fault(file=path.name, key="", given=None, remedy="it is not UTF-8; save it as UTF-8 in your editor")
        raise SettingsError([fault]) from error
    except OSError as error:
        fault = Fault(file=path.name, key="", given=None, remedy=f"it cannot be read ({error.strerror})")
        raise SettingsError([fault]) from error
