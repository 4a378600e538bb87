"""Addresses of this room's pages; a page's name is its view's, template's and test's."""

from django.urls import URLPattern, path

from diagnostics.views.close import close
from diagnostics.views.decision import decision
from diagnostics.views.issue import issue
from diagnostics.views.options import options
from diagnostics.views.points import points, points_override, points_waive
from diagnostics.views.stage import stage
from diagnostics.views.step import step
from diagnostics.views.steps import steps
from diagnostics.views.verdict import verdict
from diagnostics.views.verification import verification

urlpatterns: list[URLPattern] = [
    path("steps/", steps, name="steps"),
    path("step/<str:kind_name>/", step, name="step"),
    path("verdict/", verdict, name="verdict"),
    path("verification/", verification, name="verification"),
    path("issue/", issue, name="issue"),
    path("options/", options, name="options"),
    path("decision/", decision, name="decision"),
    path("stage/", stage, name="stage"),
    path("close/", close, name="close"),
    path("points/", points, name="points"),
    path("points/waive/", points_waive, name="points_waive"),
    path("points/override/", points_override, name="points_override"),
]
