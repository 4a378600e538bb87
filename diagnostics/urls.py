"""Addresses of this room's pages; a page's name is its view's, template's and test's."""

from django.urls import URLPattern, path

from diagnostics.views.issue import issue

urlpatterns: list[URLPattern] = [
    path("issue/", issue, name="issue"),
]
