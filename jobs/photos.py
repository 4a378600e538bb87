"""Photos on disk: verified, bounded, re-encoded, named by the hash of their bytes.

Two folders in the data folder, neither of them static: photos/ holds what is shown, originals/
holds the bytes of files that could not be read as a picture. A fact is never refused for its
photo: what cannot be read is kept and said.
"""

import hashlib
import io
import re
import threading
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, BinaryIO

from django.conf import settings
from django.core.files.uploadedfile import UploadedFile
from django.http import HttpRequest
from PIL import Image, ImageOps

from jobs.kept_bytes import store
from jobs.models import Entry, Photo

# Long side of what is shown: a page of paper at 300 dots per inch is wider than that in one place
# only; debris and data plates read well. Our judgement.
LONG_SIDE = 2400
# In lists: twelve of them weigh less than one photo. Our judgement.
SMALL_SIDE = 320
# Over these a picture is not unpacked. A JPEG is made smaller while it is read, line by line; a
# progressive one and any other kind has to be in memory whole. Measured: 150 MB for a JPEG of 99
# megapixels, 330 MB for a progressive one of 50, 450 MB for a transparent PNG of 50.
PIXELS_MAX = 100_000_000
PIXELS_MAX_WHOLE = 50_000_000
TOO_MANY = "Over {millions} million pixels, too many to show of this kind; the original is kept."
# A server answers with many threads; no more than two pictures are unpacked at the same time.
UNPACKING = threading.BoundedSemaphore(2)
READABLE = ("JPEG", "PNG", "WEBP", "GIF", "BMP", "TIFF", "MPO")
# The bound above is checked before anything is unpacked, so the library's own is not needed.
Image.MAX_IMAGE_PIXELS = None
UNKEEPABLE = re.compile("[\x00\ud800-\udfff]")
HEIF_BRANDS = (b"heic", b"heix", b"hevc", b"heim", b"heis", b"mif1", b"msf1", b"avif")


@dataclass(frozen=True)
class Sent:
    """One file as it was sent with an entry, with the hash of exactly these bytes."""

    field: str
    name: str
    sha256: str
    size: int
    type: str
    file: BinaryIO


@dataclass(frozen=True)
class Kept:
    """What became of a sent file: the copy that is shown, or why there is none."""

    sent: Sent
    stored_sha256: str = ""
    width: int | None = None
    height: int | None = None
    why: str = ""
    small_sha256: str = ""

    def listed(self) -> dict[str, str | int]:
        """The file's line in the logbook: what was sent, and under which hash it is shown."""
        sent = self.sent
        return {
            "field": sent.field,
            "name": sent.name,
            "sha256": sent.sha256,
            "size": sent.size,
            "type": sent.type,
            "stored_sha256": self.stored_sha256,
            "why": self.why,
        }


if TYPE_CHECKING:  # generic in its stubs only
    File = UploadedFile[Any]
else:
    File = UploadedFile


def posted_files(request: HttpRequest) -> list[tuple[str, File]]:
    """The files of a post, (field, file) each, in the order they came."""
    return [
        (name, file)
        for name in request.FILES
        for file in request.FILES.getlist(name)
        if isinstance(file, UploadedFile)
    ]


def sent_files(files: Iterable[tuple[str, File]]) -> list[Sent]:
    """Uploaded files, (field, file) each, as Sent with their hashes."""
    found = []
    for field, file in files:
        digest = hashlib.sha256()
        for chunk in file.chunks():
            digest.update(chunk)
        file.seek(0)
        name = named(file.name or "", 200)
        kind = (file.content_type or "")[:100]
        found.append(Sent(named(field, 40), name, digest.hexdigest(), file.size or 0, kind, file))  # type: ignore[arg-type]
    return found


def too_many(count: int, largest: int) -> str:
    """What is wrong with so many files, the largest of so many bytes; empty: nothing."""
    most, bytes_max = settings.PHOTOS_PER_ENTRY_MAX, settings.PHOTO_BYTES_MAX
    if count > most:
        return f"{count} photos: one entry takes {most}. Take the rest with another."
    if largest > bytes_max:
        megabytes = bytes_max // (1024 * 1024)
        return f"One of them is over {megabytes} MB, too large for here. Take it again, smaller."
    return ""


