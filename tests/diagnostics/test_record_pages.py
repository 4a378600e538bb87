"""How many pages a record has, and that a long one still reads well."""
import os
import pytest
from django.utils import timezone
from diagnostics.record.build import Heading, record_data
from jobs.models import Shop
from jobs.paper.frozen import exact_text
from jobs.paper.typeset import typeset
from tests.diagnostics.full_job import full_job, owner
from tests.jobs.records import pages

pytestmark = pytest.mark.django_db

def test_sample():
    told = full_job()
    print([ (s.kind) for s in told.job.steps.all()], told.again.stage)
    data = record_data(told.again, Heading(1, owner(), timezone.now(), address="https://shop.example/job/?job=x"), None)
    pdf = typeset(exact_text(data)).pdf
    __import__("pathlib").Path("/tmp/i6rec-work/full.pdf").write_bytes(pdf)
    __import__("pathlib").Path("/tmp/i6rec-work/full.json").write_text(exact_text(data))
    print("PAGES",len(pages(pdf)), len(pdf))
