"""Anything that a browser, a tablet or somebody with ill will sends: made by chance, from a seed.

The forms are read from the pages themselves, so a new page and a new field take part unasked.
"""

import io
import json
import random
import uuid
from dataclasses import dataclass, field
from html import unescape
from html.parser import HTMLParser
from typing import Any
from urllib.parse import urlencode

from django.utils import timezone
from PIL import Image

FAR = "9" * 40
TEXTS = (
    *("", " ", "\t", "-", "–", "0", "-0", "-1", "7,5", "1.2.3", "1 000", "1e3", "1e999", "-1e999"),
    *("NaN", "Infinity", "-inf", "١٢", "१२", "½", "0x1F", "1_000", FAR, f"-{FAR}", f"0.{FAR}"),
    *("2147483648", "9223372036854775808", "true", "null", "None", "[]", "{}", "on", "yes", "no"),
    *("0000-00-00", "0001-01-01", "9999-12-31", "9999-12-31T23:59", "31 Feb 2026", "25:61"),
    *("00:10", "23:59"),  # with the first and the last day there is none in another zone
    *("2026-13-01", "2026-06-15", "2026-06-15T08:30", "08:30", "10000-01-01", "-1-01-01"),
    *("\x00", "a\x00b", "\x1b[31m", "\x7f", "\u202egnp.gpj", "\u200f\u200e", "\u2028", "\ufeff"),
    *(
        "\ud800",
        "\udfff\ud800",
        "\ufffe",
        "e\u0301",
        "ﬀ",
        "ı",
        "ẞ",
        "🙂" * 60,
        "漢字",
        "ไทย",
        "עברית",
    ),
    *(
        "<script>x()</script>",
        "\"'><b>",
        "{{ 7|add:7 }}",
        "{% now %}",
        "%00%s%n",
        "'; --",
        "../../x",
    ),
    *("x" * 300, "x" * 10_000, "line\r\n" * 1_500, "a " * 5_000, "KX.4731D", "R-134a", "520 g"),
    *("00000000-0000-0000-0000-000000000000", "not-a-key", "1\n2", "\r\n\r\nSet-Cookie: a=b"),
)
# Values of JSON that are of no use, and shapes that are not asked for.
SHAPES: tuple[Any, ...] = (
    *(
        None,
        True,
        False,
        0,
        -1,
        1.5,
        1e308,
        2**70,
        "",
        "x",
        [],
        {},
        [[]],
        [None],
        [1],
        [{}],
        {"a": 1},
    ),
    *({"a": [1]}, {"a": [None]}, {"a": "x"}, {"": [""]}, {"a": [["x"]]}, [["x", "y"]], "\ud800"),
)


@dataclass
class Form:
    """A form as its page has it: where it goes, and what can be said for each field."""

    action: str
    method: str
    fields: dict[str, list[str]] = field(default_factory=dict)
    typed: list[str] = field(default_factory=list)
    files: list[str] = field(default_factory=list)
    entry: str = ""


class Forms(HTMLParser):
    """The forms of a page."""

    TYPED = frozenset({"text", "search", "tel", "email", "url"})

    def __init__(self, page: str, path: str) -> None:
        super().__init__(convert_charrefs=True)
        self.path, self.found, self.named = path, [], ""  # type: str, list[Form], str
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = {name: value or "" for name, value in attrs}
        if tag == "form":
            form = Form(said.get("action") or self.path, said.get("method", "get").lower())
            form.entry = said.get("data-entry", "")
            self.found.append(form)
        name = said.get("name", "")
        if tag == "option" and self.named and self.found:
            self.found[-1].fields[self.named].append(said.get("value", ""))
        if tag == "select":
            self.named = name
        if not name or not self.found or tag not in ("input", "select", "textarea", "button"):
            return
        form, kind = self.found[-1], said.get("type", "text")
        if tag == "input" and kind == "file":
            form.files.append(name)
            return
        values = form.fields.setdefault(name, [])
        if said.get("value"):
            values.append(said["value"])
        if tag == "textarea" or (tag == "input" and kind in self.TYPED):
            form.typed.append(name)


@dataclass
class Case:
    """One thing to send."""

    method: str
    path: str
    body: bytes = b""
    kind: str = ""
    shown_again: str = ""  # what somebody typed, which has to be there if it was not taken

    def __str__(self) -> str:
        return f"{self.method} {self.path} {self.body[:300]!r}"


