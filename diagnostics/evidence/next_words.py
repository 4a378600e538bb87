"""Why a test is worth its minutes, in words."""

from collections.abc import Mapping

from diagnostics.evidence.kind import Kind
from diagnostics.evidence.plan import FIRST, NextTest
from diagnostics.evidence.verdict_words import BY_NAME


def reason(one: NextTest, kinds: Mapping[str, Kind]) -> str:
    """Why a test is worth its minutes, in one sentence."""
    about = BY_NAME[one.variable].words.lower()
    if one.kind == FIRST:
        return "Nobody has seen yet whether it does what the customer says."
    if one.leads_to:
        return (
            f"It opens the way to «{kinds[one.leads_to].title}», which tells most about the"
            f" {about}."
        )
    if one.proves:
        return f"It can show what is wrong with the {about}, which is not shown yet."
    return f"It tells most about the {about} for its minutes."
