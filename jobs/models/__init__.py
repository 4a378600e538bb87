"""The tables of who, which car and what was agreed. One file a subject; import from here."""

from jobs.models.changes import Change
from jobs.models.customers import Customer
from jobs.models.entries import Entry, Reused
from jobs.models.equipment import Check, Equipment, TabletSet
from jobs.models.find import FoundBy
from jobs.models.jobs import CarState, Consent, Job
from jobs.models.people import Person
from jobs.models.photos import Photo
from jobs.models.qualifications import Qualification
from jobs.models.records import Record
from jobs.models.shop import Shop
from jobs.models.vehicles import System, Vehicle

__all__ = [
    "CarState",
    "Change",
    "Check",
    "Consent",
    "Customer",
    "Entry",
    "Equipment",
    "FoundBy",
    "Job",
    "Person",
    "Photo",
    "Qualification",
    "Record",
    "Reused",
    "Shop",
    "System",
    "TabletSet",
    "Vehicle",
]