class Anything:
    """Cases by chance, the same for the same seed."""

    def __init__(self, seed: int, cars: dict[str, str]) -> None:
        self.chance = random.Random(seed)
        self.keys = [*cars.values(), str(uuid.UUID(int=self.chance.getrandbits(128), version=4))]

    def text(self) -> str:
        return self.chance.choice((*TEXTS, *TEXTS, *self.keys))

    def fresh(self) -> str:
        return str(uuid.UUID(int=self.chance.getrandbits(128), version=4))

    def query(self, path: str) -> str:
        """The address, its question changed."""
        address, _, asked = path.partition("?")
        names = [one.partition("=")[0] for one in asked.split("&") if one]
        names += ["job", "person", "words", "older", "next", "corrects", "by", "key", "page", "q"]
        pairs = [(self.chance.choice(names), self.text()) for _ in range(self.chance.randint(1, 3))]
        return f"{address}?{urlencode(pairs, errors='surrogatepass')}"

    def filled(self, form: Form, sane: float) -> tuple[list[tuple[str, str]], str]:
        """The form's fields, mostly as asked for (`sane`), else anything; a text typed once."""
        pairs, mark = [], ""
        for name, values in form.fields.items():
            if name == "csrfmiddlewaretoken":
                continue
            if name == "key":
                pairs.append((name, self.fresh() if self.chance.random() < 0.97 else self.text()))
                continue
            if self.chance.random() < 0.15:
                continue
            known = [one for one in values if one]
            as_asked = known and self.chance.random() < sane
            pairs.append((name, self.chance.choice(known) if as_asked else self.text()))
            if self.chance.random() < 0.06:
                pairs.append((name, self.text()))
        if form.typed and self.chance.random() < 0.6:
            name = self.chance.choice(form.typed)
            mark = f"typed {self.chance.randint(10**6, 10**7)}"
            pairs = [one for one in pairs if one[0] != name] + [(name, mark)]
        if self.chance.random() < 0.1:
            pairs.append((self.text()[:60] or "odd", self.text()))
        self.chance.shuffle(pairs)
        return pairs, mark

    def file(self) -> tuple[str, bytes]:
        """A file as a camera, a slip of the hand or ill will brings it."""
        picture = io.BytesIO()
        Image.new("RGB", (8, 8)).save(picture, "JPEG")
        whole = picture.getvalue()
        found = (whole, b"", b"\x00" * 9, whole[:40], b"GIF89a", b"<svg/>", b"%PDF-1.7", whole * 2)
        names = ("a.jpg", "", "../../a.jpg", "a\tb.exe", "x" * 300 + ".jpg", "\u202egpj.exe")
        return self.chance.choice(names), self.chance.choice(found)

    def post(self, form: Form) -> Case:
        """The form posted, with whatever stands in it."""
        pairs, mark = self.filled(form, self.chance.choice((0.3, 0.9, 1.0)))
        path = self.query(form.action) if self.chance.random() < 0.1 else form.action
        if form.method == "get":
            asked = urlencode(pairs, errors="surrogatepass")
            return Case("GET", f"{path.partition('?')[0]}?{asked}")
        if form.files and self.chance.random() < 0.7:
            body, kind = self.multipart(pairs, form.files)
        else:
            body = urlencode(pairs, errors="surrogatepass").encode()
            kind = "application/x-www-form-urlencoded"
        return Case("POST", path, body, kind, mark)

    def multipart(self, pairs: list[tuple[str, str]], files: list[str]) -> tuple[bytes, str]:
        """Fields and files as a browser sends them together."""
        line = "----between"
        parts: list[bytes] = []
        for name, value in pairs:
            head = f'--{line}\r\nContent-Disposition: form-data; name="{plain(name)}"\r\n\r\n'
            parts.append(raw(head) + raw(value) + b"\r\n")
        for _ in range(self.chance.randint(0, 3)):
            named, data = self.file()
            head = f'--{line}\r\nContent-Disposition: form-data; name="{self.chance.choice(files)}"'
            head += f'; filename="{plain(named)}"\r\nContent-Type: image/jpeg\r\n\r\n'
            parts.append(raw(head) + data + b"\r\n")
        return b"".join(parts) + raw(f"--{line}--\r\n"), f"multipart/form-data; boundary={line}"

    def told(self, kinds: list[str], forms: list[Form], signed: str) -> Case:
        """An entry as a tablet sends it, some of its parts of another kind."""
        form = self.chance.choice(forms)
        pairs, _ = self.filled(form, self.chance.choice((0.3, 0.9, 1.0)))
        fields: dict[str, Any] = {}
        for name, value in pairs:
            fields.setdefault(name, []).append(value)
        kind = (
            form.entry if self.chance.random() < 0.8 else self.chance.choice([*kinds, self.text()])
        )
        said: dict[str, Any] = {
            "key": self.fresh(),
            "kind": kind,
            "version": self.chance.choice((1, 1, 2, 3)),
            "job": self.chance.choice([*self.keys, None]),
            "fields": fields,
            "photos": [],
            "corrects": self.chance.choice([None, None, *self.keys]),
            "rev": self.chance.choice((0, 0, 1)),
            "sequence": self.chance.randint(0, 99),
            "typed_at": timezone.now().isoformat(),
            "clock_offset_ms": 0,
            "pass": signed,
        }
        for _ in range(self.chance.choice((0, 0, 1, 2))):
            name = self.chance.choice(
                [*said, "happened_at", "mended", "clock_offset_sent_ms", "odd"]
            )
            said[name] = self.chance.choice((*SHAPES, self.text()))
        body = json.dumps(said).encode()
        if self.chance.random() < 0.05:
            body = self.chance.choice((b"", b"[", b"[]", b"null", b"\xff", body[:-9], b"[" * 9_000))
        return Case("POST", "/entries/", body, "application/json")


def raw(text: str) -> bytes:
    """The bytes, halves of characters included."""
    return text.encode("utf-8", "surrogatepass")


def plain(text: str) -> str:
    """As it can stand in a line of a head."""
    return "".join(one for one in text if one >= " " and one != '"')


def words_in(page: str) -> str:
    """What somebody reads, and what stands in the fields."""
    return unescape(page)
