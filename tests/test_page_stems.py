"""One stem for a screen: route, view file, template, test; and no room links past another."""

import re
from collections.abc import Iterator

import pytest
from django.urls import URLPattern, URLResolver, get_resolver

from tests.test_architecture import PROGRAM, ROOMS, inside

# Addresses that scripts ask, not people: they have no page of their own.
NO_PAGE = {"entries", "job_json", "manifest", "ping", "ring", "worker"}
# Files beside the pages in views/: what several pages share.
SHARED_BY_VIEWS = {
    "access",
    "answer",
    "asked",
    "held_post",
    "kept_file",
    "kept_part",
    "loop_work",
    "part",
    "posted",
    "priced",
    "tablet",
}
# Templates that answer for any page.
ANY_PAGE = {"not_for_you", "not_taken", "trouble"}


def routes(resolver: URLResolver, start: str = "") -> Iterator[tuple[str, URLPattern]]:
    for part in resolver.url_patterns:
        route = start + str(part.pattern)
        if isinstance(part, URLResolver):
            yield from routes(part, route)
        elif part.callback.__module__.split(".")[0] in ROOMS:
            yield route, part


ROUTES = list(routes(get_resolver()))
PAGES = [one for one in ROUTES if one[1].callback.__module__.split(".")[-1] not in NO_PAGE]


def stem(pattern: URLPattern) -> str:
    return pattern.callback.__module__.split(".")[-1]


@pytest.mark.parametrize(("route", "pattern"), PAGES, ids=[str(p.name) for _, p in PAGES])
def test_a_pages_name_is_its_view_file_and_its_address(route, pattern):
    page = stem(pattern)
    assert pattern.callback.__module__.split(".")[1:] == ["views", page]
    assert pattern.callback.__name__ == pattern.name
    assert pattern.name == page or pattern.name.startswith(f"{page}_")
    if route:  # the root address leads to the first page
        assert re.split(r"[/.]", route)[0] == page


@pytest.mark.parametrize(
    "pattern", [p for _, p in PAGES if p.name == stem(p)], ids=lambda p: p.name
)
def test_a_page_has_a_template_and_a_test_of_its_name(pattern):
    room = pattern.callback.__module__.split(".")[0]
    assert (PROGRAM / "templates" / room / f"{pattern.name}.html").exists()
    assert list((PROGRAM / "tests").rglob(f"test_{pattern.name}.py"))


def test_every_template_and_every_view_file_belongs_to_a_page():
    pages = {(p.callback.__module__.split(".")[0], stem(p)) for _, p in ROUTES}
    templates = {
        (path.parent.name, path.stem)
        for room in ROOMS
        for path in (PROGRAM / "templates" / room).glob("*.html")
        if not path.name.startswith("_")
    }
    views = {
        (path.parent.parent.name, path.stem)
        for room in ROOMS
        for path in (PROGRAM / room / "views").glob("*.py")
        if path.stem not in {"__init__", *SHARED_BY_VIEWS}
    }
    shared = {(room, name) for room in ROOMS for name in SHARED_BY_VIEWS | ANY_PAGE}
    assert templates - pages - shared == set()
    assert views - pages == set()


def test_the_pages_of_jobs_name_no_page_of_diagnostics():
    """What they show of it, links included, comes through its template tags."""
    others = {str(one.name) for _, one in ROUTES if one.callback.__module__.startswith("diagno")}
    assert others >= {"step", "issue"}
    named = [
        f"{inside(path)}: {name}"
        for path in sorted((PROGRAM / "templates" / "jobs").glob("*.html"))
        for name in re.findall(r"""{% *url +["']([\w:]+)["']""", path.read_text())
        if name in others
    ]
    assert named == []
