"""What a linter cannot see of the structure. The imports' order is in pyproject.toml."""

import ast
import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from django.apps import apps

from shopac.door import ENTRIES

PROGRAM = Path(__file__).resolve().parent.parent
ROOMS = ("shopac", "jobs", "diagnostics")
TOP = set(
    "README.md DEVELOPERS.md manage.py requirements.txt pyproject.toml "
    "shopac jobs diagnostics templates static tests".split()
)
WRITING = {
    "save", "create", "get_or_create", "update_or_create", "bulk_create", "update", "bulk_update",
    "delete", "asave", "acreate", "aget_or_create", "aupdate_or_create", "abulk_create", "aupdate",
    "abulk_update", "adelete", "execute", "executemany", "executescript",
    "raw", "add", "set", "clear", "remove", "aadd", "aset", "aclear", "aremove",
}  # fmt: skip
# Rows are written by actions and the logbook that calls them. Whatever else has a call of such a
# name is listed with its reason.
WRITERS = re.compile(r"(jobs|diagnostics)/(actions/\w+|actions|logbook)\.py")
OTHER_CALLS = {
    "diagnostics/forms/step.py:update": "what a form starts with",
    "diagnostics/weighing.py:set": "a conclusion, in a file that may be thrown away",
    "jobs/contacts.py:bulk_create": "contacts of tablets are no entries",
    "jobs/contacts.py:execute": "how long a write may wait",
    "jobs/contacts.py:update": "contacts of tablets are no entries",
    "jobs/forms/fields.py:add": "a set of names",
    "jobs/forget.py:bulk_update": "blanking, inside an entry's transaction",
    "jobs/forget.py:save": "blanking, inside an entry's transaction",
    "jobs/forget.py:update": "blanking, inside an entry's transaction",
    "jobs/paper/drawable.py:update": "a counter of characters",
    "jobs/paper/typeset.py:save": "a QR code into memory",
    "jobs/photos.py:bulk_create": "called by the logbook inside an entry's transaction",
    "jobs/photos.py:save": "a picture into memory",
    "jobs/photos.py:update": "a hash",
    "shopac/management/demo/photos.py:save": "a picture into memory",
    "jobs/pins.py:save": "counters of tries at sign-in are no entries",
    "jobs/pins.py:update": "counters of tries at sign-in are no entries",
    "jobs/search.py:execute": "a query",
    "jobs/views/kept_part.py:set": "a part of a page, in memory",
    "jobs/views/tablet.py:save": "the session",
    "shopac/backups/database.py:execute": "the copy of the database, and counting",
    "shopac/backups/opened.py:execute": "a check of the database file",
    "shopac/backups/tail.py:update": "a hash",
    "shopac/backups/unpacking.py:update": "a hash",
    "shopac/backups/writing.py:update": "a hash",
    "shopac/bench/crowd.py:bulk_create": "a benchmark's own database",
    "shopac/bench/open_jobs.py:create": "the first owner of a benchmark's database",
    "shopac/bench/run.py:execute": "a look at the tables",
    "shopac/management/commands/demo.py:create": "the first owner, as in begin.py",
    "shopac/management/commands/demo.py:update": "the mark of what is invented",
    "shopac/views/begin.py:create": "the first owner: an entry needs an author, and there is none",
    "shopac/prepare.py:execute": "a check of the database file",
    "shopac/prepare.py:update": "a hash",
    "shopac/wsgi.py:execute": "reading, so that the log is open",
}

# Functions outside actions that write rows, and who may name them.
ONLY_NAMED_BY = {
    "jobs.photos.record": {"jobs/logbook.py"},
    "jobs.forget.arrived": {"jobs/logbook.py"},
    "jobs.forget.take_out": {"jobs/actions/redact.py"},
    "jobs.forget.files_of": {"jobs/actions/redact.py"},
}


def files(*endings: str) -> list[Path]:
    """Our own files of these kinds, without migrations."""
    return [
        path
        for folder in (*ROOMS, "templates", "static", "tests")
        for path in sorted((PROGRAM / folder).rglob("*"))
        if path.suffix in endings and "migrations" not in path.parts
    ]


def inside(path: Path) -> str:
    return path.relative_to(PROGRAM).as_posix()


def room_files() -> list[Path]:
    return [path for path in files(".py") if path.relative_to(PROGRAM).parts[0] in ROOMS]


