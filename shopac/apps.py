"""The site's own app: wiring, offline delivery, start commands."""

from django.apps import AppConfig

from shopac.checks import register_checks


class ShopacConfig(AppConfig):
    """What belongs to the whole site."""

    name = "shopac"

    def ready(self) -> None:
        """Have the settings checked at every start."""
        register_checks()
