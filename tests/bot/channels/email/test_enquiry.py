"""Whole enquiries over real mail servers: what a customer and a maker see, from the first mail to the answer."""

from tests.bot.channels.email.running import FOUR, WHOLE, MailShop, answer_to, html, mail, plain


def test_a_whole_enquiry_is_decided_in_the_terminal(shop: MailShop) -> None:
    ada = f"ada-{shop.name}@customers.example"
    first = shop.receive(mail(FOUR, sender=f"Ada <{ada}>"))
    shop.draft("1.1")
    shop.approve("1.1")
    question = shop.mailed("Only one is missing", to=ada)

    shop.receive(answer_to(question, "The width is 4.75 inches.", sender=ada))
    shop.draft("1.2")
    shop.approve("1.2")
    answer = shop.mailed("No. ", to=ada)

    assert question["Subject"] == answer["Subject"] == "Re: Which size?"
    assert question["In-Reply-To"] == first
    assert first in answer["References"]
    assert question["From"] == f"Wil & Daughters <{shop.address}>"
    assert "harness" in plain(answer)
    assert len(shop.mails_of(ada)) == 2


def test_a_whole_enquiry_is_decided_by_mail(shop: MailShop) -> None:
    ada = f"ada-{shop.name}@customers.example"
    shop.receive(mail(WHOLE, sender=ada))

    shown = shop.mailed("1.1: an answer waits for you")
    shop.decide(shown, "correct width 5")
    corrected = shop.mailed("1.2: an answer waits for you")
    shop.decide(corrected, "Approve\n\nWil")
    answer = shop.mailed("No. ", to=ada)

    assert "width: 5 in (you set it)" in plain(corrected)
    assert "5" in plain(answer)
    shop.mailed("1.2 is approved.")
    assert len(shop.mails_of(ada)) == 1
    assert html(shown).count("<b>") >= 1
