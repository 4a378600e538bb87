"""The pictures of a record as they are put on paper: the kept ones by their hash, smaller.

A record of a long job has many: so that its file stays one that can be sent, they are made smaller
the more there are, and beyond the first MOST they are listed only.
"""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from jobs.kept_bytes import place
from jobs.photos import smaller

# Long side in pixels by how many there are: 85 mm at 300 dots per inch is 1000. Our judgement.
SIDES = ((24, 1000), (48, 700))
MOST = 48
QUALITY = 75
GONE = "its file is not on the shop server’s disk any more"
TOO_MANY = f"listed only: {MOST} are printed"


def put_beside(data: Mapping[str, Any], folder: Path) -> dict[str, dict[str, str]]:
    """Write the pictures of frozen data into a folder, for the typesetter.

    Returns by a photo's number its `file` there, or `why` it is not printed.
    """
    told: dict[str, dict[str, str]] = {}
    printed = [one for one in data["photos"] if one["shown"] and not one["personal"]]
    side = next((side for most, side in SIDES if len(printed) <= most), SIDES[-1][1])
    for at, one in enumerate(printed):
        told[str(one["number"])] = (
            one_beside(one["shown"], folder, side) if at < MOST else {"why": TOO_MANY}
        )
    return told


def one_beside(digest: str, folder: Path, side: int) -> dict[str, str]:
    """One picture in the folder, or why it is not."""
    file = folder / f"{digest}.jpg"
    try:
        if not file.exists():
            file.write_bytes(smaller(place("photos", digest, ".jpg").read_bytes(), side, QUALITY))
    except OSError:
        return {"why": GONE}
    return {"file": file.name}
