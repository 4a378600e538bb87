"""Photos sent over slow lines, and how long other pages take beside them.

    .venv/bin/python -m tests.slow_uploads

starts a server, sends eight photos at 35 kB/s, and prints the times of some pages alone and beside
those. Nothing is asserted on times: tests/offline/test_slow_uploads.py asserts that pages answer.
"""

import http.client
import io
import statistics
import tempfile
import threading
import time
import uuid
from contextlib import closing
from pathlib import Path

from PIL import Image

from tests.offline.shop import Shop, dashed, prepare
from tests.proxy import Line, Proxy

RATE = 35_000
PATHS = ("/ping/", "/board/", "/job/?job={job}", "/photos/?job={job}")
TOKEN = "a" * 32
CAR = {"customer_name": "Ida Marwell", "plate": "KX.4731D", "complaint": "Blows warm."}
BOUNDARY = "shopac-slow-upload"
TIMES = 15


def cookies(shop: Shop) -> str:
    """What a signed-in browser sends, with a form token of its own."""
    told = {**shop.cookies, "shopac_csrf": TOKEN}
    return "; ".join(f"{name}={value}" for name, value in told.items())


def multipart(fields: dict[str, str], photo: bytes | None = None) -> bytes:
    """A form's post."""
    parts = [
        f'--{BOUNDARY}\r\nContent-Disposition: form-data; name="{name}"\r\n\r\n{value}\r\n'.encode()
        for name, value in {**fields, "csrfmiddlewaretoken": TOKEN}.items()
    ]
    if photo is not None:
        head = 'Content-Disposition: form-data; name="photo"; filename="a.jpg"'
        parts.append(f"--{BOUNDARY}\r\n{head}\r\nContent-Type: image/jpeg\r\n\r\n".encode())
        parts.append(photo + b"\r\n")
    return b"".join([*parts, f"--{BOUNDARY}--\r\n".encode()])


def post(shop: Shop, port: int, path: str, body: bytes) -> int:
    """Post it; the status of the answer."""
    kind = f"multipart/form-data; boundary={BOUNDARY}"
    head = {"Content-Type": kind, "Cookie": cookies(shop)}
    with closing(http.client.HTTPConnection("127.0.0.1", port, timeout=120)) as line:
        line.request("POST", path, body, head)
        return line.getresponse().status


def job_on(shop: Shop) -> str:
    """A car that was taken in; its job's key."""
    told = {**CAR, "key": str(uuid.uuid4())}
    assert post(shop, shop.port, "/intake/", multipart(told)) == 302
    [row] = shop.rows("SELECT key FROM jobs_job ORDER BY id DESC LIMIT 1")
    return dashed(row["key"])


def open_page(shop: Shop, path: str) -> int:
    """Ask for a page as a signed-in browser; the status of the answer, read whole."""
    with closing(http.client.HTTPConnection("127.0.0.1", shop.port, timeout=20)) as line:
        line.request("GET", path, headers={"Cookie": cookies(shop)})
        answer = line.getresponse()
        answer.read()
        return answer.status


class Upload:
    """A photo on its way in a thread of its own, so large that it takes so many seconds."""

    def __init__(self, shop: Shop, port: int, job: str, seconds: float, seed: int) -> None:
        out = io.BytesIO()
        Image.new("RGB", (640, 480), (seed, 80, 160)).save(out, "JPEG")
        whole = out.getvalue()
        photo = whole + b"\0" * max(0, int(seconds * RATE) - len(whole))  # readers stop at its end
        self._body = multipart({"key": str(uuid.uuid4()), "place": "compressor"}, photo)
        self._shop, self._port, self._path = shop, port, f"/photo/?job={job}"
        self._status = 0
        self._thread = threading.Thread(target=self._send, daemon=True)
        self._thread.start()

    def _send(self) -> None:
        self._status = post(self._shop, self._port, self._path, self._body)

    @property
    def under_way(self) -> bool:
        """Whether it has not been answered yet."""
        return self._thread.is_alive()

    def status(self) -> int:
        """The status it was answered with, once it was."""
        self._thread.join(120)
        return self._status


def times(shop: Shop, path: str) -> float:
    """Milliseconds of a page, the middle of several."""
    took = []
    for _ in range(TIMES):
        began = time.perf_counter()
        assert open_page(shop, path) == 200
        took.append(1000 * (time.perf_counter() - began))
    return statistics.median(took)


def main() -> None:
    """Print a table."""
    with tempfile.TemporaryDirectory(prefix="shopac-slow-") as folder:
        shop = Shop(prepare(Path(folder) / "prepared"), Path(folder) / "data", secure=False)
        shop.start()
        try:
            measure(shop)
        finally:
            shop.kill()


def measure(shop: Shop) -> None:
    """Alone, then beside eight slow uploads."""
    job = job_on(shop)
    paths = [path.format(job=job) for path in PATHS]
    alone = {path: times(shop, path) for path in paths}
    lines = [Proxy(shop.port) for _ in range(8)]
    for line in lines:
        line.line = Line(rate=RATE)
    uploads = [Upload(shop, line.port, job, 30, at) for at, line in enumerate(lines)]
    time.sleep(1)
    beside = {path: times(shop, path) for path in paths}
    still = sum(one.under_way for one in uploads)
    for path in paths:
        share = beside[path] / alone[path]
        print(
            f"{path.split('?')[0]:10} alone {alone[path]:6.1f} ms, beside {beside[path]:6.1f} ms,"
            f" {share:.2f} times"
        )
    print(f"{still} of 8 uploads were under way to the end of it")
    print("answered with", sorted(one.status() for one in uploads))
    for line in lines:
        line.close()


if __name__ == "__main__":
    main()
