"""The text by which a job is found, in a table that no other subject has a reason to alter."""

from django.db import models

from jobs.models.jobs import Job


class FoundBy(models.Model):
    """The folded text of one job (jobs/search.py); the index of trigrams lies over this table.

    SQLite makes a table anew to alter a column, and triggers on it are gone then. Those of the
    index hang on this table, so that columns of a job can change without them.
    """

    job = models.OneToOneField(Job, models.CASCADE, primary_key=True, related_name="found_by")
    folded = models.TextField()

    def __str__(self) -> str:
        return f"{self.job_id}:{self.folded}"
