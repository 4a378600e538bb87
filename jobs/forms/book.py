"""Which lines of the refrigerant book somebody asks for."""

from typing import Any
from urllib.parse import urlencode

from django import forms
from django.http import QueryDict

from diagnostics.physics.refrigerants import NAMES
from jobs.forms.day import Day
from jobs.forms.fields import Line
from jobs.models import Cylinder, Job, Person
from jobs.models.book import SORTS, Asked
from jobs.told import as_key

EVERY = ("", "Any")
FIELDS = ("cylinder", "person", "gas", "sort", "job", "since", "until", "taken_back")


class BookForm(forms.Form):
    """What narrows the book; what cannot be read narrows nothing, and the form says so."""

    use_required_attribute = False
    cylinder = forms.ChoiceField(label="Cylinder", required=False)
    person = forms.ChoiceField(label="Entered by", required=False)
    gas = forms.ChoiceField(label="Refrigerant", required=False)
    sort = forms.ChoiceField(label="What moved", required=False)
    job = Line(40, "Job", "Its number.")
    since = Day("From")
    until = Day("Until")
    taken_back = forms.BooleanField(label="Show also what was taken back", required=False)

    def __init__(self, data: QueryDict, **kwargs: Any) -> None:
        super().__init__(data, **kwargs)
        cylinders = Cylinder.objects.values_list("key", "name")
        people = Person.objects.order_by("name").values_list("key", "name")
        self.choose("cylinder", [(key.hex, name) for key, name in cylinders])
        self.choose("person", [(key.hex, name) for key, name in people])
        self.choose("gas", [(name, name) for name in NAMES])
        self.choose("sort", [(code, words) for code, (words, _) in SORTS.items()])

    def choose(self, name: str, choices: list[tuple[str, str]]) -> None:
        """Give a field its answers."""
        field = self.fields[name]
        if isinstance(field, forms.ChoiceField):
            field.choices = [EVERY, *choices]

    def clean_job(self) -> Job | None:
        """The job of a number."""
        number = self.cleaned_data["job"]
        found = Job.objects.filter(number=number).first() if number else None
        if number and found is None:
            raise forms.ValidationError("No job has this number.")
        return found

    def asked(self) -> Asked:
        """What is asked for, as far as it can be read."""
        self.is_valid()
        told = self.cleaned_data
        job = told.get("job")
        return Asked(
            cylinder=as_key(told.get("cylinder")),
            job=job.key if job else None,
            person=as_key(told.get("person")),
            gas=told.get("gas", ""),
            sort=told.get("sort", ""),
            since=told.get("since"),
            until=told.get("until"),
            taken_back=bool(told.get("taken_back")),
        )

    @property
    def narrowed(self) -> bool:
        """Whether anything is asked for."""
        return any(self.data.get(name) for name in FIELDS)

    def query(self) -> str:
        """What is asked for, as it stands in an address."""
        return urlencode([(one, self.data[one]) for one in FIELDS if self.data.get(one)])
