"""Addresses of this room's pages; a page's name is its view's, template's and test's."""

from django.urls import URLPattern, path

from jobs.views.consent import consent
from jobs.views.customer import customer
from jobs.views.find import find
from jobs.views.intake import intake
from jobs.views.job import job, job_failing
from jobs.views.people import people, people_add, people_change
from jobs.views.photos import photos, photos_original, photos_shown
from jobs.views.record import record, record_paper
from jobs.views.repair import repair
from jobs.views.settings import settings, settings_change, settings_price, settings_tax
from jobs.views.sign_in import sign_in, sign_in_leave, sign_in_tablet
from jobs.views.system import system
from jobs.views.unsent import unsent
from jobs.views.vehicle import vehicle

urlpatterns: list[URLPattern] = [
    path("", find, name="find"),
    path("intake/", intake, name="intake"),
    path("job/", job, name="job"),
    path("job/failing/", job_failing, name="job_failing"),
    path("customer/", customer, name="customer"),
    path("vehicle/", vehicle, name="vehicle"),
    path("system/", system, name="system"),
    path("consent/", consent, name="consent"),
    path("people/", people, name="people"),
    path("people/add/", people_add, name="people_add"),
    path("people/change/", people_change, name="people_change"),
    path("photos/", photos, name="photos"),
    path("photos/<str:digest>.jpg", photos_shown, name="photos_shown"),
    path("photos/<str:digest>/original/", photos_original, name="photos_original"),
    path("record/", record, name="record"),
    path("record/paper/", record_paper, name="record_paper"),
    path("repair/", repair, name="repair"),
    path("settings/", settings, name="settings"),
    path("settings/change/", settings_change, name="settings_change"),
    path("settings/price/", settings_price, name="settings_price"),
    path("settings/tax/", settings_tax, name="settings_tax"),
    path("sign_in/", sign_in, name="sign_in"),
    path("sign_in/leave/", sign_in_leave, name="sign_in_leave"),
    path("sign_in/tablet/", sign_in_tablet, name="sign_in_tablet"),
    path("unsent/", unsent, name="unsent"),
]
