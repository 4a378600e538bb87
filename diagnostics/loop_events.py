"""One thing that tells of the loop, at its moment."""

from dataclasses import dataclass
from datetime import datetime

from jobs.models.wordings import in_shop_time


@dataclass(frozen=True)
class Event:
    """Something seen of the loop, done to it or told of it.

    `what` is the change, which gas was put in, or how it was told; `by` who told it, "" where it
    was read or noted.
    """

    moment: datetime
    code: str
    what: str = ""
    by: str = ""

    @property
    def at(self) -> str:
        """When, with the day: a page kept on a tablet may be read on another one."""
        return in_shop_time(self.moment)

    def said(self, words: dict[str, str]) -> str:
        """The event in the words of such a table."""
        return words[self.code].format(at=self.at, what=self.what, by=self.by)
