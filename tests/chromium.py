"""The Chromium that the browser tests drive."""

import os
import shutil
import sys
from pathlib import Path
from typing import Any

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
PLACES = (
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "C:/Program Files/Google/Chrome/Application/chrome.exe",
)
# A test's browser talks to the test's server and to nobody else.
QUIET = (
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


def find() -> str | None:
    """The path of the machine's own Chromium, or None."""
    for name in NAMES:
        found = shutil.which(name)
        if found:
            return found
    return next((place for place in PLACES if Path(place).exists()), None)


def launch_arguments() -> dict[str, Any]:
    """What to start it with; without a path the browser tool takes the one it downloaded."""
    arguments: dict[str, Any] = {"args": list(QUIET)}
    if sys.platform != "win32" and os.geteuid() == 0:
        arguments["args"].append("--no-sandbox")  # Chromium's own condition for running as root
    path = find()
    return {**arguments, "executable_path": path} if path else arguments