def named(text: str, length: int) -> str:
    """A field's or file's name as a column holds it: no NUL, no half of a letter, not too long."""
    return UNKEEPABLE.sub("\ufffd", text)[:length]


def keep(sent: Sent) -> Kept:
    """Put a sent file on disk, durably, as a picture to show or else as the original."""
    sent.file.seek(0)
    data = sent.file.read()
    with UNPACKING:
        shown, width, height, why = picture(data)
        small = b"" if why else smaller(shown, SMALL_SIDE)
    if not why:
        stored = store("photos", shown, ".jpg")
        return Kept(sent, stored, width, height, small_sha256=store("photos", small, ".jpg"))
    if data:
        store("originals", data, "")
    return Kept(sent, why=why)


def picture(data: bytes) -> tuple[bytes, int, int, str]:
    """Re-encode bytes as a JPEG without metadata, upright, its long side bounded.

    Returns the new bytes, width, height and an empty text; or, when the bytes are no picture that
    can be read, the sentence why.
    """
    if not data:
        return b"", 0, 0, "The file is empty (0 bytes); there is no picture in it."
    if data[4:8] == b"ftyp" and data[8:12] in HEIF_BRANDS:
        return b"", 0, 0, "HEIC pictures cannot be read here; the original file is kept."
    try:
        with Image.open(io.BytesIO(data), formats=READABLE) as opened:
            most = pixels_max(opened)
            if opened.width * opened.height > most:
                return b"", 0, 0, TOO_MANY.format(millions=most // 1_000_000)
            opened.draft("RGB", (LONG_SIDE, LONG_SIDE))
            opened.thumbnail((LONG_SIDE, LONG_SIDE))  # first: turning makes a copy
            shown = on_white(ImageOps.exif_transpose(opened))
    except Exception:  # noqa: BLE001 - a damaged file can raise anything inside a decoder
        return b"", 0, 0, "This file is not a picture that can be read; the original is kept."
    shown.info = {}  # a comment in it would be written along
    out = io.BytesIO()
    shown.save(out, "JPEG", quality=85, optimize=True)
    return out.getvalue(), shown.width, shown.height, ""


def smaller(shown: bytes, side: int, quality: int = 78) -> bytes:
    """A stored picture as a smaller JPEG, its long side bounded; never larger than it was."""
    with Image.open(io.BytesIO(shown), formats=("JPEG",)) as opened:
        opened.draft("RGB", (side, side))
        opened.thumbnail((side, side))
        opened.info = {}
        out = io.BytesIO()
        opened.save(out, "JPEG", quality=quality, optimize=True)
    return out.getvalue()


def pixels_max(opened: Image.Image) -> int:
    """How many pixels a picture of this kind may have."""
    by_line = opened.format in ("JPEG", "MPO") and not opened.info.get("progressive")
    return PIXELS_MAX if by_line else PIXELS_MAX_WHOLE


def on_white(image: Image.Image) -> Image.Image:
    """The picture without transparency: what was clear becomes white, not black."""
    if image.mode.startswith("I;16"):  # 16 bits of gray: cut off they would all be white
        image = image.convert("I").point(lambda value: value / 256).convert("L")
    if "A" not in image.getbands() and "transparency" not in image.info:
        return image.convert("RGB")
    clear = image.convert("RGBA")
    white = Image.new("RGBA", clear.size, "white")
    return Image.alpha_composite(white, clear).convert("RGB")


def record(entry: Entry, kept: Iterable[Kept]) -> None:
    """Write the rows of an entry's photos, inside its transaction."""
    Photo.objects.bulk_create(
        Photo(
            entry=entry,
            job_key=entry.job_key,
            number=number,
            field=one.sent.field,
            name=one.sent.name,
            sent_sha256=one.sent.sha256,
            sent_bytes=one.sent.size,
            stored_sha256=one.stored_sha256,
            width=one.width,
            height=one.height,
            why=one.why,
            small_sha256=one.small_sha256,
        )
        for number, one in enumerate(kept, start=1)
    )
