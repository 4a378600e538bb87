"""What a photo's page says of the test it came with, and to which others it can be told."""

from collections.abc import Iterable

from django import template

from diagnostics.assess import Assessed
from jobs.models import Photo

register = template.Library()


@register.simple_tag
def photo_step(made: Iterable[Assessed], photo: Photo) -> str:
    """The test a photo belongs to, in words; empty: to none."""
    return next((named(one) for one in made if one.step.key == photo.step_of), "")


@register.simple_tag
def steps_to_choose(made: Iterable[Assessed], photo: Photo) -> list[tuple[str, str]]:
    """The tests of the job as answers, key and words; none where it came with one, or none is."""
    listed = list(made)
    if not listed or any(one.step.key == photo.entry.key for one in listed):
        return []
    return [("", "No test"), *((str(one.step.key), named(one)) for one in listed)]


def named(one: Assessed) -> str:
    """A test by its number and title."""
    return f"Step {one.step.number}, {one.title}"
