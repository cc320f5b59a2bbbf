"""shop.toml is read whole: every fault at once, each with file, key, what was given and what would be right."""

import os
from datetime import time
from pathlib import Path
from typing import Any

import pytest
import tomlkit
from hypothesis import given
from hypothesis import strategies as st

from bot.errors import Fault, NoShopError, SettingsError
from bot.sections import Sections
from bot.settings import Settings, find_folder, load_settings, parse_settings, read_secret
from sizing.chart import Shop, builtin_shop

HERE = Path("shop")


def parsed(text: str) -> Settings:
    return parse_settings(text, folder=HERE)


def faults(text: str) -> tuple[Fault, ...]:
    with pytest.raises(SettingsError) as caught:
        parsed(text)
    return caught.value.faults


def fault(text: str) -> Fault:
    found = faults(text)
    assert len(found) == 1, found
    return found[0]


def test_an_empty_file_means_what_is_built_in() -> None:
    settings = parsed("")

    assert settings.shop == builtin_shop()
    assert settings.own == Sections()
    assert settings.quiet_hours == (time(21), time(8))
    assert not any(settings.asks_by_itself(channel) for channel in ("telegram", "discord", "email", "paste"))


def test_settings_are_taken_over() -> None:
    settings = parsed(
        'time_zone = "Europe/London"\npad = 0.75\n[maker]\nname = "Ann"\n[messages]\nsettle_s = 5\nquiet_hours = ""\n'
        "[telegram]\nquestions_by_themselves = true\nmakers = [42]\n"
    )

    assert settings.zone.key == "Europe/London"
    assert settings.shop.pad == 0.75
    assert settings.signature.maker_name == "Ann"
    assert settings.own.messages.settle_s == 5
    assert settings.quiet_hours is None
    assert settings.asks_by_itself("telegram")
    assert not settings.asks_by_itself("discord")


def test_a_shop_may_work_in_centimetres() -> None:
    assert parsed('length_unit = "cm"\npad = 1.27\n').shop.pad == 0.5


def test_all_faults_are_told_at_once() -> None:
    told = str(
        SettingsError(
            faults(
                'time_zone = "Europe/Londn"\npad = -1\n[messages]\nsettle_s = "4"\nquiet_days = 0\n'
                "[ease.length]\nleast = { add = 9, share = 0 }\n[telegram]\nmakers = ['a']\n"
            )
        )
    ).splitlines()

    assert told == [
        "shop.toml: time_zone is 'Europe/Londn': no such time zone: did you mean Europe/London?",
        "shop.toml: messages.settle_s is '4': seconds, 0 to 3600",
        "shop.toml: messages.quiet_days is 0: whole days, 1 to 365",
        "shop.toml: telegram.makers.1 is 'a': account numbers, such as [12345678]",
        "shop.toml: pad is -1: a number not below 0",
        "shop.toml: ease.length is least 9 in, aim 1 in, most 2.5 in: "
        "least must not be more than aim, nor aim more than most",
    ]


@pytest.mark.parametrize(
    ("text", "key", "given_", "remedy"),
    [
        ("[maker]\nname = 3", "maker.name", "3", "words in quotes"),
        ("[maker]\nnme = 'Ann'", "maker.nme", "'Ann'", "no such setting: did you mean name?"),
        ("[mesages]", "mesages", "{}", "no such setting: did you mean messages?"),
        ("telegram = 1", "telegram", None, "a section of its own: [telegram]"),
        ("time_zone = 'new york'", "time_zone", "'new york'", "did you mean America/New_York?"),
        ("[messages]\nquiet_hours = '9 to 5'", "messages.quiet_hours", "'9 to 5'", 'such as "21:00-08:00"'),
        ("[messages]\nquiet_hours = '08:00-08:00'", "messages.quiet_hours", "'08:00-08:00'", "two different times"),
        ("[files]\nwording = '../other'", "files.wording", "'../other'", "within the shop's own folder"),
        ("[files]\nwords = '/etc/passwd'", "files.words", "'/etc/passwd'", "within the shop's own folder"),
        ("[discord]\nquestions_by_themselves = 1", "discord.questions_by_themselves", "1", "true or false"),
        ("[discord]\nmaker_channel = 5\nchannels = [4, 5]", "discord.channels", "[4, 5]", "than maker_channel"),
        ("[discord]\nmaker_roles = [-1]", "discord.maker_roles.1", "-1", "role numbers"),
        ('[discord]\ngateway = "https://x.example"', "discord.gateway", "'https://x.example'", "wss://gateway"),
        ("[maker]\nname = 'a\\nb'\n".replace("'", '"'), "maker.name", "'a\\nb'", "words in one line"),
        ("[caution]\ncarry_most = 20", "caution.carry_most", "20 lb", "never laxer"),
    ],
)
def test_a_fault_names_key_value_and_remedy(text: str, key: str, given_: str | None, remedy: str) -> None:
    found = fault(text)

    assert (found.file, found.key, found.given) == ("shop.toml", key, given_)
    assert remedy in found.remedy


@pytest.mark.parametrize(
    ("text", "line"), [("pad = 1\nwall = \n", "line 2"), ("\n\n[maker\n", "line 3"), ('name = "open\n', "line 1")]
)
def test_a_slip_of_the_pen_is_told_with_its_line(text: str, line: str) -> None:
    found = fault(text)

    assert found.key == line
    assert "this is no TOML" in found.remedy


