"""The site's own app: wiring, offline delivery, start commands."""

from django.apps import AppConfig


class ShopacConfig(AppConfig):
    """What belongs to the whole site."""

    name = "shopac"
