"""Addresses of this room's pages; a page's name is its view's, template's and test's."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
