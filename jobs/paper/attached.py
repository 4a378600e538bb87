"""What lies attached in a PDF that anybody may have made: read without running anything of it.

Only embedded files that are stored plainly or deflated are read, as our own papers have them
(ISO 32000-2:2020, 7.11.4, from memory). A file that another program packed in another way has no
readable attachment here; nothing is guessed of it.
"""

import json
import re
import zlib
from collections.abc import Iterator
from typing import Any

from jobs.paper.frozen import sha256

DATA_BYTES_MAX = 16 * 1024 * 1024  # 60 tests and 40 photos make under one: our judgement
FILES_MAX = 8
HEAD_MAX = 2000  # bytes of the dictionary before an embedded file's stream
EMBEDDED = re.compile(rb"/Type\s*/EmbeddedFile\b")
STREAM = re.compile(rb">>\s*stream(\r\n|\n)")
LENGTH = re.compile(rb"/Length\s+(\d{1,9})(?!\s+\d+\s+R)\b")


def is_pdf(data: bytes) -> bool:
    """Whether it begins as a PDF does, within its first kilobyte."""
    return b"%PDF-" in data[:1024]


def attached(pdf: bytes) -> Iterator[bytes]:
    """The files that lie in it, as far as they can be read, at most FILES_MAX of them."""
    for count, found in enumerate(EMBEDDED.finditer(pdf)):
        if count == FILES_MAX:
            return
        begins = STREAM.search(pdf, found.end(), found.end() + HEAD_MAX)
        if begins:
            opens = max(pdf.rfind(b" obj", max(0, found.start() - HEAD_MAX), found.start()), 0)
            content = unpacked(pdf[opens : begins.start()], pdf, begins.end())
            if content is not None:
                yield content


def unpacked(head: bytes, pdf: bytes, start: int) -> bytes | None:
    """The content of one stream, by its dictionary; None where it cannot be read or is too large.

    A deflated one ends where it says itself; a plain one needs a length.
    """
    if b"/Filter" not in head:
        told = LENGTH.search(head)
        size = int(told.group(1)) if told else DATA_BYTES_MAX + 1
        return pdf[start : start + size] if size <= DATA_BYTES_MAX else None
    if b"/FlateDecode" not in head or b"/DecodeParms" in head:
        return None
    reader = zlib.decompressobj()
    try:
        content = reader.decompress(memoryview(pdf)[start:], DATA_BYTES_MAX)
    except zlib.error:
        return None
    return content if reader.eof else None


def data_in(pdf: bytes) -> tuple[str, dict[str, Any]] | None:
    """The SHA-256 of the attached data of a record, and what they say; None: there are none."""
    for content in attached(pdf):
        try:
            told = json.loads(content)
        except (ValueError, RecursionError):
            continue
        if isinstance(told, dict) and isinstance(told.get("record"), dict):
            return sha256(content), told
    return None