def lines_with(pattern: str, *endings: str) -> list[str]:
    """Where a pattern stands in our files; the tests, which name it to look for it, aside."""
    told = re.compile(pattern, re.IGNORECASE)
    return [
        f"{inside(path)}:{number}: {line.strip()}"
        for path in files(*endings)
        if not inside(path).startswith("tests/")
        for number, line in enumerate(path.read_text().splitlines(), 1)
        if told.search(line)
    ]


def test_nothing_else_lies_at_the_top():
    found = {path.name for path in PROGRAM.iterdir() if not path.name.startswith(".")}
    assert found - {"__pycache__", "test-results"} <= TOP


@pytest.mark.parametrize("package", ["diagnostics.physics", "diagnostics.evidence", "jobs.ledger"])
def test_the_core_is_imported_whole_where_there_is_no_django(package):
    program = f"""
import importlib, pkgutil, sys
sys.modules["django"] = None
top = importlib.import_module("{package}")
for found in pkgutil.walk_packages(getattr(top, "__path__", []), "{package}."):
    importlib.import_module(found.name)
print(*(name for name in sys.modules if name.startswith(("jobs.", "shopac"))))
"""
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=PROGRAM, capture_output=True, text=True, check=False
    )
    assert not done.returncode, done.stderr
    assert set(done.stdout.split()) <= {"jobs.ledger"}


@pytest.mark.parametrize("package", ROOMS)
def test_the_rooms_own_init_files_stay_empty(package):
    assert (PROGRAM / package / "__init__.py").read_text() == ""


def test_keys_point_from_diagnostics_to_jobs_and_never_back():
    back = [
        f"{model.__name__}.{field.name}"
        for model in apps.get_app_config("jobs").get_models(include_auto_created=True)
        for field in model._meta.get_fields()
        if not field.auto_created
        and isinstance(field.related_model, type)
        and field.related_model._meta.app_label in {"diagnostics", "shopac"}
    ]
    assert back == []


def test_migrations_of_jobs_wait_for_none_of_diagnostics():
    for path in (PROGRAM / "jobs" / "migrations").glob("*.py"):
        assert "diagnostics" not in path.read_text(), path.name


def test_jobs_names_nothing_of_diagnostics_in_a_text_either():
    """A name in a text (a model, a module to import) passes the contracts on imports by."""
    named = [
        f"{inside(path)}:{node.lineno}"
        for path in sorted((PROGRAM / "jobs").rglob("*.py"))
        for node in ast.walk(ast.parse(path.read_text()))
        if isinstance(node, ast.Constant)
        and re.match(r"diagnostics\b", str(node.value))
        and not str(node.value).startswith("diagnostics.physics")
    ]
    assert named == []


def test_no_module_is_imported_by_a_name_put_together():
    assert lines_with(r"import_module|__import__", ".py") == []


def test_no_column_lists_its_choices():
    listed = [
        f"{model.__name__}.{field.name}"
        for room in ROOMS
        for model in apps.get_app_config(room).get_models()
        for field in model._meta.concrete_fields
        if field.choices
    ]
    assert listed == []


def test_the_contract_of_the_rooms_names_every_part_of_diagnostics():
    told = tomllib.loads((PROGRAM / "pyproject.toml").read_text())
    contracts = {one["id"]: one for one in told["tool"]["importlinter"]["contracts"]}

    def names(layers: list[str]) -> set[str]:
        return {name for layer in layers for name in re.findall(r"[\w.]+", layer)}

    inner = {f"diagnostics.{name}" for name in names(contracts["diagnostics"]["layers"])}
    outer = names(contracts["rooms"]["layers"]) - {"shopac", "jobs"}
    assert outer == inner | {"diagnostics.apps", "diagnostics.migrations"}


# One way in: what writes rows.


def calls(program: str) -> set[str]:
    """The names of writing methods that a program calls."""
    return {
        node.func.attr
        for node in ast.walk(ast.parse(program))
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Attribute)
        and node.func.attr in WRITING
    }


def names(program: str) -> set[str]:
    """What a program imports, and what it takes out of imported modules, with dots."""
    tree = ast.parse(program)
    imported: dict[str, str] = {}
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom):
            imported |= {one.asname or one.name: f"{node.module}.{one.name}" for one in node.names}
        elif isinstance(node, ast.Import):
            imported |= {one.asname or one.name: one.name for one in node.names}
    found = set(imported.values())
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute):
            start, _, rest = ast.unparse(node).rpartition(".")
            found.add(f"{imported.get(start, start)}.{rest}")
    return found


