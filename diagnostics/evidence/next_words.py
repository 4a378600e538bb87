"""Why a test is worth its minutes, in words."""

from collections.abc import Mapping

from diagnostics.evidence.kind import Kind
from diagnostics.evidence.plan import FIRST, NextTest
from diagnostics.evidence.verdict_words import BY_NAME


def reason(one: NextTest, kinds: Mapping[str, Kind], *, instead: bool = False) -> str:
    """Why a test is worth its minutes, in one sentence.

    What tells most is the one named first: what may be made `instead` does not claim it too.
    """
    about = BY_NAME[one.variable].words.lower()
    much = "of" if instead else "most about"
    if one.kind == FIRST:
        return "Nobody has seen yet whether it does what the customer says."
    if one.again:
        return "It does not go together with the other tests, so it is worth making again."
    if one.second and not instead:
        return f"What was found can be decided now. This looks for a second fault, in the {about}."
    if one.leads_to:
        opened = kinds[one.leads_to].title
        return f"It opens the way to “{opened}”, which tells {much} the {about}."
    if one.proves:
        return f"It may show by test whether the fault lies in the {about}."
    less = f"It tells of the {about}, less for its minutes."
    return less if instead else f"It tells most about the {about} for its minutes."
