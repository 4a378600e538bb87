"""Addresses of this room's pages; a page's name is its view's, template's and test's."""

from django.urls import URLPattern, path

from jobs.views.board import board, board_first
from jobs.views.book import book, book_csv
from jobs.views.charge import charge
from jobs.views.claim import claim
from jobs.views.conditions import conditions
from jobs.views.conflicts import conflicts, conflicts_settle
from jobs.views.consent import consent
from jobs.views.copy_check import copy_check
from jobs.views.customer import customer
from jobs.views.cylinders import cylinders, cylinders_tell
from jobs.views.equipment import (
    equipment,
    equipment_check,
    equipment_enter,
    equipment_tablet,
)
from jobs.views.estimate import estimate, estimate_sums
from jobs.views.evacuation import evacuation
from jobs.views.find import find
from jobs.views.follows import follows
from jobs.views.handover import handover, handover_taken
from jobs.views.history import history
from jobs.views.intake import intake, intake_known
from jobs.views.invoice import invoice, invoice_sums
from jobs.views.job import job, job_failing
from jobs.views.loop_parts import loop_parts
from jobs.views.machine_cycle import machine_cycle
from jobs.views.merge import merge
from jobs.views.named import named
from jobs.views.oil import oil
from jobs.views.old_part import old_part
from jobs.views.people import people, people_add, people_change, people_qualify
from jobs.views.photo import photo
from jobs.views.photos import photos, photos_original, photos_shown, photos_view
from jobs.views.place import place
from jobs.views.record import record, record_customer, record_paper
from jobs.views.recovery import recovery
from jobs.views.redact import redact
from jobs.views.repair import repair
from jobs.views.screen import screen
from jobs.views.settings import settings, settings_change, settings_price, settings_tax
from jobs.views.sign_in import sign_in, sign_in_leave, sign_in_tablet
from jobs.views.system import system
from jobs.views.tablets import tablets, tablets_change
from jobs.views.tag import tag
from jobs.views.taken_out import taken_out
from jobs.views.unsent import unsent
from jobs.views.vehicle import vehicle
from jobs.views.waiting import waiting, waiting_end

urlpatterns: list[URLPattern] = [
    path("", board_first, name="board_first"),
    path("board/", board, name="board"),
    path("find/", find, name="find"),
    path("intake/", intake, name="intake"),
    path("intake/known/", intake_known, name="intake_known"),
    path("follows/", follows, name="follows"),
    path("history/", history, name="history"),
    path("conflicts/", conflicts, name="conflicts"),
    path("conflicts/settle/", conflicts_settle, name="conflicts_settle"),
    path("merge/", merge, name="merge"),
    path("redact/", redact, name="redact"),
    path("job/", job, name="job"),
    path("job/failing/", job_failing, name="job_failing"),
    path("customer/", customer, name="customer"),
    path("vehicle/", vehicle, name="vehicle"),
    path("waiting/", waiting, name="waiting"),
    path("waiting/end/", waiting_end, name="waiting_end"),
    path("system/", system, name="system"),
    path("consent/", consent, name="consent"),
    path("claim/", claim, name="claim"),
    path("copy_check/", copy_check, name="copy_check"),
    path("book/", book, name="book"),
    path("book/moves.csv", book_csv, name="book_csv"),
    path("cylinders/", cylinders, name="cylinders"),
    path("cylinders/<str:do>/", cylinders_tell, name="cylinders_tell"),
    path("estimate/", estimate, name="estimate"),
    path("estimate/sums/", estimate_sums, name="estimate_sums"),
    path("invoice/", invoice, name="invoice"),
    path("invoice/sums/", invoice_sums, name="invoice_sums"),
    path("named/", named, name="named"),
    path("old_part/", old_part, name="old_part"),
    path("equipment/", equipment, name="equipment"),
    path("equipment/check/", equipment_check, name="equipment_check"),
    path("equipment/enter/", equipment_enter, name="equipment_enter"),
    path("equipment/tablet/", equipment_tablet, name="equipment_tablet"),
    path("people/", people, name="people"),
    path("people/add/", people_add, name="people_add"),
    path("people/change/", people_change, name="people_change"),
    path("people/qualify/", people_qualify, name="people_qualify"),
    path("place/", place, name="place"),
    path("photo/", photo, name="photo"),
    path("photos/", photos, name="photos"),
    path("photos/<str:digest>.jpg", photos_shown, name="photos_shown"),
    path("photos/<str:digest>/original/", photos_original, name="photos_original"),
    path("photos/<uuid:entry>/<int:number>/", photos_view, name="photos_view"),
    path("record/", record, name="record"),
    path("record/customer/", record_customer, name="record_customer"),
    path("record/paper/", record_paper, name="record_paper"),
    path("repair/", repair, name="repair"),
    path("recovery/", recovery, name="recovery"),
    path("charge/", charge, name="charge"),
    path("machine_cycle/", machine_cycle, name="machine_cycle"),
    path("oil/", oil, name="oil"),
    path("evacuation/", evacuation, name="evacuation"),
    path("loop_parts/", loop_parts, name="loop_parts"),
    path("taken_out/", taken_out, name="taken_out"),
    path("handover/", handover, name="handover"),
    path("handover/taken/", handover_taken, name="handover_taken"),
    path("tablets/", tablets, name="tablets"),
    path("tablets/change/", tablets_change, name="tablets_change"),
    path("tag/", tag, name="tag"),
    path("conditions/", conditions, name="conditions"),
    path("screen/", screen, name="screen"),
    path("settings/", settings, name="settings"),
    path("settings/change/", settings_change, name="settings_change"),
    path("settings/price/", settings_price, name="settings_price"),
    path("settings/tax/", settings_tax, name="settings_tax"),
    path("sign_in/", sign_in, name="sign_in"),
    path("sign_in/leave/", sign_in_leave, name="sign_in_leave"),
    path("sign_in/tablet/", sign_in_tablet, name="sign_in_tablet"),
    path("unsent/", unsent, name="unsent"),
]
