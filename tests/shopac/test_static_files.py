"""Static files go out without comments, and do the same."""

import re
from pathlib import Path

import pytest
from django.contrib.staticfiles import finders
from django.core.management import call_command

from shopac.static_files import OURS, bare

STATIC = Path(__file__).resolve().parents[2] / "static"
SCRIPTS = sorted(STATIC.rglob("*.js"))
STYLES = sorted(STATIC.rglob("*.css"))
TEXT = re.compile(r"`(?:[^`\\]|\\.)*`", re.DOTALL)


def without_words(line: str) -> str:
    """A line without a type in it and without what is said behind its code."""
    before, types, rest = line.partition("/** @type ")
    if types:
        return without_words(before + rest.partition("*/")[2].lstrip(" "))
    code, _, words = line.partition(" // ")
    quoted = any(quote in words for quote in "\"'`")
    return line if quoted else code.rstrip()


@pytest.mark.parametrize("path", SCRIPTS, ids=lambda path: path.name)
def test_no_text_in_a_script_goes_over_several_lines(path):
    assert [one for one in TEXT.findall(path.read_text()) if "\n" in one] == []


@pytest.mark.parametrize("path", [*SCRIPTS, *STYLES], ids=lambda path: path.name)
def test_of_a_bare_file_nothing_but_comments_and_indents_is_gone(path):
    lines = [without_words(line.strip()) for line in path.read_text().splitlines()]
    left = bare(path.name, path.read_text()).splitlines()
    gone = [line for line in lines if line and line not in left]
    assert [
        line for line in gone if not re.match(r"/\*|\*|//", line) and path.suffix == ".js"
    ] == []
    assert [line for line in left if line not in lines and line.strip() not in lines] == []
    assert not re.search(r"^\s*(//|/\*)", "\n".join(left), re.MULTILINE)


def test_the_collected_files_are_bare_and_those_of_others_are_whole(settings, tmp_path):
    settings.STATIC_ROOT = tmp_path
    backend = "shopac.static_files.Storage"
    settings.STORAGES = settings.STORAGES | {"staticfiles": {"BACKEND": backend}}
    call_command("collectstatic", interactive=False, verbosity=0)
    ours, theirs = tmp_path / "offline" / "outbox.js", "django_htmx/htmx-2.min.js"
    assert "/**" not in ours.read_text()
    assert (tmp_path / theirs).read_bytes() == Path(finders.find(theirs) or "").read_bytes()
    assert list(tmp_path.glob("offline/outbox.*.js.gz"))
    assert OURS.fullmatch("css/mm.css")
