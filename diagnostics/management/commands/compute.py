"""Run a computation by its name, or print what there is."""

import json
import sys
from collections.abc import Iterable, Iterator
from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from diagnostics.management.printing import as_json, print_lines
from diagnostics.physics.computations.answer import answer, described
from diagnostics.physics.computations.catalogue import COMPUTATIONS

FAILED = 2
HELP = """\
Run a computation and print the answer as JSON.

  compute dew_point temperature=25°C relative_humidity=60%
  compute --list dew_point
  compute - < lines.jsonl       {"name": "dew_point", "temperature": "25 °C", …} one a line

A number without a unit is in SI. A call that fails prints one object with "error" and "sentence"
and ends with 2; among lines such an object stands for its line, and the next is taken."""


class Command(BaseCommand):
    """`compute NAME key=value …`, `compute -`, `compute --list [NAME] [--json]`."""

    help = HELP
    requires_system_checks = ()  # it reads no table and no setting

    def create_parser(self, prog_name: str, subcommand: str, **kwargs: Any) -> CommandParser:
        """Keep the lines of the help as they are."""
        parser = super().create_parser(prog_name, subcommand, **kwargs)
        parser.usage = f"{prog_name} {subcommand} [NAME|-] [key=value …] [--list [NAME]] [--json]"
        return parser

    def add_arguments(self, parser: CommandParser) -> None:
        """Take a name with its inputs, or the wish for a list."""
        parser.add_argument("name", nargs="?", help="the computation; - for JSON lines")
        parser.add_argument("inputs", nargs="*", metavar="key=value")
        parser.add_argument("--list", nargs="?", const="", metavar="NAME", help="print what is")
        parser.add_argument("--json", action="store_true", help="the list as JSON")

    def handle(self, *_args: object, **options: Any) -> None:
        """Print the list, the one answer, or an answer a line."""
        name, inputs, listed = options["name"], options["inputs"], options["list"]
        if listed is not None:
            self._list(listed or name or "", in_json=options["json"])
        elif name == "-" or (name is None and _piped()):
            print_lines(self.stdout, map(as_json, _answers(sys.stdin.buffer if sys.stdin else ())))
        elif name is None:
            self._single(_fault("unasked", "Name a computation; --list shows them all."))
        else:
            self._single(_called(name, inputs))

    def _list(self, name: str, *, in_json: bool) -> None:
        if name and name not in COMPUTATIONS:
            self._single(answer(name, {}))
        chosen = [COMPUTATIONS[name]] if name else COMPUTATIONS.values()
        form = as_json if in_json else _as_text
        print_lines(self.stdout, (form(described(one)) for one in chosen))

    def _single(self, found: dict[str, Any]) -> None:
        print_lines(self.stdout, [as_json(found)])
        if "error" in found:
            sys.exit(FAILED)


def _piped() -> bool:
    return sys.stdin is not None and not sys.stdin.isatty()


def _fault(code: str, sentence: str, name: str = "") -> dict[str, Any]:
    return {"name": name, "error": code, "sentence": sentence}


def _called(name: str, inputs: Iterable[str]) -> dict[str, Any]:
    """The answer to a name with key=value words."""
    told: dict[str, str] = {}
    for word in inputs:
        key, equals, value = word.partition("=")
        if not equals or not key:
            return _fault("unasked", f"“{word}” is no input: write key=value.", name)
        if key in told:
            return _fault("unasked", f"{key} is given twice.", name)
        told[key] = value
    return answer(name, told)


def _answers(lines: Iterable[bytes]) -> Iterator[dict[str, Any]]:
    """One answer for each line that is not empty."""
    for line in lines:
        if line.strip():
            yield _answered(line)


def _answered(line: bytes) -> dict[str, Any]:
    try:
        told = json.loads(line.decode("utf-8-sig"))
    except (ValueError, RecursionError):
        return _fault("malformed", "The line is no JSON object.")
    if not isinstance(told, dict) or not isinstance(told.get("name"), str):
        return _fault("malformed", 'The line is no JSON object with a "name".')
    name = told.pop("name")
    nested = told.pop("inputs", {})  # inputs may stand in an object of their own
    if not isinstance(nested, dict) or nested.keys() & told.keys():
        return _fault("malformed", '"inputs" is no JSON object, or repeats an input.', name)
    return answer(name, told | nested)


def _as_text(plain: dict[str, Any]) -> str:
    lines = [f"{plain['name']}: {plain['words']}"]
    for one in plain["inputs"]:
        about = [one["range"]]
        if one["reference"]:
            about.append(one["reference"])
        if one["default"] == "":
            about.append("may be left out")
        elif not one["required"]:
            about.append(f"{one['default']} unless told")
        lines.append(f"    {one['name']}: {one['words']} ({', '.join(about)})")
    unit = plain["unit"].removeprefix("Δ")
    lines.append(f"    gives: {unit or 'a bare number, or what the inputs say'}")
    lines.append(f"    source: {plain['source']}")
    return "\n".join((*lines, "\n"))
