"""What was tapped and what pages said of it: kept by the test, apart from tablet and server."""

import time
from dataclasses import dataclass, field


@dataclass
class Tap:
    """One form as it was filled: `mg` are milligrams that go into the car."""

    key: str
    job: str
    kind: str
    tablet: str
    fields: dict[str, str]
    photo: str = ""
    photo_bytes: int = 0
    mg: int = 0
    number: int = 0


@dataclass
class Ledger:
    """All taps of a campaign in their order, and what the pages called kept."""

    taps: dict[str, Tap] = field(default_factory=dict)
    kept_in_ms: list[tuple[bool, float]] = field(default_factory=list)  # with a photo or not
    first_ack_s: list[float] = field(default_factory=list)
    began: float = field(default_factory=time.monotonic)

    def tapped(self, tap: Tap) -> None:
        """It is about to be tapped."""
        tap.number = len(self.taps)
        self.taps[tap.key] = tap

    def jobs(self, tablet: str) -> list[str]:
        """The cars that were taken in on a tablet."""
        return [
            one.key for one in self.taps.values() if one.kind == "intake" and one.tablet == tablet
        ]
