"""All addresses of the site."""

from django.urls import include, path

from shopac.door import ADDRESS
from shopac.views.begin import begin
from shopac.views.entries import entries
from shopac.views.job_json import job_json, jobs_json
from shopac.views.manifest import manifest
from shopac.views.new_password import new_password
from shopac.views.offline import offline
from shopac.views.paired import paired
from shopac.views.ping import ping
from shopac.views.worker import worker

urlpatterns = [
    path("begin/", begin, name="begin"),
    path("new_password/", new_password, name="new_password"),
    path("ping/", ping, name="ping"),
    path("paired/", paired, name="paired"),
    path(ADDRESS.removeprefix("/"), entries, name="entries"),
    path("job.json", job_json, name="job_json"),
    path("jobs.json", jobs_json, name="jobs_json"),
    path("sw.js", worker, name="worker"),
    path("manifest.json", manifest, name="manifest"),
    path("offline/", offline, name="offline"),
    path("", include("jobs.urls")),
    path("", include("diagnostics.urls")),
]
