"""Why it does not cool, what proves it, what to do."""

from django.apps import AppConfig


class DiagnosticsConfig(AppConfig):
    """Test steps and what they show."""

    name = "diagnostics"
