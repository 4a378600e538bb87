"""The tables of who, which car and what was agreed. One file a subject; import from here.

Beside them stand words and rules that tables and pages share, without a table of their own
(ac_places, closing, holds, moments, points, said and others): import those from their file.
"""

from jobs.models.amounts import Cylinder, LoopWork, Move
from jobs.models.changes import Change
from jobs.models.conditions import Conditions
from jobs.models.consents import Consent
from jobs.models.customers import Customer
from jobs.models.cylinder_works import CylinderWork
from jobs.models.entries import Entry, Reused
from jobs.models.epochs import Epoch
from jobs.models.equipment import Check, Equipment, TabletSet
from jobs.models.estimates import Estimate
from jobs.models.find import FoundBy
from jobs.models.handovers import Handover
from jobs.models.invoices import Invoice
from jobs.models.jobs import CarState, Job
from jobs.models.loop_parts import LoopTold
from jobs.models.named import Named
from jobs.models.old_parts import OldPartChoice
from jobs.models.people import Person
from jobs.models.photos import Photo
from jobs.models.places import Place
from jobs.models.prices import Price, Tax
from jobs.models.qualifications import Qualification
from jobs.models.records import Record
from jobs.models.shop import Shop, ShopChange
from jobs.models.stages import StageMove
from jobs.models.tablets import Tablet
from jobs.models.tags import Tag
from jobs.models.taken_out import TakenOut
from jobs.models.vehicles import System, Vehicle
from jobs.models.waiting import Waiting

__all__ = [
    "CarState",
    "Change",
    "Check",
    "Conditions",
    "Consent",
    "Customer",
    "Cylinder",
    "CylinderWork",
    "Entry",
    "Epoch",
    "Equipment",
    "Estimate",
    "FoundBy",
    "Handover",
    "Invoice",
    "Job",
    "LoopTold",
    "LoopWork",
    "Move",
    "Named",
    "OldPartChoice",
    "Person",
    "Photo",
    "Place",
    "Price",
    "Qualification",
    "Record",
    "Reused",
    "Shop",
    "ShopChange",
    "StageMove",
    "System",
    "Tablet",
    "TabletSet",
    "Tag",
    "TakenOut",
    "Tax",
    "Vehicle",
    "Waiting",
]
