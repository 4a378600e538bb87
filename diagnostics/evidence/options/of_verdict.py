"""Shares and standings of the sets of answers that repairs cure, as the verdict gives them."""

from dataclasses import dataclass

from diagnostics.evidence.findings import Standing
from diagnostics.evidence.inference.verdict import LIKELY, Weighed
from diagnostics.evidence.options.option import Cures


@dataclass(frozen=True)
class OfVerdict:
    """The standings of a job's tests, in the form that options ask for.

    A set over several variables is put together from its parts, which is fast and claims less: it
    is proved where one part is, ruled out where all are.
    """

    weighed: Weighed

    def share_of(self, cures: Cures) -> float:
        """How likely it is that any of the answers is true."""
        if len(cures) == 1:
            return self.weighed.share(*next(iter(cures.items())))
        answers = self.weighed.plain.answers
        none = {
            name: [code for code in answers[name] if code not in codes]
            for name, codes in cures.items()
        }
        return 1 - self.weighed.joint(none)

    def standing_of(self, cures: Cures) -> Standing:
        """How it stands that any of the answers is true."""
        parts = {self.weighed.of_set({name: codes}).standing for name, codes in cures.items()}
        if "proved" in parts:
            return "proved"
        if parts == {"ruled_out"}:
            return "ruled_out"
        return "likely" if self.share_of(cures) >= LIKELY else "open"
