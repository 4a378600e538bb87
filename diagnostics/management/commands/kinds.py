"""Print every kind of test: what it asks, in which units, and how it can come out."""

from collections.abc import Iterator, Mapping
from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from diagnostics.evidence.catalogue import KINDS
from diagnostics.management.printing import as_json, print_lines

_CALLED = ("name", "code", "field", "question", "words")


class Command(BaseCommand):
    """`kinds [--json]`."""

    help = "Print every kind of test with its fields, units and outcomes."
    requires_system_checks = ()  # it reads no table and no setting

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the wish for JSON."""
        parser.add_argument("--json", action="store_true", help="whole, as one JSON list")

    def handle(self, *_args: object, **options: Any) -> None:
        """Print all kinds in the order of the catalogue."""
        plain = [kind.as_json() for kind in KINDS.values()]
        lines = [as_json(plain)] if options["json"] else map(_as_text, plain)
        print_lines(self.stdout, lines)


def _as_text(kind: Mapping[str, Any]) -> str:
    return "\n".join((*_lines(kind), "\n"))


def _lines(kind: Mapping[str, Any]) -> Iterator[str]:
    yield f"{kind['name']}: {kind['title']}. {kind['question']}"
    for name, value in kind.items():
        if name in ("name", "title", "question") or not _is_set(value):
            continue
        if isinstance(value, list):
            yield f"  {name}:"
            yield from (f"    {_line(one)}" for one in value)
        else:
            yield f"  {name}: {_line(value)}"


def _line(value: object) -> str:
    """A field, answer, outcome or whatever a kind has, with all that is set of it, on one line.

    What it is called stands first, its question or words behind.
    """
    if isinstance(value, Mapping):
        called = [str(value[name]) for name in _CALLED if _is_set(value.get(name))]
        parts = [
            f"{name} {_inner(one)}"
            for name, one in value.items()
            if name not in _CALLED and _is_set(one)
        ]
        return ", ".join([": ".join(called)] * bool(called) + parts)
    return "; ".join(map(_line, value)) if isinstance(value, list) else str(value)


def _inner(value: object) -> str:
    if isinstance(value, Mapping):
        return f"({_line(value)})"
    return f"[{_line(value)}]" if isinstance(value, list) else str(value)


def _is_set(value: object) -> bool:
    return value is not None and value is not False and value not in ("", [], {})
