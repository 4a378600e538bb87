"""The pictures of README.md: what each is of, and what has to be seen on it.

    .venv/bin/python -m tests.browser.screenshots

takes them anew from the demo. A run of the tests writes nothing: it opens the same pages and holds
them to `sees`, so a picture of what is no longer so cannot stay unnoticed.
"""

import io
import os
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import pytest
from PIL import Image

FOLDER = Path(__file__).parent / "pictures"
WRITE = "SHOPAC_PICTURES"
MOST = 600_000  # bytes of all together
COLORS = 48  # of a page without photos; its letters stay smooth
SAND, ABANTI = "R. Sand", "Noor Abanti"
CARROW, LAMP, TEASEL = "RW.5126C", "WE.3907B", "QD.3358T"


@dataclass(frozen=True)
class Picture:
    """A page as somebody has it before them: scrolled to `top`, after `done` (as in touch.Made)."""

    name: str
    who: str
    page: str
    plate: str
    sees: tuple[str, ...]
    at_the_desk: bool = False
    tall: int = 1280  # pixels, on a tablet
    top: str = "body"
    done: tuple[str, ...] = ()


PICTURES = (
    Picture(
        "board", ABANTI, "board", "",
        ("Can go on now", "KX.4731D", "Must not be run.", "Loop open, as far as is noted."),
        at_the_desk=True,
    ),
    Picture(
        "job", SAND, "job", LAMP,
        ("Command path", "The same plug with the 21 W lamp across it", "Failing now?", "Next step",
         "Power straight at the coil", "Instead"),
        tall=1580,
    ),
    Picture(
        "step", SAND, "step/feed_voltage", LAMP,
        ("What this shows so far", "8.7 V is lost on the way to the coil", "Record this step"),
        top="section.meaning",
        done=("load=lamp_21", "commanded=yes", "volts:5.1", "battery:13.8", "black=minus",
              "carries=yes"),
    ),
    Picture(
        "options", ABANTI, "options", TEASEL, ("What you pay now", "What you can choose"),
        at_the_desk=True,
    ),
    Picture(
        "grams", SAND, "recovery", CARROW,
        ("Every gram", "Unknown remainder", "it is not booked as lost."),
        tall=960, top="section.balance",
    ),
    Picture(
        "shown", SAND, "verification", CARROW, ("Before and after", "26 °C → 8 °C"),
        tall=690, top="h2:has-text('Before and after')",
    ),
)  # fmt: skip
# Page 1 of the record of that car, from the bytes that were frozen.
PAPER, PAPER_OF = "paper", CARROW
PAPER_SEES = ("It cools: 26 °C → 8 °C", "What we found", "What you could choose from")


def small(image: Image.Image) -> bytes:
    """A page as a small file."""
    out = io.BytesIO()
    image.convert("RGB").quantize(COLORS, dither=Image.Dither.NONE).save(out, "PNG", optimize=True)
    return out.getvalue()


def keep(taken: Mapping[str, Image.Image]) -> None:
    """Write them, where the command above asked for that."""
    if os.environ.get(WRITE):
        FOLDER.mkdir(exist_ok=True)
        for name, image in taken.items():
            (FOLDER / f"{name}.png").write_bytes(small(image))


if __name__ == "__main__":
    os.environ[WRITE] = "1"
    sys.exit(pytest.main([str(Path(__file__).with_name("test_screenshots.py"))]))
