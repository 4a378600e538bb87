"""What becomes of the bytes of a photo: jobs/photos.py and jobs/kept_bytes.py."""

import hashlib
import io
import os
import time
from concurrent.futures import ThreadPoolExecutor

import pytest
from PIL import Image

from jobs import kept_bytes, photos
from jobs.kept_bytes import place
from jobs.photos import LONG_SIDE, Sent, keep, named, picture


def drawn(width=60, height=40, kind="JPEG", mode="RGB", **save):
    out = io.BytesIO()
    Image.new(mode, (width, height), 128 if mode == "L" else "navy").save(out, kind, **save)
    return out.getvalue()


def sent(data):
    digest = hashlib.sha256(data).hexdigest()
    return Sent("photo", "a.jpg", digest, len(data), "image/jpeg", io.BytesIO(data))


@pytest.fixture(autouse=True)
def own_folder(settings, tmp_path):
    settings.DATA = tmp_path


def test_a_photo_is_stored_under_the_hash_of_its_new_bytes():
    kept = keep(sent(drawn()))
    stored = place("photos", kept.stored_sha256, ".jpg")
    assert hashlib.sha256(stored.read_bytes()).hexdigest() == kept.stored_sha256


def test_metadata_such_as_place_and_camera_is_gone_from_what_is_shown():
    exif = Image.Exif()
    exif[0x010F] = "Camera maker"
    shown, *_ = picture(drawn(exif=exif))
    assert b"Camera maker" not in shown
    assert not Image.open(io.BytesIO(shown)).getexif()


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "TIFF", "WEBP"])
@pytest.mark.parametrize("size", [(60, 40), (6000, 4000)])
def test_a_photo_taken_sideways_stands_upright(kind, size):
    exif = Image.Exif()
    exif[0x0112] = 6
    _, width, height, why = picture(drawn(size[0], size[1], kind, exif=exif))
    assert (width, height, why) == ((40, 60, "") if size == (60, 40) else (1600, 2400, ""))


def test_a_photo_of_40_megapixels_is_shown_smaller():
    _, width, height, why = picture(drawn(8000, 5000))
    assert why == ""
    assert max(width, height) <= LONG_SIDE


def test_a_picture_of_too_many_pixels_is_kept_unopened():
    *_, why = picture(drawn(20000, 6000, "JPEG", "L"))
    assert why.startswith("Over 100 million pixels")


@pytest.mark.parametrize(
    ("kind", "save"), [("PNG", {}), ("JPEG", {"progressive": True}), ("TIFF", {})]
)
def test_what_has_to_be_in_memory_whole_may_have_half_as_many_pixels(kind, save):
    *_, why = picture(drawn(8600, 6000, kind, "L", **save))
    assert why.startswith("Over 50 million pixels")
    *_, why = picture(drawn(8000, 6000, kind, "L", **save))
    assert why == ""


def test_no_more_than_two_pictures_are_unpacked_at_the_same_time(monkeypatch):
    inside, most = [], []

    def counted(_data):
        inside.append(1)
        most.append(len(inside))
        time.sleep(0.05)
        inside.pop()
        return b"", 0, 0, "This is no picture."

    monkeypatch.setattr(photos, "picture", counted)
    with ThreadPoolExecutor(8) as threads:
        list(threads.map(lambda number: keep(sent(bytes([number]))), range(8)))
    assert (len(most), max(most)) == (8, 2)


def test_what_was_transparent_becomes_white():
    shown, *_ = picture(clear())
    assert Image.open(io.BytesIO(shown)).getpixel((5, 5)) == (255, 255, 255)


def clear():
    out = io.BytesIO()
    Image.new("RGBA", (20, 20), (0, 0, 0, 0)).save(out, "PNG")
    return out.getvalue()


def test_heic_is_said_plainly_and_the_original_bytes_are_kept():
    data = b"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic" + b"x" * 100
    kept = keep(sent(data))
    assert "HEIC" in kept.why
    assert place("originals", kept.sent.sha256, "").read_bytes() == data


@pytest.mark.parametrize("data", [b"this is no picture", b"<svg onload=alert(1)>", b"\xff\xd8\xff"])
def test_a_file_that_is_no_picture_is_kept_as_it_came(data):
    kept = keep(sent(data))
    assert "not a picture" in kept.why
    assert place("originals", kept.sent.sha256, "").read_bytes() == data


