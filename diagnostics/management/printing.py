"""Lines to standard output, which may be closed by who reads them (`| head`)."""

import json
import os
import sys
from collections.abc import Iterable
from typing import Any

from django.core.management.base import OutputWrapper


def print_lines(out: OutputWrapper, lines: Iterable[str]) -> None:
    """Print each line as soon as it is there; a reader that has enough ends it quietly.

    A letter that the output's encoding does not have becomes a question mark.
    """
    encoding = sys.stdout.encoding or "utf-8"
    try:
        for line in lines:
            out.write(line.encode(encoding, "replace").decode(encoding))
            out.flush()
    except BrokenPipeError:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())  # what is still buffered goes nowhere at exit


def as_json(plain: Any) -> str:
    """JSON on one line, in letters that the output has; else in escapes."""
    text = json.dumps(plain, ensure_ascii=False, allow_nan=False)
    try:
        text.encode(sys.stdout.encoding or "utf-8")
    except UnicodeEncodeError:
        return json.dumps(plain, allow_nan=False)
    return text
