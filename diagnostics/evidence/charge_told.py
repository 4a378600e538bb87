"""Whether the charge is known to be right: only if somebody tells so, never from a pressure."""

from collections.abc import Mapping

from diagnostics.evidence.fields import Answer, Choice

CHARGE_KNOWN = Choice(
    "charge_known", "Is the charge known to be right?",
    "A pressure does not tell it. Recovered grams are a lower bound.",
    (
        Answer("weighed_in", "Weighed in"),
        Answer("agrees", "Recovered and label agree"),
        Answer("not_known", "Not known"),
    ),
    condition=True,
)  # fmt: skip
UNKNOWN_CHARGE = "Charge: not known to be right; before it is, pressures point at no part."
WEIGH_FIRST = "Recover and weigh what is in it against the label, then repeat."

_HOW = {"weighed_in": "weighed in", "agrees": "recovered and label agree"}


def charge_known(told: Mapping[str, object]) -> str:
    """The code of how the charge is known to be right, or empty."""
    said = told.get(CHARGE_KNOWN.name)
    return said if isinstance(said, str) and said in _HOW else ""


def charge_words(told: Mapping[str, str]) -> str:
    """How the charge is known to be right, or empty."""
    return _HOW.get(told.get(CHARGE_KNOWN.name, ""), "")
