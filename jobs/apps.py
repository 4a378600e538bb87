"""Who, which car, what was agreed, what was handed over."""

from django.apps import AppConfig


class JobsConfig(AppConfig):
    """Jobs, cars, customers, people, consents, records and the logbook."""

    name = "jobs"