@pytest.mark.parametrize(
    "text",
    [
        "[telegram]\ntoken = '123:SECRET'",
        "telegram_token = '123:SECRET'",
        "[email]\npassword = 'SECRET'",
        "[email.password]\nimap = 'SECRET'",
        "telegram = '123:SECRET'",
    ],
)
def test_a_token_that_stands_in_the_file_is_refused_and_never_repeated(text: str) -> None:
    told = str(SettingsError(faults(text)))

    assert "SECRET" not in told
    assert "shop.toml" in told


TOML = st.recursive(
    st.booleans()
    | st.integers(-(2**63), 2**63 - 1)
    | st.floats()
    | st.text(st.characters(exclude_categories=("Cs",)), max_size=20)
    | st.datetimes(),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(["name", "add", "x"]), inner, max_size=3)
    ),
    max_leaves=6,
)
KEYS = st.sampled_from(sorted({*Sections.model_fields, *Shop.model_fields, "size", "x"}))
INNER = st.sampled_from(["name", "settle_s", "quiet_hours", "makers", "length", "least", "wording", "x"])


@given(st.dictionaries(KEYS, TOML | st.dictionaries(INNER, TOML, max_size=3), max_size=4))
def test_any_values_are_taken_or_refused_in_words(values: dict[str, Any]) -> None:
    text = tomlkit.dumps(values)
    try:
        parsed(text)
    except SettingsError as error:
        assert error.faults
        assert all(one.remedy and one.file == "shop.toml" for one in error.faults)


@given(st.text(max_size=60))
def test_any_text_is_taken_or_refused_in_words(text: str) -> None:
    try:
        parsed(text)
    except SettingsError as error:
        assert error.faults


def test_lists_within_lists_without_end_are_refused() -> None:
    assert fault(f"pad = {'[' * 5000}").remedy


def test_a_file_that_is_not_utf8_is_told_with_its_line(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_bytes(b'pad = 0.5\n[maker]\nname = "Ren\xe9e"\n')

    with pytest.raises(SettingsError, match=r"line 3: a character is not UTF-8"):
        load_settings(tmp_path)


def test_a_file_saved_on_windows_is_read(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_bytes(b'\xef\xbb\xbfpad = 0.75\r\n[maker]\r\nname = "Ann"\r\n')

    assert load_settings(tmp_path).shop.pad == 0.75


def test_no_shop_is_told_with_the_way_to_one(tmp_path: Path) -> None:
    with pytest.raises(NoShopError, match="tapeline init"):
        load_settings(tmp_path)


def test_the_shop_that_was_named_comes_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TAPELINE_SHOP", str(tmp_path / "env"))

    assert find_folder(tmp_path / "named") == tmp_path / "named"


def test_then_the_one_of_the_environment(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TAPELINE_SHOP", str(tmp_path / "env"))
    monkeypatch.chdir(tmp_path)
    (tmp_path / "shop.toml").touch()

    assert find_folder() == tmp_path / "env"


def test_then_the_working_folder_if_it_is_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "shop.toml").touch()

    assert find_folder() == tmp_path


def test_else_the_users_own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)

    assert find_folder().name == "tapeline"
    assert find_folder() != tmp_path


@pytest.fixture
def secret_file(tmp_path: Path) -> Path:
    file = tmp_path / "secrets" / "telegram_token"
    file.parent.mkdir()
    file.write_text("123:SECRET\n", encoding="utf-8")
    file.chmod(0o600)
    return file


def test_a_secret_comes_from_its_file_and_shows_itself_to_nobody(tmp_path: Path, secret_file: Path) -> None:
    secret = read_secret(tmp_path, "telegram_token")

    assert secret is not None
    assert secret.get_secret_value() == "123:SECRET"
    assert "SECRET" not in f"{secret!r} {secret} {[secret]}"


def test_the_environment_goes_before_the_file(
    tmp_path: Path, secret_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TAPELINE_TELEGRAM_TOKEN", "456:OTHER")

    secret = read_secret(tmp_path, "telegram_token")

    assert secret is not None
    assert secret.get_secret_value() == "456:OTHER"


def test_a_secret_that_is_not_there_is_none(tmp_path: Path) -> None:
    assert read_secret(tmp_path, "telegram_token") is None


@pytest.mark.parametrize("mode", [0o640, 0o604, 0o620, 0o660, 0o644, 0o777])
def test_a_secret_that_others_can_read_is_refused(tmp_path: Path, secret_file: Path, mode: int) -> None:
    secret_file.chmod(mode)
    if os.name != "posix":
        assert read_secret(tmp_path, "telegram_token")
        return

    with pytest.raises(SettingsError, match=r"others can read it.*chmod 600") as caught:
        read_secret(tmp_path, "telegram_token")

    assert "SECRET" not in str(caught.value)


@pytest.mark.parametrize("content", [b"", b"  \n", b"\xff\xfe"])
def test_a_secret_that_cannot_be_used_is_told_without_its_content(
    tmp_path: Path, secret_file: Path, content: bytes
) -> None:
    secret_file.write_bytes(content)

    with pytest.raises(SettingsError, match="secrets/telegram_token"):
        read_secret(tmp_path, "telegram_token")


def test_settings_hold_no_secret(tmp_path: Path, secret_file: Path) -> None:
    (tmp_path / "shop.toml").touch()

    assert "SECRET" not in repr(load_settings(tmp_path))
