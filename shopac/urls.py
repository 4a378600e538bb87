"""All addresses of the site."""

from django.urls import include, path

from shopac.door import ADDRESS
from shopac.views.backups import backups, backups_make, backups_seal
from shopac.views.begin import begin
from shopac.views.bring_in import bring_in
from shopac.views.entries import entries
from shopac.views.job_json import job_json, jobs_json
from shopac.views.manifest import manifest
from shopac.views.new_password import new_password
from shopac.views.offline import offline
from shopac.views.paired import paired
from shopac.views.ping import ping
from shopac.views.ring import ring
from shopac.views.worker import worker

urlpatterns = [
    path("backups/", backups, name="backups"),
    path("backups/make/", backups_make, name="backups_make"),
    path("backups/seal/", backups_seal, name="backups_seal"),
    path("begin/", begin, name="begin"),
    path("bring_in/", bring_in, name="bring_in"),
    path("new_password/", new_password, name="new_password"),
    path("ping/", ping, name="ping"),
    path("paired/", paired, name="paired"),
    path(ADDRESS.removeprefix("/"), entries, name="entries"),
    path("ring/", ring, name="ring"),
    path("job.json", job_json, name="job_json"),
    path("jobs.json", jobs_json, name="jobs_json"),
    path("sw.js", worker, name="worker"),
    path("manifest.json", manifest, name="manifest"),
    path("offline/", offline, name="offline"),
    path("", include("jobs.urls")),
    path("", include("diagnostics.urls")),
]
