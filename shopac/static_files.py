"""Static files as a shop serves them: ours go out without their comments and indents.

A third of our scripts are words for who reads them next; a tablet at the edge of the network need
not load those. Lines stay lines: what a browser says of one is found again by its words.
"""

import re
from typing import Any

from django.core.files.base import ContentFile
from whitenoise.storage import CompressedManifestStaticFilesStorage  # type: ignore[import-untyped]

OURS = re.compile(r"(js|offline|css)/[^/]+\.(js|css)")
BLOCK = re.compile(r"^[ \t]*/\*.*?\*/[ \t]*\n", re.MULTILINE | re.DOTALL)
LINE = re.compile(r"^[ \t]*//[^\n]*\n", re.MULTILINE)
# In a line: a type, and words behind code; no quote follows, so they stand in no text.
TYPE = re.compile(r"/\*\* @type [^*]*\*/ ?")
BEHIND = re.compile(r"[ \t]+// [^\"'`\n]*$", re.MULTILINE)
INDENT = re.compile(r"^[ \t]+|^\n", re.MULTILINE)


def bare(name: str, text: str) -> str:
    """The file without comments, indents and empty lines.

    A text that went over several lines would lose its indents: none of our scripts has one, which
    tests/shopac/test_static_files.py holds them to.
    """
    text = BLOCK.sub("", text)
    if name.endswith(".js"):
        text = BEHIND.sub("", TYPE.sub("", LINE.sub("", text)))
    return INDENT.sub("", text)


class Storage(CompressedManifestStaticFilesStorage):  # type: ignore[misc]
    """Collects our files bare, then names them by their content and compresses them, as it does."""

    def _save(self, name: str, content: Any) -> str:
        if OURS.fullmatch(name.replace("\\", "/")):
            content.seek(0)
            read = content.read()
            text = read.decode() if isinstance(read, bytes) else read
            content = ContentFile(bare(name, text).encode())
        return str(super()._save(name, content))
