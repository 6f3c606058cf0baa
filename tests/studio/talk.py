"""Speaks with a running studio over plain sockets, so that requests no browser would send can be sent too."""

import json
import os
import re
import signal
import socket
import subprocess
import threading
import time
import urllib.parse


class Studio:
    """fanwright studio on a folder, for as long as the `with` block lasts."""

    def __init__(self, program, folder, file=None, cwd=None):
        command = [program, "studio", "--no-browser"] + ([os.path.join(folder, file)] if file else [])
        self.process = subprocess.Popen(command, cwd=cwd or folder, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        line = self.process.stdout.readline().decode()
        found = re.fullmatch(r"Fanwright studio: http://127\.0\.0\.1:(\d+)/\?key=([0-9a-f]{32})  \(Ctrl\+C ends it\)\n", line)
        if not found:
            raise AssertionError(f"no address: {line!r} {self.process.stderr.read()!r}")
        self.port, self.key = int(found[1]), found[2]

    def __enter__(self):
        return self

    def __exit__(self, *_):
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGINT)
            try:
                self.process.wait(20)
            except subprocess.TimeoutExpired:
                self.process.kill()
                raise
        self.process.stdout.close()
        self.process.stderr.close()

    def kill(self):
        self.process.kill()
        self.process.wait()

    # ---- Requests ----------------------------------------------------------------------------------------------------

    def connect(self, timeout=15):
        return socket.create_connection(("127.0.0.1", self.port), timeout=timeout)

    def head(self, method, path, **headers):
        """The head of a request as our own page sends it; headers given replace those, None leaves one out."""
        all_headers = {"Host": f"127.0.0.1:{self.port}", "Cookie": f"fanwright-{self.port}={self.key}",
                       "Sec-Fetch-Site": "same-origin"}
        for name, value in headers.items():
            name = name.replace("_", "-")
            all_headers.pop(name, None)
            if value is not None:
                all_headers[name] = value
        lines = [f"{method} {path} HTTP/1.1"] + [f"{name}: {value}" for name, value in all_headers.items()]
        return ("\r\n".join(lines) + "\r\n\r\n").encode("latin-1")

    def raw(self, data, timeout=15):
        """Sends bytes as they are; (status, headers, body), status 0 when the connection was closed without a word."""
        with self.connect(timeout) as connection:
            try:
                connection.sendall(data)
            except (BrokenPipeError, ConnectionResetError):
                pass
            return read_answer(connection)

    def ask(self, method, path, body=None, **headers):
        """A request of our own page; (status, JSON or bytes)."""
        data = b""
        if body is not None:
            data = body if isinstance(body, bytes) else json.dumps(body).encode()
        if method != "GET":
            headers.setdefault("Content_Type", "application/json")
            headers["Content_Length"] = str(len(data))
        status, found, content = self.raw(self.head(method, path, **headers) + data)
        if found.get("content-type", "").startswith("application/json") and content:
            return status, json.loads(content)
        return status, content

    def shape(self, design, revision, text, size=""):
        return self.ask("POST", f"/api/designs/{design}/shape", {"revision": revision, "size": size, "text": text})


def read_answer(connection):
    data = b""
    try:
        while block := connection.recv(65536):
            data += block
    except (ConnectionResetError, TimeoutError, socket.timeout):
        pass
    head, _, body = data.partition(b"\r\n\r\n")
    while head.startswith(b"HTTP/1.1 100"):
        head, _, body = body.partition(b"\r\n\r\n")
    if not head.startswith(b"HTTP/1.1 "):
        return 0, {}, b""
    lines = head.decode("latin-1").split("\r\n")
    headers = {}
    for line in lines[1:]:
        name, _, value = line.partition(":")
        headers[name.strip().lower()] = value.strip()
    return int(lines[0].split()[1]), headers, body


class Events:
    """One page listening to a design: events as they come, in a thread."""

    def __init__(self, studio, design):
        self.connection = studio.connect(timeout=60)
        self.connection.sendall(studio.head("GET", f"/api/events?design={design}"))
        self.came = []  # (name, value, seconds)
        self.condition = threading.Condition()
        self.ended = False
        self.status = None
        self.thread = threading.Thread(target=self._read, daemon=True)
        self.thread.start()

    def _read(self):
        rest = b""
        try:
            while block := self.connection.recv(65536):
                rest += block
                if self.status is None and b"\r\n\r\n" in rest:
                    self.status = int(rest.split(b" ", 2)[1])
                rest = self._take_events(rest)
        except OSError:
            pass
        with self.condition:
            self.ended = True
            self.condition.notify_all()

    def _take_events(self, rest):
        # Chunk sizes stand on lines of their own and are no part of an event's lines.
        pattern = re.compile(rb"event: (\w+)\ndata: ([^\n]*)\n\n")
        plain = re.sub(rb"\r\n[0-9a-fA-F]+\r\n", b"", rest)
        end = 0
        for match in pattern.finditer(plain):
            end = match.end()
            with self.condition:
                self.came.append((match[1].decode(), json.loads(match[2]), time.monotonic()))
                self.condition.notify_all()
        return plain[end:]

    def wait(self, passes, seconds=30):
        """The first event that passes, or None."""
        deadline = time.monotonic() + seconds
        with self.condition:
            while True:
                for event in self.came:
                    if passes(event):
                        return event
                left = deadline - time.monotonic()
                if left <= 0 or self.ended:
                    return None
                self.condition.wait(left)

    def close(self):
        try:
            self.connection.shutdown(socket.SHUT_RDWR)
        except OSError:
            pass
        self.connection.close()


def quoted(text):
    return urllib.parse.quote(text)
