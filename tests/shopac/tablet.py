"""A tablet of the shop as the door sees it."""

import json
import uuid
from typing import Any

from django.test import Client
from django.utils import timezone

from jobs.models import Person
from jobs.models.people import TECHNICIAN
from jobs.passes import TABLET_COOKIE, make_pass, tablet_token
from tests.factories import make_person

FIELDS = {"customer_name": ["Ida"], "plate": ["KX.4731D"], "complaint": ["Blows warm."]}


class Tablet:
    """A tablet of the shop: its cookie, somebody's pass, and what it sends."""

    def __init__(self, author: Person | None = None, **environ: Any) -> None:
        self.key = uuid.uuid4()
        self.author = author or make_person(TECHNICIAN, name=f"E. Quist {self.key.hex[:6]}")
        self.browser = Client(raise_request_exception=True, **environ)
        self.browser.cookies[TABLET_COOKIE] = tablet_token(self.key)

    def said(self, **more: Any) -> dict[str, Any]:
        key = str(uuid.uuid4())
        first = {
            "key": key,
            "kind": "intake",
            "version": 1,
            "job": key,
            "fields": FIELDS,
            "photos": [],
            "corrects": None,
            "rev": 0,
            "sequence": 1,
            "typed_at": timezone.now().isoformat(),
            "clock_offset_ms": 0,
            "pass": make_pass(self.author, self.key),
        }
        return {**first, **more}

    def send(self, said: Any = None, files: Any = None, **more: Any):
        said = said if said is not None else self.said(**more)
        if files is None:
            return self.raw(json.dumps(said))
        return self.browser.post("/entries/", {"entry": json.dumps(said), **files})

    def raw(self, body: str | bytes, kind: str = "application/json"):
        return self.browser.post("/entries/", body, content_type=kind)
