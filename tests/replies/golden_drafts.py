"""The enquiries whose drafts are kept whole in golden/, to be read aloud.

`python -m tests.replies.golden_drafts` writes the files anew after the wording was changed on purpose.
"""

from dataclasses import replace
from pathlib import Path

from replies.draft import Draft
from replies.reading.context import Asked, Channel
from replies.reading.facts import Topic
from sizing.chart import builtin_shop
from sizing.measures import Measure, Posture, SpaceLimit
from sizing.reasons import Why
from tests.replies.enquiries import dog, drafted, enquiry, told

FOLDER = Path(__file__).parent / "golden"

_SHOP = builtin_shop()
_TRIED = _SHOP.model_copy(
    update={
        "sizes": tuple(
            size.model_copy(update={"rated_load": 20.0, "price": f"${90 + 8 * number}"})
            for number, size in enumerate(_SHOP.sizes)
        )
    }
)


def golden_drafts() -> dict[str, Draft]:
    """Give the drafts by the names of their files."""
    pickle = dog("Pickle", length=13, height=11.5, width=5.25, throat_height=8.25, weight=14)
    return {
        "question_nothing_known": drafted(enquiry()),
        "question_weight_alone": drafted(enquiry(dog("Pickle", weight=13))),
        "question_two_weights_alone": drafted(enquiry(dog("Pickle", weight=13), dog("Biscuit", weight=11))),
        "question_two_missing": drafted(enquiry(dog("Pickle", length=14.5, height=11, weight=13))),
        "question_girth": drafted(
            enquiry(
                dog("Biscuit", length=12, height=9.5, width=told(17, words="17 inches"), throat_height=7, weight=11)
            )
        ),
        "question_head_said_outright": drafted(
            enquiry(
                dog(
                    "Bosco",
                    length=12.5,
                    height=told(15, hints=[Why.HEAD]),
                    width=5,
                    throat_height=7.5,
                    weight=told(11, "lb"),
                )
            )
        ),
        "question_unit": drafted(
            enquiry(
                dog(
                    "Rex",
                    length=told(38, stated=False),
                    height=told(30, stated=False),
                    width=told(15, stated=False),
                    throat_height=told(21, stated=False),
                    weight=told(8.5, "lb", stated=False),
                )
            )
        ),
        "question_conflict_and_missing": drafted(
            enquiry(dog("Juno", length=told(13, high=15.5, conflicting=[13, 15.5]), height=11.5, width=5.25, weight=14))
        ),
        "question_guesses": drafted(
            enquiry(
                dog(
                    length=told(14, vague=True, stated=False),
                    height=told(1, "ft", vague=True, words="a foot"),
                    weight=told(10, "lb", vague=True, words="10ish pounds"),
                )
            )
        ),
        "question_two_dogs_in_cm": drafted(
            enquiry(
                dog("Filou", units="cm kg", height=24, length=28, weight=4),
                dog("Nana", units="cm kg", height=21, length=25, weight=2.9),
                units="cm kg",
            )
        ),
        "question_one_ready_one_not": drafted(enquiry(pickle, dog("Olive", length=12, height=10, weight=9))),
        "answer_standard": drafted(enquiry(pickle), shop=_TRIED),
        "answer_standard_in_cm_with_other_question": drafted(
            enquiry(
                dog("Zaytoun", units="cm kg", length=33, height=29, width=13.5, throat_height=21, weight=6.4),
                units="cm kg",
                other="And could I have it in green, please?",
                channel=Channel.EMAIL,
            )
        ),
        "answer_altered_opening": drafted(
            enquiry(dog("Fergus", length=13, height=11.5, width=5.25, throat_height=7.75, weight=13))
        ),
        "answer_made_to_measure": drafted(
            enquiry(dog("Dottie", length=14.5, height=11, width=5.75, throat_height=8, weight=13))
        ),
        "answer_made_to_measure_else_standard": drafted(
            enquiry(dog("Wilf", length=11, height=11.5, width=5.25, throat_height=8.25, weight=10))
        ),
        "answer_do_not_lift": drafted(
            enquiry(dog("Bruno", length=20, height=17.5, width=7.5, throat_height=12.5, weight=41))
        ),
        "answer_not_safe": drafted(
            enquiry(dog("Moss", length=13, height=11.5, width=5.25, throat_height=8.25, weight=22)), shop=_TRIED
        ),
        "answer_outside_range": drafted(
            enquiry(dog("Pebble", length=32, height=33, width=12.5, throat_height=24, weight=148))
        ),
        "answer_puppy": drafted(
            enquiry(
                replace(
                    dog("Crumb", length=9, height=8.5, width=3.5, throat_height=6.25, weight=6),
                    age_months=4.5,
                )
            )
        ),
        "answer_sits_within_a_limit": drafted(
            enquiry(replace(pickle, posture=Posture.SITS, space=SpaceLimit(sides=(18.0, 11.0, 15.0))))
        ),
        "answer_two_dogs_in_one": drafted(
            enquiry(
                dog("Lefty", length=9, height=8.5, width=3.5, throat_height=6.25, weight=6),
                dog("Righty", length=9.25, height=8.5, width=3.75, throat_height=6.25, weight=6.5),
                together=True,
            )
        ),
        "handover_opening": drafted(
            enquiry(dog("Duke", length=13, height=11.5, width=5.25, throat_height=6.625, weight=13))
        ),
        "handover_something_else": drafted(
            enquiry(
                dog("Pickle", length=14.5, height=11, weight=13),
                topic=Topic.OTHER,
                other="How do I pay, by bank transfer or by card?",
                asked=(Asked(measure=Measure.WIDTH), Asked(measure=Measure.THROAT_HEIGHT)),
                sent=1,
            )
        ),
    }


if __name__ == "__main__":
    for name, one in golden_drafts().items():
        (FOLDER / f"{name}.txt").write_text(one.text + "\n", encoding="utf-8")
