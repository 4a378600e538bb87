"""Pictures to send with entries: real JPEG and other files, made here, each another one."""

import hashlib
import io
from typing import Any

from PIL import Image, ImageDraw

from jobs.photos import Sent


def jpeg(seed: int = 0, width: int = 640, height: int = 480, **save: Any) -> bytes:
    """A picture with a pattern of its own, so that no two have one hash."""
    image = Image.new("RGB", (width, height), (90, 20 + seed * 7 % 200, 160))
    pen = ImageDraw.Draw(image)
    for number in range(seed % 12 + 3):
        left = number * width // 16
        pen.rectangle((left, 10, left + width // 32, height - 10), fill=(240, 220, seed * 31 % 255))
    out = io.BytesIO()
    image.save(out, "JPEG", **save)
    return out.getvalue()


def noisy(width: int, height: int, quality: int = 95) -> bytes:
    """A picture that no encoder gets small, as a camera's are."""
    image = Image.effect_noise((width, height), 90).convert("RGB")
    out = io.BytesIO()
    image.save(out, "JPEG", quality=quality)
    return out.getvalue()


def sent(data: bytes, name: str = "a.jpg") -> Sent:
    """A file as it was sent with an entry."""
    digest = hashlib.sha256(data).hexdigest()
    return Sent("photo", name, digest, len(data), "image/jpeg", io.BytesIO(data))
