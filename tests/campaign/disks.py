"""Disks that can lose their power, and small ones that get full. Linux, as root.

A `Disk` is an ext4 file system in a file of its own, mounted through a loop device. What a program
wrote without waiting for the disk lies in the machine's memory and not in that file: so a copy of
the file, taken when every writer was killed, is what a power cut would leave. Nothing is emulated
but the moment. What it cannot show: a device that says "written" while it is not, and sectors torn
within.
"""

import contextlib
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

# The journal waits for nobody: what nobody asked to be on the disk is not there.
OPTIONS = "loop,noatime,commit=300,noauto_da_alloc"


class NoDisk(RuntimeError):
    """This machine refuses to mount; the sentence says what was tried and what it answered."""


def command(*words: str) -> None:
    """Run one; raises NoDisk with its own words when it fails."""
    try:
        done = subprocess.run(words, capture_output=True, text=True, check=False)
    except OSError as error:
        raise NoDisk(f"«{' '.join(words)}»: {error}") from None
    if done.returncode:
        raise NoDisk(f"«{' '.join(words)}» answered: {(done.stderr or done.stdout).strip()}")


class Disk:
    """A disk of its own for one folder."""

    def __init__(self, place: Path, megabytes: int = 400) -> None:
        self.place = place
        self.image = place.with_name(f"{place.name}.img")
        with self.image.open("wb") as file:
            file.truncate(megabytes * 1024 * 1024)
        command("mkfs.ext4", "-q", "-F", str(self.image))
        place.mkdir(parents=True)
        self.mount()

    def mount(self) -> None:
        """Open it; the file system mends itself from its journal, as after a power cut."""
        command("mount", "-o", OPTIONS, str(self.image), str(self.place))

    def lose_power(self) -> None:
        """Whoever wrote on it was killed before: only what had reached the disk is there now."""
        left = self.image.with_suffix(".left")
        command("cp", "--sparse=always", str(self.image), str(left))
        command("umount", "-l", str(self.place))
        left.replace(self.image)
        self.mount()

    def sync(self) -> None:
        """All that was written so far is on the disk."""
        command("sync", "-f", str(self.place))

    def close(self) -> None:
        """Take it away."""
        with contextlib.suppress(NoDisk):
            command("umount", "-l", str(self.place))
        self.image.unlink(missing_ok=True)


@contextlib.contextmanager
def small(place: Path, megabytes: int) -> Iterator[Path]:
    """A folder on a disk of so many megabytes."""
    place.mkdir(parents=True, exist_ok=True)
    command("mount", "-t", "tmpfs", "-o", f"size={megabytes}m", "tmpfs", str(place))
    try:
        yield place
    finally:
        command("umount", "-l", str(place))


def fill_up(place: Path, leave: int) -> Path:
    """Fill a disk up to so many bytes that are left; returns the file to take away again."""
    filler = place / "filler"
    with filler.open("wb") as file:
        size = max(0, shutil.disk_usage(place).free - leave)
        file.write(b"\0" * size)
    return filler
