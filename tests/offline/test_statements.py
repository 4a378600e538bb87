"""The server's process is killed at every statement of one entry: all is there, or nothing."""

from pathlib import Path

import pytest

from tests.campaign import statements
from tests.offline.shop import Prepared

pytestmark = pytest.mark.sqlite


def test_fault_2_a_test_with_its_photo_is_killed_at_every_statement_boundary(
    prepared: Prepared, tmp_path: Path
):
    told = statements.run(prepared, tmp_path / "data", ("test with photo",))
    assert told["wrong"] == []
    assert told["boundaries"]["test with photo"] > 12  # reads and writes of the whole post
