"""The typesetter in a process of its own: a request as JSON on standard input, the PDF on output.

Apart from the server because its memory of earlier papers grew to 170 MB there, and because a fault
in it must not end a server that holds other people's work. Starting it costs about 50 ms.
Run by path with nothing of the program imported; see jobs.paper.typeset.
"""

import json
import sys
from pathlib import Path
from typing import TypedDict

import typst


class Request(TypedDict):
    """Template's path, the fonts' folders, time in Unix seconds, texts for the template."""

    template: str
    folders: list[str]
    timestamp: int
    inputs: dict[str, str]


def press(request: Request) -> bytes:
    """Set one paper.

    Raises:
        typst.TypstError: the typesetter refused.

    """
    fonts = typst.Fonts(
        include_system_fonts=False,
        include_embedded_fonts=False,
        font_paths=[Path(folder) for folder in request["folders"]],
    )
    template = Path(request["template"])
    return typst.compile(
        template,
        root=template.parent,
        font_paths=fonts,
        ignore_system_fonts=True,
        format="pdf",
        pdf_standards=["a-3a", "ua-1"],
        timestamp=request["timestamp"],
        sys_inputs=request["inputs"],
    )


def main() -> int:
    """Read, set, write; a refusal goes to standard error as one line."""
    try:
        pdf = press(json.load(sys.stdin.buffer))
    except typst.TypstError as refused:
        sys.stderr.write(refused.message)
        return 1
    sys.stdout.buffer.write(pdf)
    return 0


if __name__ == "__main__":
    sys.exit(main())
