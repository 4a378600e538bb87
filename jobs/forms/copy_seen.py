"""A copy under a key already taken, looked at."""

from django import forms

from jobs.forms.fields import EntryForm

NAME_MAX = 101  # a key, a colon and a fingerprint


class CopySeenForm(EntryForm):
    """Which copy was looked at (jobs.models.conflicts.copy_name)."""

    copy = forms.CharField(max_length=NAME_MAX)
