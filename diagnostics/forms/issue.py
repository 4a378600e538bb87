"""Freezing an issue of a job's record."""

from typing import Any
from urllib.parse import urlsplit

from django import forms
from django.conf import settings
from django.urls import reverse

from diagnostics.told import Asked
from jobs.forms.fields import Lines, OnJob

CHANGED_MISSING = "What changed since the issue before? A reader of both has to know why."
NOT_WHOLE = "This page’s form is not whole. Open the page again."
LONG = 2000


class IssueForm(OnJob):
    """Which issue, of how many entries; from the second on, what changed in the issuer's words."""

    issue = forms.IntegerField(required=False, widget=forms.HiddenInput)
    entries = forms.IntegerField(required=False, widget=forms.HiddenInput)
    address = forms.CharField(required=False, max_length=500, widget=forms.HiddenInput)
    changed = Lines(LONG, "What changed since the issue before?", "Stands on the paper.")

    def clean(self) -> dict[str, Any]:
        """A later issue says what changed."""
        said = super().clean()
        issue, entries = said.get("issue"), said.get("entries")
        if issue is None or entries is None:
            self.add_error(None, NOT_WHOLE)
        elif issue > 1 and not said.get("changed") and "changed" not in self.errors:
            self.add_error("changed", CHANGED_MISSING)
        return said

    def clean_address(self) -> str:
        """The address for the printed code: this job's page at a name of this shop, or none."""
        told = str(self.cleaned_data["address"])
        try:
            parts = urlsplit(told)
            known = parts.hostname in settings.HOSTS and parts.scheme in ("http", "https")
        except ValueError:
            return ""
        here = (parts.path, parts.query) == (reverse("job"), f"job={self.job_key}")
        plain = not parts.username and not parts.fragment
        return told if known and here and plain else ""

    def asked(self) -> Asked:
        """What is to be frozen."""
        told = self.cleaned_data
        return Asked(told["issue"], told["entries"], told["changed"], told["address"])
