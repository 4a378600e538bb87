"""All addresses of the site."""

from django.urls import include, path

from shopac.views.entries import entries
from shopac.views.ping import ping

urlpatterns = [
    path("ping/", ping, name="ping"),
    path("entries/", entries, name="entries"),
    path("", include("jobs.urls")),
    path("", include("diagnostics.urls")),
]
