"""The documents name what is there."""

import re
from pathlib import Path

import pytest

from shopac import start
from shopac.management.commands.demo import STORY
from shopac.management.demo.story import PEOPLE

PROGRAM = Path(__file__).resolve().parent.parent
README = (PROGRAM / "README.md").read_text()
DEVELOPERS = (PROGRAM / "DEVELOPERS.md").read_text()
ROOMS = ("shopac", "jobs", "diagnostics")
COMMANDS = ("python3 -m shopac", "python3 -m shopac test")


def sections(text: str) -> dict[str, str]:
    parts = re.split(r"^## (.+)$", text, flags=re.MULTILINE)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


def listed_files(section: str) -> list[str]:
    """The paths at the beginning of a list's points."""
    return re.findall(r"^- `([^`]+)`:", section, flags=re.MULTILINE)


def as_pattern(path: str) -> str:
    return re.sub(r"<[a-z]+>", "*", path)


HOW_TO = {name: text for name, text in sections(DEVELOPERS).items() if name.startswith("How to")}
FILES = [(name, path) for name, text in HOW_TO.items() for path in listed_files(text)]
NAMED = sorted(
    set(re.findall(r"`([\w./-]+\.(?:py|txt|toml|md|html|css|js))`", DEVELOPERS + README))
)


@pytest.mark.parametrize("command", COMMANDS)
def test_the_readme_shows_both_commands_on_lines_of_their_own(command):
    assert f"\n    {command}\n" in README


def test_the_readme_lists_the_options_that_there_are(capsys):
    with pytest.raises(SystemExit):
        start.read_options(["--help"])
    offered = set(re.findall(r"--[a-z-]+", capsys.readouterr().out)) - {"--help", "--version"}
    assert set(re.findall(r"^\| `(--[a-z-]+)", README, flags=re.MULTILINE)) == offered


def test_the_readme_names_each_car_of_the_demo_and_no_other():
    plates = {str(fields["plate"]) for *_, kind, _, fields in STORY if kind == "intake"}
    assert set(re.findall(r"\b[A-Z]{2}\.\d{4}[A-Z]\b", README)) == plates


@pytest.mark.parametrize(("name", "pin", "password"), [(one[0], *one[2:]) for one in PEOPLE])
def test_the_readme_has_the_sign_ins_of_the_demo(name, pin, password):
    assert re.search(rf"^\| {name} \| [\w ]+ \| {pin} \| {password}", README, flags=re.MULTILINE)


def test_there_is_a_list_for_a_kind_a_page_and_an_entry():
    assert {"How to add a test kind", "How to add a page", "How to add an entry"} <= set(HOW_TO)
    assert all(len(listed_files(text)) >= 3 for text in HOW_TO.values())


@pytest.mark.parametrize(("name", "path"), FILES)
def test_a_file_in_a_list_of_how_to_add_exists(name, path):
    assert list(PROGRAM.glob(as_pattern(path))), f"{name}: {path}"


@pytest.mark.parametrize("path", NAMED)
def test_a_file_named_in_the_documents_exists(path):
    assert (PROGRAM / path).exists() or list(PROGRAM.glob(f"*/{path}")), path


def named_in_room(room: str) -> set[str]:
    """The files that a room's own README names, by their place in the room."""
    return set(re.findall(r"`([\w/-]+\.py)`", (PROGRAM / room / "README.md").read_text()))


@pytest.mark.parametrize("room", ROOMS)
def test_a_file_named_on_the_page_of_a_room_is_in_it(room):
    assert [path for path in named_in_room(room) if not (PROGRAM / room / path).exists()] == []


@pytest.mark.parametrize("room", ROOMS)
def test_the_page_of_a_room_names_each_module_at_its_top(room):
    modules = {path.name for path in (PROGRAM / room).glob("*.py")} - {"__init__.py", "apps.py"}
    assert modules - named_in_room(room) == set()


def test_ci_runs_the_command_of_the_readme():
    assert COMMANDS[1] in (PROGRAM / ".ci" / "run").read_text()
