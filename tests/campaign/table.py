"""The result of a campaign as data and as a table."""

import argparse
import json
from pathlib import Path
from typing import Any

from tests.campaign.run import Campaign

KEPT = Path(__file__).resolve().parent.parent / "campaign.json"


def p95(values: list[float]) -> float | None:
    """The value that 19 of 20 do not exceed."""
    ordered = sorted(values)
    return round(ordered[min(len(ordered) - 1, int(len(ordered) * 0.95))], 1) if ordered else None


def result(campaign: Campaign, told: argparse.Namespace) -> dict[str, Any]:
    """All that is worth keeping of a run."""
    times = campaign.ledger.kept_in_ms
    return {
        "seed": told.seed,
        "tablets": told.tablets,
        "forms": dict(sorted(campaign.told.forms.items())),
        "faults": sum(campaign.told.faults.values()),
        "faults_by_kind": dict(sorted(campaign.told.faults.items())),
        "server_kills": campaign.crew.server_kills,
        "browser_kills": campaign.crew.browser_kills,
        "wrong": campaign.told.counts(),
        "sentences": campaign.told.wrong,
        "under_faults_ms_p95": {
            "tap to kept, text": p95([ms for photo, ms in times if not photo]),
            "tap to kept, photo": p95([ms for photo, ms in times if photo]),
        },
    }


def as_text(found: dict[str, Any]) -> str:
    """For people."""
    lines = [
        f"seed {found['seed']}, {found['tablets']} tablets, {found['seconds']} s",
        f"forms: {sum(found['forms'].values())} {found['forms']}",
        f"faults: {found['faults']}",
        f"server killed {found['server_kills']} times, browser {found['browser_kills']} times",
    ]
    lines += [f"  {number:4} x {name}" for name, number in found["faults_by_kind"].items()]
    lines += [f"{name}: {number}" for name, number in found["wrong"].items()]
    lines += [f"p95 ms, {name}: {ms}" for name, ms in found["under_faults_ms_p95"].items()]
    lines += [f"WRONG {name}: {one}" for name, told in found["sentences"].items() for one in told]
    for name in ("statements", "careless", "long", "goals"):
        lines += [f"{name}: {one}: {told}" for one, told in found.get(name, {}).items()]
    return "\n".join(lines)


def kept(path: Path) -> dict[str, Any]:
    """What the last run left."""
    found: dict[str, Any] = json.loads(path.read_text())
    return found


def keep(found: dict[str, Any], path: Path) -> int:
    """Write it; returns the exit code."""
    path.write_text(json.dumps(found, indent=1, ensure_ascii=False) + "\n")
    uncaught = [name for name, told in found.get("careless", {}).items() if not told]
    bad = [*filter(None, [*found["wrong"].values(), *found.get("long", {}).values()]), *uncaught]
    return 1 if bad or found.get("statements", {}).get("wrong") else 0
