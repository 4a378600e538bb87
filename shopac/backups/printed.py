"""How far it is, printed for somebody who waits at a command line."""

from collections.abc import Callable
from pathlib import Path
from time import monotonic

from shopac.backups.known import Told
from shopac.backups.writing import in_words

EACH = 3.0  # seconds between two lines


class Printed(Told):
    """Prints a line now and then. `keeps`: the page is told, too."""

    def __init__(self, data: Path, say: Callable[[str], object], *, keeps: bool = True) -> None:
        super().__init__(data, keeps=keeps)
        self.say = say
        self.begun: tuple[str, float] = ("", 0.0)

    def said(self, words: str, done: int, of: int) -> None:
        """A line where something else begins, or three seconds later."""
        last, at = self.begun
        if words == last and monotonic() - at < EACH:
            return
        self.begun = (words, monotonic())
        self.say(f"{words}: {in_words(done)} of {in_words(of)}" if of else f"{words} ...")
