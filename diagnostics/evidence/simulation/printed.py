"""A campaign's result as lines of text."""

from collections.abc import Iterator, Mapping
from typing import Any


def campaign(one: Mapping[str, Any]) -> Iterator[str]:
    """One world and policy."""
    yield f"{one['world']}, {one['policy']}: {one['jobs']} jobs"
    for row in (*one["proofs"], *one["disagreements"]):
        yield share(row)
    for name, value in one["means"].items():
        yield f"  {name + ' per job':42} {value:10.2f}"
    if one["outside"]:
        told = one["outside"]
        yield (
            f"  something else, of {told['jobs']} causes outside the list: {told['at first']:.3f}"
            f" at first, {told['at last']:.3f} at last, rose in {told['rose']:.1%}"
        )
    for row in one["worst"]:
        yield (
            f"    {row['times']:4} × {row['standing']} {row['variable']}/{row['code']},"
            f" true {row['true']}, by {row['by'] or 'none alone'}"
        )
    yield "  most in doubt by the program's own shares:"
    for row in one["doubtful"]:
        answer, by = f"{row['variable']}/{row['code']}", row["by"] or "none alone"
        yield f"    {row['times']:4} × {answer} by {by}, {row['doubt']:.2%} against each"
    yield ""


def share(row: Mapping[str, Any]) -> str:
    """A share with its bound, and whether that is kept."""
    text = (
        f"  {row['what']:42} {row['wrong']:6} of {row['of']:7} = {row['share']:8.3%},"
        f" at most {row['bound']:8.3%}"
    )
    if row["doubted"] is not None and row["of"]:
        text += f", by its own shares {row['doubted'] / row['of']:7.3%}"
    if row["at_most"] is None:
        return text
    return f"{text}  under {row['at_most']:.1%}: {said(row)}"


def said(row: Mapping[str, Any]) -> str:
    """Whether what is asked is kept; too few may have been counted to tell."""
    if row["kept"]:
        return "kept"
    return "NOT KEPT" if row["share"] >= row["at_most"] else "too few to tell"


def reduced(one: Mapping[str, Any]) -> Iterator[str]:
    """How near the choice comes to the best there is, on a network small enough to know that."""
    yield (
        f"reduced network: {one['cost']:.2f} expected, best {one['optimum']:.2f}, deciding at once"
        f" {one['at_once']:.2f}: above the best by {one['above']:.2%}, at most {one['at_most']:.0%}"
    )
