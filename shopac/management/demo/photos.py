"""Photos of the demo: drawn here, so that no real car is in them, and told through the door."""

import hashlib
import io
from collections.abc import Callable, Iterator

from PIL import Image, ImageDraw, ImageFont

from jobs.photos import Sent
from shopac.management.demo.told import Line

SIZE = (1600, 1200)
# (name, job, who, hours ago, what is drawn, fields)
PHOTOS = (
    ("photo.front", "sorrel", "Noor Abanti", 4.9, "car", ("outside", "arrived", "")),
    ("photo.label", "sorrel", "R. Sand", 4.5, "label", ("label", "serial", "")),
    ("photo.nose", "sorrel", "R. Sand", 1.2, "clutch", ("clutch", "leak", "Oil around the hub")),
    ("photo.paste", "sorrel", "E. Quist", 0.8, "clutch", ("compressor", "before", "")),
    ("photo.whole", "carrow", "Noor Abanti", 53.9, "car", ("outside", "arrived", "")),
    ("photo.charge", "carrow", "R. Sand", 53.7, "label", ("label", "serial", "")),
    ("photo.wet", "carrow", "E. Quist", 50.7, "clutch", ("clutch", "leak", "Wet below the hub")),
    ("photo.worn", "carrow", "R. Sand", 51.5, "face", ("clutch", "before", "Blue, and worn")),
    ("photo.grams", "carrow", "E. Quist", 49.5, "scale", ("label", "before", "What came out")),
    ("photo.old", "carrow", "R. Sand", 28.2, "old", ("compressor", "old_part", "Its plate")),
    ("photo.new", "carrow", "R. Sand", 28.1, "new", ("compressor", "serial", "The new one")),
)


def photos() -> Iterator[tuple[Line, Sent]]:
    """Each as a line of the story, and its picture."""
    for name, job, who, hours_ago, what, (place, about, note) in PHOTOS:
        data = drawn(what)
        digest = hashlib.sha256(data).hexdigest()
        sent = Sent("photo", f"{what}.jpg", digest, len(data), "image/jpeg", io.BytesIO(data))
        fields = {"place": place, "about": about, "note": note}
        yield (name, hours_ago, who, "photo", job, fields), sent


def drawn(what: str) -> bytes:
    """A simple picture of that thing, as a JPEG."""
    image = Image.new("RGB", SIZE, "#8d9296")
    pen = ImageDraw.Draw(image)
    DRAWINGS[what](pen)
    out = io.BytesIO()
    image.save(out, "JPEG", quality=85)
    return out.getvalue()


def draw_car(pen: ImageDraw.ImageDraw) -> None:
    """A car from the front."""
    pen.rectangle((0, 900, 1600, 1200), fill="#55595c")
    pen.polygon([(480, 420), (1120, 420), (1240, 640), (360, 640)], fill="#dfe6ea")
    pen.rounded_rectangle((260, 620, 1340, 960), 60, fill="#6b7f72")
    pen.rounded_rectangle((560, 740, 1040, 860), 20, fill="#26292c")
    for left in (300, 1140):
        pen.ellipse((left, 680, left + 160, 800), fill="#f4f1df")
        pen.rectangle((left + 10, 940, left + 150, 1040), fill="#1c1e20")


def draw_label(pen: ImageDraw.ImageDraw) -> None:
    """A label with lines of writing."""
    pen.rounded_rectangle((200, 200, 1400, 1000), 30, fill="#f2efe2", outline="#26292c", width=8)
    for number in range(7):
        top = 290 + number * 95
        pen.rectangle((280, top, 1320 - number * 90, top + 34), fill="#3a3d40")


def draw_clutch(pen: ImageDraw.ImageDraw) -> None:
    """A compressor's clutch with a dark trace below the hub."""
    pen.rectangle((900, 280, 1500, 920), fill="#a7adb1")
    for radius, color in ((420, "#2c2f32"), (360, "#b9bec2"), (300, "#6a6f73"), (90, "#d0d4d7")):
        pen.ellipse((640 - radius, 600 - radius, 640 + radius, 600 + radius), fill=color)
    pen.polygon([(600, 690), (690, 690), (760, 1040), (560, 1040)], fill="#3f3a22")


def draw_face(pen: ImageDraw.ImageDraw) -> None:
    """A friction face with burnt rings."""
    draw_clutch(pen)
    for radius in (350, 334, 318, 306):
        box = (640 - radius, 600 - radius, 640 + radius, 600 + radius)
        pen.ellipse(box, outline="#2f3d63", width=7)


def plate(*lines: str) -> Callable[[ImageDraw.ImageDraw], None]:
    """A plate with lines to read."""

    def draw(pen: ImageDraw.ImageDraw) -> None:
        pen.rounded_rectangle(
            (180, 300, 1420, 900), 24, fill="#d8dad6", outline="#303336", width=10
        )
        for at, line in enumerate(lines):
            pen.text((260, 380 + at * 160), line, fill="#1d2022", font=ImageFont.load_default(96))

    return draw


DRAWINGS: dict[str, Callable[[ImageDraw.ImageDraw], None]] = {
    "car": draw_car,
    "label": draw_label,
    "clutch": draw_clutch,
    "face": draw_face,
    "scale": plate("Scale", "410 g"),
    "old": plate("Compressor", "S/N OC-118553", "R-134a  PAG 46"),
    "new": plate("Compressor", "S/N TC-771204", "R-134a  PAG 46"),
}