def reaches_actions(program: str) -> bool:
    return any("actions" in name.split(".")[:2] for name in names(program))


def reached(program: str, path: str) -> list[str]:
    """The writers that a file names and may not."""
    return [one for one in names(program) & set(ONLY_NAMED_BY) if path not in ONLY_NAMED_BY[one]]


def test_rows_are_written_by_actions_and_the_logbook_only():
    found = {
        f"{inside(path)}:{call}"
        for path in room_files()
        if not WRITERS.fullmatch(inside(path))
        for call in calls(path.read_text())
    }
    assert found - set(OTHER_CALLS) == set()


def test_every_exception_from_that_is_still_needed():
    stale = [
        one
        for one in OTHER_CALLS
        if one.partition(":")[2] not in calls((PROGRAM / one.split(":")[0]).read_text())
    ]
    assert stale == []
    for name, files_ in ONLY_NAMED_BY.items():
        assert all(name in names((PROGRAM / one).read_text()) for one in files_), name


@pytest.mark.parametrize(
    "line",
    [
        "Job.objects.raw('DELETE FROM jobs_job')",
        "customer.jobs.set([])",
        "customer.jobs.clear()",
        "customer.jobs.remove(job)",
        "customer.jobs.add(job)",
    ],
)
def test_a_write_through_a_manager_is_seen(line):
    assert calls(line)


def test_no_page_and_no_form_reaches_past_the_logbook_to_an_action():
    reaching = [
        inside(path)
        for path in room_files()
        if {"views", "templatetags", "forms"} & set(path.parts)
        and reaches_actions(path.read_text())
    ]
    assert reaching == []


def test_what_writes_beside_the_actions_is_named_by_the_logbook_only():
    found = [one for path in room_files() for one in reached(path.read_text(), inside(path))]
    assert found == []


@pytest.mark.parametrize(
    "program",
    [
        "from jobs.actions.refold import refold",
        "from jobs.actions import refold",
        "from jobs import actions",
        "import jobs.actions.refold",
        "import jobs.actions.refold as search",
    ],
)
def test_an_action_named_in_a_page_is_seen(program):
    assert reaches_actions(program)


@pytest.mark.parametrize(
    "program",
    [
        "from jobs.photos import record",
        "from jobs.photos import record as place",
        "from jobs import photos\nphotos.record(entry, kept)",
        "import jobs.photos\njobs.photos.record(entry, kept)",
        "import jobs.photos as shown\nshown.record(entry, kept)",
    ],
)
def test_a_writer_named_in_a_page_is_seen(program):
    assert reached(program, "jobs/views/photos.py") == ["jobs.photos.record"]
    assert reached(program, "jobs/logbook.py") == []


@pytest.mark.parametrize("name", sorted(ENTRIES))
def test_an_entry_kind_is_listed_by_its_name_and_open_to_someone(name):
    kind = ENTRIES[name]
    assert kind.name == name
    assert kind.version >= 1
    assert kind.roles


# Words that must not stand anywhere.


def test_no_number_is_typed_into_a_box_that_changes_it():
    assert lines_with(r"NumberInput|type=[\"']?number", ".py", ".html", ".js") == []


def test_no_form_is_sent_past_its_listeners():
    assert lines_with(r"\.submit\(", ".js", ".html", ".py") == []


def test_no_page_has_style_or_script_of_its_own():
    inline = r"<style|\sstyle=|<script(?![^>]*\ssrc=)|\son[a-z]+=[\"']|javascript:"
    assert lines_with(inline, ".html") == []
    assert lines_with(inline, ".py") == []


def test_no_file_is_longer_than_400_lines():
    long = [
        inside(path)
        for path in files(".py", ".js", ".html", ".css")
        if len(path.read_text().splitlines()) > 400
    ]
    assert long == []


def test_no_module_is_called_utils():
    assert [inside(path) for path in files(".py") if re.search(r"util|helper", path.stem)] == []


def test_no_signal_connects_the_rooms():
    assert lines_with(r"db\.models\.signals|django\.dispatch|@receiver", ".py") == []
