"""Addresses of this room's pages; a page's name is its view's, template's and test's."""

from django.urls import URLPattern, path

from diagnostics.views.issue import issue
from diagnostics.views.step import step
from diagnostics.views.steps import steps

urlpatterns: list[URLPattern] = [
    path("steps/", steps, name="steps"),
    path("step/<str:kind_name>/", step, name="step"),
    path("issue/", issue, name="issue"),
]
