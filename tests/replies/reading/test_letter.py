"""What of a mail or a pasted chat is the customer's own."""

from tests.replies.reading.readings import measures


def test_quoted_history_of_a_mail_is_not_read_again() -> None:
    history = "On Mon, 2 Mar 2026 at 10:00, Shop <a@b.example> wrote:\n> The size 2 is 12 in long."
    text = f"He's 5 in wide.\n\n{history}"

    assert measures(text, channel="email", first=False) == {"width": "5 in"}


def test_the_shops_lines_of_a_pasted_chat_are_not_the_customers() -> None:
    text = "[10:42] shop: the 2 is 12 in long\n[10:43] Ann: he's 13 in long"

    assert measures(text, channel="paste") == {"length": "13 in"}


def test_a_signature_holds_no_measures() -> None:
    text = "He's 5 in wide.\n\n-- \nAnn\nTel. 555 0143\n12 Long Lane"

    assert measures(text, channel="email") == {"width": "5 in"}
