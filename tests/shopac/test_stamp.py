"""The version stamp of a data folder: shopac/stamp.py."""

import pytest

from shopac import stamp
from shopac.trouble import CannotStart


@pytest.fixture(autouse=True)
def version(monkeypatch):
    monkeypatch.setattr(stamp, "VERSION", "1.9.0")


def test_a_new_folder_has_no_stamp(tmp_path):
    assert stamp.read(tmp_path) == ""
    stamp.refuse_newer(tmp_path)


def test_a_stamp_names_the_release_that_wrote_it(tmp_path):
    stamp.write(tmp_path)
    assert stamp.read(tmp_path) == "1.9.0"


@pytest.mark.parametrize("older", ["1.9.0", "1.8.12", "0.10.0"])
def test_data_of_the_same_or_an_older_release_is_opened(tmp_path, older):
    (tmp_path / "version").write_text(older)
    stamp.refuse_newer(tmp_path)


@pytest.mark.parametrize("newer", ["1.10.0", "2.0", "1.9.1"])
def test_data_of_a_newer_release_is_refused_with_both_versions(tmp_path, newer):
    (tmp_path / "version").write_text(newer)
    with pytest.raises(CannotStart, match=rf"{newer} and this is the older 1\.9\.0"):
        stamp.refuse_newer(tmp_path)


@pytest.mark.parametrize("broken", ["soup", "1..2", "1.x"])
def test_a_stamp_without_a_version_is_not_guessed_at(tmp_path, broken):
    (tmp_path / "version").write_text(broken)
    with pytest.raises(CannotStart, match="should hold the version"):
        stamp.refuse_newer(tmp_path)