def test_a_picture_cut_off_half_way_is_kept_as_it_came():
    data = drawn(400, 400)
    assert "not a picture" in keep(sent(data[: len(data) // 2])).why


def test_an_empty_file_is_said_and_leaves_nothing_on_disk(tmp_path):
    assert "0 bytes" in keep(sent(b"")).why
    assert not (tmp_path / "originals").exists()


def test_a_file_left_half_written_by_a_power_cut_is_written_again():
    data = drawn()
    kept = keep(sent(data))
    path = place("photos", kept.stored_sha256, ".jpg")
    whole = path.read_bytes()
    path.write_bytes(whole[:10])
    keep(sent(data))
    assert path.read_bytes() == whole


def test_no_draft_file_is_left_behind(tmp_path):
    keep(sent(drawn()))
    assert not list(tmp_path.rglob(".*"))


def test_the_bytes_are_durable_before_the_file_has_its_name(tmp_path, monkeypatch):
    made_durable = []
    real = os.fsync

    def fsync(handle):
        named = any(path.suffix == ".jpg" for path in tmp_path.rglob("*"))
        made_durable.append((os.fstat(handle).st_ino, named))
        real(handle)

    monkeypatch.setattr(os, "fsync", fsync)
    kept = keep(sent(drawn()))
    stored = place("photos", kept.stored_sha256, ".jpg")
    assert (stored.stat().st_ino, False) in made_durable


@pytest.mark.parametrize("stored_before", [False, True])
def test_the_name_is_made_durable_with_those_of_new_folders(tmp_path, monkeypatch, stored_before):
    if stored_before:  # by another, who may not have come to this yet
        keep(sent(drawn()))
    made_durable = []

    def sync_folder(folder):
        made_durable.append((folder, any(path.suffix == ".jpg" for path in tmp_path.rglob("*"))))

    monkeypatch.setattr(kept_bytes, "sync_folder", sync_folder)
    kept = keep(sent(drawn()))
    for name in (kept.stored_sha256, kept.small_sha256):
        folder = place("photos", name, ".jpg").parent
        expected = [(folder, True), (tmp_path / "photos", True), (tmp_path, True)]
        assert [made_durable.pop(0) for _ in expected] == expected
    assert made_durable == []


@pytest.mark.skipif(os.name != "posix", reason="Windows has no such call for folders")
def test_a_folder_is_made_durable_by_its_own_handle(tmp_path, monkeypatch):
    made_durable = []
    monkeypatch.setattr(os, "fsync", lambda handle: made_durable.append(os.fstat(handle).st_ino))
    kept_bytes.sync_folder(tmp_path)
    assert made_durable == [tmp_path.stat().st_ino]


@pytest.mark.parametrize("name", ["a\x00b", "a\ud800b"])
def test_a_name_that_no_column_holds_is_kept_with_a_substitute(name):
    assert named(name, 200) == "a\ufffdb"


def test_a_small_copy_is_kept_beside_under_a_hash_of_its_own():
    kept = keep(sent(drawn(2000, 1000)))
    small = place("photos", kept.small_sha256, ".jpg").read_bytes()
    assert hashlib.sha256(small).hexdigest() == kept.small_sha256
    assert Image.open(io.BytesIO(small)).size == (320, 160)


def test_what_is_no_picture_has_no_small_copy():
    assert keep(sent(b"this is no picture")).small_sha256 == ""


def test_sixteen_bits_of_gray_keep_their_shade():
    out = io.BytesIO()
    Image.new("I;16", (20, 20), 0x8000).save(out, "PNG")
    shown, *_ = picture(out.getvalue())
    assert Image.open(io.BytesIO(shown)).getpixel((5, 5)) == (128, 128, 128)


@pytest.mark.parametrize("kind", ["JPEG", "TIFF"])
def test_inks_for_print_become_colors_of_a_screen(kind):
    out = io.BytesIO()
    Image.new("CMYK", (20, 20), (0, 255, 255, 0)).save(out, kind)
    shown, *_ = picture(out.getvalue())
    image = Image.open(io.BytesIO(shown))
    assert image.mode == "RGB"
    assert image.getchannel("R").getpixel((5, 5)) == 254


@pytest.mark.parametrize("kind", ["GIF", "PNG", "WEBP"])
def test_of_a_moving_picture_the_first_is_shown(kind):
    first, second = Image.new("RGB", (20, 20), "red"), Image.new("RGB", (20, 20), "blue")
    out = io.BytesIO()
    first.save(out, kind, save_all=True, append_images=[second])
    shown, *_ = picture(out.getvalue())
    image = Image.open(io.BytesIO(shown))
    assert getattr(image, "n_frames", 1) == 1
    assert image.getchannel("R").getpixel((5, 5)) == 254


def test_where_it_was_taken_is_gone_from_what_is_shown():
    exif = Image.Exif()
    exif.get_ifd(0x8825)[2] = (48.0, 12.0, 30.0)
    exif[0x8825] = {1: "N", 2: (48.0, 12.0, 30.0)}
    data = drawn(exif=exif)
    assert b"Exif" in data
    shown, *_ = picture(data)
    assert b"Exif" not in shown


@pytest.mark.parametrize(
    ("kind", "save"),
    [("JPEG", {"comment": b"48.1234N Ida home"}), ("GIF", {"comment": b"48.1234N"})],
)
def test_a_comment_in_the_file_is_gone_from_both_copies(kind, save):
    mode = "RGB" if kind == "JPEG" else "P"
    kept = keep(sent(drawn(900, 600, kind, mode, **save)))
    for digest in (kept.stored_sha256, kept.small_sha256):
        assert b"48.1234N" not in place("photos", digest, ".jpg").read_bytes()


def test_a_page_hidden_behind_a_picture_is_not_in_what_is_shown():
    shown, *_, why = picture(drawn() + b"<html><script>alert(1)</script></html>")
    assert why == ""
    assert b"script" not in shown


def test_a_photo_of_12_mb_is_taken():
    data = drawn(2000, 1500) + b"\0" * 12_000_000
    assert keep(sent(data)).why == ""
