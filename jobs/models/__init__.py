"""The tables of who, which car and what was agreed. One file a subject; import from here."""

from jobs.models.changes import Change
from jobs.models.customers import Customer
from jobs.models.entries import Entry, Reused
from jobs.models.find import FoundBy
from jobs.models.jobs import CarState, Consent, Job
from jobs.models.people import Person
from jobs.models.photos import Photo
from jobs.models.prices import Price, Tax
from jobs.models.records import Record
from jobs.models.shop import Shop, ShopChange
from jobs.models.vehicles import System, Vehicle

__all__ = [
    "CarState",
    "Change",
    "Consent",
    "Customer",
    "Entry",
    "FoundBy",
    "Job",
    "Person",
    "Photo",
    "Price",
    "Record",
    "Reused",
    "Shop",
    "ShopChange",
    "System",
    "Tax",
    "Vehicle",
]
