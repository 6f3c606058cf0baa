"""The studio under malformed and hostile requests: right status, no crash, no leak, the editing page unaffected.
Status codes: RFC 9110 (400, 403, 404, 405, 408, 411, 413, 415, 416, 421), RFC 6585 (431).
Arguments: the fanwright program, the folder of the examples, the number of requests (2000)."""

import json
import os
import random
import shutil
import sys
import tempfile
import threading
import time

from talk import Events, Studio, read_answer

program, examples, count = sys.argv[1], sys.argv[2], int(sys.argv[3]) if len(sys.argv) > 3 else 2000
failures = []


def expect(name, found, wanted):
    wanted = wanted if isinstance(wanted, tuple) else (wanted,)
    if found not in wanted:
        failures.append(f"{name}: status {found}, wanted {wanted}")


def post(studio, path, body, **headers):
    headers.setdefault("Content_Type", "application/json")
    headers.setdefault("Content_Length", str(len(body)))
    return studio.head("POST", path, **headers) + body


def requests(studio, design, text):
    """(name, bytes, statuses allowed); 0 stands for a connection closed without an answer."""
    head, port = studio.head, studio.port
    shape = f"/api/designs/{design}/shape"
    body = json.dumps({"revision": 1, "size": "", "text": text}).encode()
    deep = b"[" * 100_000
    return [
        # Forged names and senders
        ("foreign host", head("GET", "/api/bench", Host="evil.example"), 421),
        ("host without port", head("GET", "/api/bench", Host="127.0.0.1"), 421),
        ("host of another port", head("GET", "/api/bench", Host=f"127.0.0.1:{port + 1}"), 421),
        ("no host", head("GET", "/api/bench", Host=None), 421),
        ("two hosts", head("GET", "/api/bench")[:-2] + b"Host: evil.example\r\n\r\n", 421),
        ("host with our name inside", head("GET", "/", Host=f"127.0.0.1:{port}.evil.example"), 421),
        ("key for a foreign host", head("GET", f"/?key={studio.key}", Host="evil.example", Cookie=None), 421),
        ("foreign origin", post(studio, shape, body, Origin="http://evil.example"), 403),
        ("null origin", post(studio, shape, body, Origin="null"), 403),
        ("https origin", post(studio, shape, body, Origin=f"https://127.0.0.1:{port}"), 403),
        ("cross-site", head("GET", "/api/bench", Sec_Fetch_Site="cross-site"), 403),
        ("same-site", head("GET", "/api/bench", Sec_Fetch_Site="same-site"), 403),
        ("typed into the address line", head("GET", "/api/bench", Sec_Fetch_Site="none"), 403),
        ("cross-site start", head("GET", "/", Sec_Fetch_Site="cross-site"), 403),
        ("no key", head("GET", "/api/bench", Cookie=None), 403),
        ("wrong key", head("GET", "/api/bench", Cookie=f"fanwright-{port}={'0' * 32}"), 403),
        ("key of another length", head("GET", "/api/bench", Cookie=f"fanwright-{port}={studio.key}0"), 403),
        ("key under another name", head("GET", "/api/bench", Cookie=f"x-fanwright-{port}={studio.key}"), 403),
        ("wrong key in the address", head("GET", f"/?key={'f' * 32}", Cookie=None), 403),
        # Paths
        ("traversal", head("GET", "/../../etc/passwd"), 404),
        ("traversal in assets", head("GET", "/assets/../../../etc/passwd"), 404),
        ("encoded traversal", head("GET", "/%2e%2e/%2e%2e/etc/passwd"), 404),
        ("backslashes", head("GET", "/..\\..\\etc\\passwd"), 404),
        ("null in the path", head("GET", "/index.html%00.js"), 404),
        ("no such address", head("GET", "/api/nothing"), 404),
        ("no such design", head("GET", "/api/designs/ffffffff"), 404),
        ("events of no design", head("GET", "/api/events?design=ffffffff"), 404),
        ("design by path", head("GET", "/api/designs/..%2f..%2fetc"), 404),
        ("open by path", post(studio, "/api/designs", b'{"open":"../../etc/passwd"}'), 400),
        ("open by a name with a folder", post(studio, "/api/designs", b'{"open":"a/b.ornament.json"}'), 400),
        ("open what is not there", post(studio, "/api/designs", b'{"open":"no.ornament.json"}'), 404),
        ("open a hidden file", post(studio, "/api/designs", b'{"open":".pear.ornament.json"}'), 400),
        ("copy to a path", post(studio, f"/api/designs/{design}/copy",
                                b'{"name":"/tmp/evil.ornament.json","text":"{}"}'), 400),
        ("lap of words", post(studio, f"/api/designs/{design}/kit", b'{"text":"{}","lap_mm":"wide"}'), 400),
        ("lap below nothing", post(studio, f"/api/designs/{design}/kit", b'{"text":"{}","lap_mm":-1}'), 400),
        ("copy to another ending", post(studio, f"/api/designs/{design}/copy", b'{"name":"evil.sh","text":"{}"}'), 400),
        ("empty path", b"GET  HTTP/1.1\r\n\r\n", 400),
        ("relative path", b"GET index.html HTTP/1.1\r\n\r\n", 400),
        ("absolute address", f"GET http://evil.example/ HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\n\r\n".encode(), 400),
        ("very long address", head("GET", "/" + "a" * 9000), (404, 414)),
        # Methods
        ("wrong method", head("GET", "/api/outline"), 405),
        ("wrong method for the bench", post(studio, "/api/bench", b"{}"), 405),
        ("put", post(studio, "/api/bench", b"{}").replace(b"POST", b"PUT", 1), 405),
        ("delete everything", head("DELETE", "/api/designs", Content_Type="application/json"), 405),
        ("trace", head("TRACE", "/"), (400, 405)),
        ("connect", head("CONNECT", "/"), (400, 405)),
        ("made-up method", head("FOLD", "/"), (400, 405)),
        ("page by post", post(studio, "/", b"{}"), 405),
        # Bodies
        ("form body", post(studio, shape, b"revision=1", Content_Type="application/x-www-form-urlencoded"), 415),
        ("plain text body", post(studio, shape, body, Content_Type="text/plain"), 415),
        ("no content type", post(studio, shape, body, Content_Type=None), 415),
        ("no JSON", post(studio, shape, b"{revision:1}"), 400),
        ("empty body", post(studio, shape, b""), 400),
        ("half a body's JSON", post(studio, shape, body[: len(body) // 2]), 400),
        ("a list", post(studio, shape, b"[1,2,3]"), 400),
        ("wrong types", post(studio, shape, b'{"revision":"1","size":3,"text":[]}'), 400),
        ("negative revision", post(studio, shape, b'{"revision":-1,"size":"","text":""}'), 400),
        ("huge revision", post(studio, shape, b'{"revision":1e400,"size":"","text":""}'), 400),
        ("deep JSON", post(studio, shape, deep), 400),
        ("deep JSON in objects", post(studio, shape, b'{"a":' * 100_000), 400),
        ("not UTF-8", post(studio, shape, b'{"revision":1,"size":"","text":"\xff\xfe"}'), 400),
        ("not UTF-8 at all", post(studio, shape, bytes(range(128, 256)) * 10), 400),
        ("zero bytes", post(studio, shape, b"\0" * 1000), 400),
        ("no path data", post(studio, "/api/outline", b'{"path":"M 0 0 Q"}'), 400),
        ("endless numbers", post(studio, "/api/outline", b'{"path":"M 0 0 L ' + b"1e999 " * 1000 + b'"}'), 400),
        ("unknown units", post(studio, "/api/outline", b'{"path":"M 0 0","units":"ell"}'), 400),
        ("unknown starter", post(studio, "/api/designs", b'{"starter":"nothing"}'), 404),
        ("two ways to open", post(studio, "/api/designs", b'{"starter":"pear","blank":true}'), 400),
        ("unknown size", post(studio, shape, json.dumps({"revision": 1, "size": "nothing", "text": text}).encode()), 400),
        ("journal of no lines", post(studio, f"/api/designs/{design}/journal", b'{"lines":7}'), 400),
        ("save of no JSON", post(studio, f"/api/designs/{design}/save",
                                 json.dumps({"text": "{", "even_if_changed": True}).encode()), 400),
        ("mesh without a revision", head("GET", f"/api/designs/{design}/mesh"), 400),
        ("mesh of an old revision", head("GET", f"/api/designs/{design}/mesh?revision=999999&size=small"), 410),
        ("mesh of nonsense", head("GET", f"/api/designs/{design}/mesh?revision=nan&size=%ff"), 400),
        # Sizes and lengths
        ("announced huge body", head("POST", shape, Content_Type="application/json", Content_Length="99999999999"), 413),
        ("length beyond numbers", head("POST", shape, Content_Type="application/json", Content_Length="9" * 40), 413),
        ("negative length", head("POST", shape, Content_Type="application/json", Content_Length="-5"), 400),
        ("two lengths", head("POST", shape, Content_Type="application/json", Content_Length="5")[:-2]
         + b"Content-Length: 6\r\n\r\nhello!", 400),
        ("chunks", head("POST", shape, Content_Type="application/json", Transfer_Encoding="chunked")
         + b"5\r\nhello\r\n0\r\n\r\n", 411),
        ("sent huge body", post(studio, shape, b"x" * 1_300_000), (413, 0)),
        ("large body for the import without a key", post(studio, "/api/import", b"x" * 1_300_000, Cookie=None), (413, 0)),
        ("many headers", head("GET", "/", **{f"X-{k}": "1" for k in range(100)}), 431),
        ("one long header", head("GET", "/", X_Long="a" * 40_000), 431),
        ("endless head", b"GET / HTTP/1.1\r\n" + b"X: y\r\n" * 20_000, (431, 0)),
        ("range", head("GET", "/", Range="bytes=0-1"), 416),
        ("many ranges", head("GET", "/", Range="bytes=" + ",".join(["0-"] * 1000)), 416),
        # What is no request
        ("noise", bytes(random.Random(1).randrange(256) for _ in range(500)) + b"\r\n\r\n", 400),
        ("TLS hello", b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03" + b"\0" * 100 + b"\r\n\r\n", 400),
        ("nothing", b"\r\n\r\n", 400),
        ("old version", f"GET / HTTP/0.9\r\nHost: 127.0.0.1:{port}\r\n\r\n".encode(), 400),
        ("header without colon", head("GET", "/")[:-2] + b"nonsense\r\n\r\n", 400),
        ("folded header", head("GET", "/")[:-2] + b" folded\r\n\r\n", 400),
        ("line feed in a header", head("GET", "/")[:-2] + b"X: a\nHost: evil.example\r\n\r\n", 400),
        ("space before the colon", head("GET", "/")[:-2] + b"X : a\r\n\r\n", 400),
        ("two requests in one", head("GET", "/api/bench") + head("DELETE", f"/api/designs/{design}"), 200),
    ]


class EditingPage(threading.Thread):
    """Somebody who draws all the while: every answer has to be her own, and prompt."""

    def __init__(self, studio, design, text):
        super().__init__(daemon=True)
        self.studio, self.design, self.text = studio, design, text
        self.stop, self.times, self.wrong = False, [], []

    def run(self):
        revision = 1000
        while not self.stop:
            revision += 1
            start = time.monotonic()
            text = self.text.replace('"leaves": 42', f'"leaves": {40 + revision % 5}')
            status, answer = self.studio.shape(self.design, revision, text, "medium")
            if status != 200 or answer["revision"] != revision or "form" not in answer:
                self.wrong.append((status, str(answer)[:200]))
            self.times.append(time.monotonic() - start)
            time.sleep(0.05)


def slow_bodies(studio, design, connections):
    """Senders that stop half-way: answered with 408 or dropped."""
    path, sockets = f"/api/designs/{design}/shape", []
    for _ in range(connections):
        sockets.append(studio.connect(timeout=20))
        sockets[-1].sendall(studio.head("POST", path, Content_Type="application/json", Content_Length="100") + b"{")
    return sockets


def memory_kb(process):
    with open(f"/proc/{process.pid}/status") as status:
        return int(next(line for line in status if line.startswith("VmRSS")).split()[1])


def descriptors(process):
    return len(os.listdir(f"/proc/{process.pid}/fd"))


def send_all(studio, cases, lanes=4):
    """All cases over and over, in a few lanes at once, until `count` have been sent."""
    jobs = [cases[k % len(cases)] for k in range(count)]

    def lane(first):
        for name, data, wanted in jobs[first::lanes]:
            expect(name, studio.raw(data)[0], wanted)

    threads = [threading.Thread(target=lane, args=(k,)) for k in range(lanes)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()


with tempfile.TemporaryDirectory() as folder:
    shutil.copy(os.path.join(examples, "pear.ornament.json"), folder)
    with Studio(program, folder, "pear.ornament.json") as studio:
        status, bench = studio.ask("GET", "/api/bench")
        expect("bench", status, 200)
        design = bench["first"]
        text = studio.ask("GET", f"/api/designs/{design}")[1]["text"]
        # A mesh asked for without naming a size is that of the first.
        expect("a first shape", studio.shape(design, 1, text)[0], 200)
        named, unnamed = (studio.ask("GET", f"/api/designs/{design}/mesh?revision=1&size={size}") for size in ("small", ""))
        expect("mesh of the first size", unnamed[0] if unnamed == named else "another mesh", 200)
        # Twenty pages are open: they listen, and one of them draws.
        pages = [Events(studio, design) for _ in range(20)]
        editing = EditingPage(studio, design, text)
        editing.start()
        cases = requests(studio, design, text)
        for name, data, wanted in cases:
            expect(name, studio.raw(data)[0], wanted)
        time.sleep(2)  # forms have been solved and let go again
        before = memory_kb(studio.process), descriptors(studio.process)
        slow = slow_bodies(studio, design, 40)
        send_all(studio, cases)
        for connection in slow:
            expect("slow body", read_answer(connection)[0], (408, 0))
            connection.close()
        time.sleep(0.7)
        after = memory_kb(studio.process), descriptors(studio.process)
        editing.stop = True
        editing.join()
        if studio.process.poll() is not None:
            failures.append("the studio has ended")
        if any(page.ended or page.status != 200 for page in pages):
            failures.append("a listening page was cut off")
        if editing.wrong:
            failures.append(f"the editing page got {editing.wrong[:3]}")
        # Twelve forms and their meshes may be kept; what grows with the number of requests is a leak.
        if after[0] > before[0] + 40_000:
            failures.append(f"memory grew from {before[0]} to {after[0]} kB")
        if after[1] > before[1] + 12:
            failures.append(f"open files grew from {before[1]} to {after[1]}")
        times = sorted(editing.times)
        print(f"{count} requests; {len(times)} edits beside them, median {1e3 * times[len(times) // 2]:.0f} ms; "
              f"memory {before[0]} -> {after[0]} kB, files {before[1]} -> {after[1]}")
        for page in pages:
            page.close()
    if studio.process.returncode != 0:
        failures.append(f"exit code {studio.process.returncode} after an interrupt")

for failure in failures[:40]:
    print(failure, file=sys.stderr)
sys.exit(1 if failures else 0)
