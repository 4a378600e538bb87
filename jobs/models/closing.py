"""How jobs end: ten endings, what each says to the customer, and what it does not say.

Common practice, no source. What stands between a job and an ending is diagnostics' to say
(diagnostics/closing.py); here are the words.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from diagnostics.physics.units import shown, with_unit
from jobs.models.wordings import CONSENT_WAYS, PAYERS, words


@dataclass(frozen=True)
class Ending:
    """One way in which a job is closed.

    `sentence` stands on the customer's page, with `not_said` behind it. `asks` are the questions
    that must be answered before it is closed so, `may_ask` those that may wait. `rests_on_tests`:
    its sentence is about tests, so one that must not stand holds it up. `if_unseen` stands in the
    place of `sentence` where nobody looked inside the loop since that was opened.
    """

    code: str
    words: str
    hint: str
    sentence: str
    not_said: str
    asks: tuple[str, ...] = ()
    may_ask: tuple[str, ...] = ()
    rests_on_tests: bool = False
    if_unseen: str = ""

    def said(self, *, unseen: bool) -> str:
        """Its sentence; `unseen`: nobody looked inside the loop since what was done to it."""
        return self.if_unseen if unseen and self.if_unseen else self.sentence

    @property
    def in_a_line(self) -> str:
        """Its words inside a sentence."""
        return self.words[:1].lower() + self.words[1:]


REPAIRED = ("repaired_verified", "repaired_not_verifiable")
ALWAYS = ("picked_up", "odometer_out")  # may wait at every ending
ENDINGS: dict[str, Ending] = {
    one.code: one
    for one in (
        Ending(
            "repaired_verified",
            "Repaired and verified",
            "The car was changed, and what that touched was tested again and found in order.",
            "We repaired the air conditioning and tested again what the repair touched. Those tests"
            " found nothing wrong.",
            "Tests say nothing of parts that were not tested, and nothing of how long it will stay"
            " so.",
            rests_on_tests=True,
            if_unseen="We repaired the air conditioning and tested again what the repair touched,"
            " but for the inside of the loop, which nobody opens again to see. Those tests found"
            " nothing wrong.",
        ),
        Ending(
            "repaired_not_verifiable",
            "Repaired, not verifiable today",
            "The repair is done, but today is too cold, or something else is in the way, to show"
            " that it cools.",
            "We repaired the air conditioning. Whether it cools again could not be shown today.",
            "That it cools is not shown yet. Come back as noted below; the check belongs to this"
            " job.",
            asks=("air", "come_back"),
            may_ask=("reason",),
        ),
        Ending(
            "tested_only",
            "Tested only",
            "Tests were made, and nothing was repaired.",
            "We tested the air conditioning and repaired nothing. What we found is listed in this"
            " record.",
            "What has no row under Findings was not tested, and a fault that was found is still"
            " there.",
            may_ask=("tag", "reason"),
            rests_on_tests=True,
        ),
        Ending(
            "declined",
            "Declined",
            "The customer, or who pays, does not want the work that was offered.",
            "The work we offered was declined and was not done.",
            "The fault is still there as far as we found it. Declining it is no sign that the car"
            " does not need it.",
            asks=("declined_by", "told_how", "reason"),
            may_ask=("tag",),
        ),
        Ending(
            "not_reproduced",
            "Not reproduced",
            "It was tested, and it did not fail while the car was here.",
            "We could not make it fail while the car was here.",
            "That it did not fail here does not say that nothing is wrong: a fault that comes and"
            " goes may be away when it is looked for. Note when it fails again and call us.",
            may_ask=("come_back",),
            rests_on_tests=True,
        ),
        Ending(
            "as_designed",
            "Works as designed in this heat",
            "The readings show what such a system can do at this temperature.",
            "In the heat of that day the air conditioning did what such a system can do. The tests"
            " named below carry this.",
            "On another day, and in what was not tested, the air conditioning may be otherwise.",
            asks=("air", "carried_by"),
            rests_on_tests=True,
        ),
        Ending(
            "made_safe",
            "Made safe",
            "Not repaired, but nothing can be hurt by driving: unplugged, a shorter belt.",
            "We made the car safe to drive without air conditioning, as noted below.",
            "The fault itself is not repaired. The air conditioning must stay as it is until it"
            " is.",
            asks=("safe_by", "tag", "told_how"),
            may_ask=("reason",),
        ),
        Ending(
            "released_unfinished",
            "Released unfinished",
            "The car leaves before the work is done, perhaps towed.",
            "The car left before the work was finished.",
            "Nothing here says that any of it is in order. Where the refrigerant is, and whether"
            " the loop is capped, is noted below.",
            asks=("left_how", "refrigerant_at", "loop_capped", "told_how"),
            may_ask=("refrigerant_words", "tag", "reason"),
        ),
        Ending(
            "refused",
            "Refused",
            "The shop does not do it: leak-stop, an unknown gas, no qualification for it.",
            "We did not do the work, for the reason noted below.",
            "What was not done was not tested either. Somebody equipped and qualified for it can"
            " do it.",
            asks=("refused_for", "told_how"),
            may_ask=("tag", "reason"),
        ),
        Ending(
            "passed_on",
            "Passed on",
            "Another workshop goes on with it.",
            "The car goes on to another workshop. What we found and did is listed in this record.",
            "What remains to be done is theirs to find; what we did not test is listed as such.",
            asks=("passed_to",),
            may_ask=("refrigerant_at", "refrigerant_words", "loop_capped", "tag"),
        ),
    )
}

PICKED_UP = {
    "customer": "The customer",
    "sent": "Somebody the customer sent",
    "towed": "A tow truck",
    "brought": "We bring it",
}
DECLINED_BY = {code: PAYERS[code] for code in ("customer", "insurer", "warranty", "fleet")}
TOLD_HOW = {**CONSENT_WAYS, "not_yet": "Not told yet"}
SAFE_BY = {
    "unplugged": "Compressor unplugged",
    "short_belt": "Shorter belt, past the compressor",
    "isolated": "High voltage isolated",
    "other": "Another way, said below",
}
TAG = {"yes": "A tag hangs in the car", "no": "No tag"}
LEFT_HOW = {"towed": "Towed", "driven": "Driven"}
REFRIGERANT_AT = {
    "in_car": "In the car",
    "shop_cylinder": "In a cylinder of this shop",
    "other_cylinder": "In somebody else’s cylinder",
    "was_empty": "None came out",
    "not_known": "Nobody knows",
}
LOOP_CAPPED = {
    "not_opened": "Never opened",
    "capped": "Opened, and capped",
    "open": "Open",
    "not_known": "Nobody knows",
}
REFUSED_FOR = {
    "leak_stop": "Leak-stop in it",
    "unknown_gas": "An unknown or mixed gas in it",
    "no_qualification": "Nobody here is qualified for it",
    "no_equipment": "No equipment for it here",
    "unsafe": "Not safe to work on",
    "other": "Something else, said below",
}
# A question's name on pages and on paper, and the words of its answers; in the order of the form.
QUESTIONS: dict[str, tuple[str, Mapping[str, str]]] = {
    "declined_by": ("Declined by", DECLINED_BY),
    "refused_for": ("Because of", REFUSED_FOR),
    "safe_by": ("Made safe by", SAFE_BY),
    "air": ("Temperature of the air", {}),
    "come_back": ("When to come back", {}),
    "carried_by": ("Carried by", {}),
    "left_how": ("How it left", LEFT_HOW),
    "refrigerant_at": ("Where the refrigerant is", REFRIGERANT_AT),
    "refrigerant_words": ("How much, whose, which cylinder", {}),
    "loop_capped": ("Loop", LOOP_CAPPED),
    "passed_to": ("Passed on to", {}),
    "told_how": ("How the customer was told", TOLD_HOW),
    "tag": ("Tag “A/C must not be run”", TAG),
    "reason": ("In own words", {}),
    "picked_up": ("Who picks the car up", PICKED_UP),
    "odometer_out": ("Odometer out", {}),
}


def answers_in_words(answers: Mapping[str, Any]) -> list[tuple[str, str]]:
    """What was told at an ending: (name, words), in the order of the form."""
    return [
        (name, in_words(code, answers))
        for code, (name, _) in QUESTIONS.items()
        if answers.get(code) not in (None, "", [])
    ]


def in_words(code: str, answers: Mapping[str, Any]) -> str:
    """One answer in words."""
    told = answers[code]
    if code == "odometer_out":
        unit = str(answers.get("odometer_out_unit", ""))
        return with_unit(shown(told, 0), unit) if unit else shown(told, 0)
    if code == "air":
        return str(told["shown"])
    if code == "carried_by":
        return ("step " if len(told) == 1 else "steps ") + ", ".join(str(one) for one in told)
    table = QUESTIONS[code][1]
    listed = told if isinstance(told, list) else [told]
    return ", ".join(words(dict(table), str(one)) for one in listed)


def ending_words(code: str) -> str:
    """An ending's name; empty for a job that is open."""
    return ENDINGS[code].words if code in ENDINGS else code
