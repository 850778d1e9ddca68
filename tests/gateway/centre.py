"""The phones' side of Kannel's fake short-message centre.

The centre's protocol is a line a message, `FROM TO TYPE WORDS`: `text` with the
words as they are, their own line ends included; `udh` with a header, then the
words, both as percent-encoded bytes. Parts of one text (3GPP TS 23.040, 9.2.3.24.1: `05 00 03`, reference,
count, number) are joined here as a phone joins them.
"""

import collections
import re
import socket
import threading
import time
import urllib.parse

MESSAGE = re.compile(rb"12345 (?P<phone>\+\d+) (?P<kind>text|udh) (?P<words>.*)", re.DOTALL)


class Centre:
    """Sends as any phone and keeps what each phone gets."""

    def __init__(self, port=10000):
        self.socket = connected(port)
        self.lock = threading.Lock()
        self.got = collections.defaultdict(list)  # phone -> texts, whole
        self.parts = {}  # (phone, reference) -> {number: bytes}
        self.most_parts = 0
        self.last = time.monotonic()
        self.phone = None  # the one that got the latest line
        self.broken = None  # what could not be read
        threading.Thread(target=self._read, daemon=True).start()

    def send(self, phone, words):
        assert "\n" not in words
        self.socket.sendall(f"{phone} 12345 text {words}\n".encode())

    def count(self):
        with self.lock:
            return sum(map(len, self.got.values()))

    def texts(self, phone):
        with self.lock:
            return list(self.got[phone])

    def _read(self):
        line = b""
        try:
            for line in self.socket.makefile("rb"):
                with self.lock:
                    self.last = time.monotonic()
                    self._take(line.rstrip(b"\n"))
        except Exception as error:
            self.broken = (error, line)

    def _take(self, line):
        message = MESSAGE.match(line)
        if message is None:
            self.got[self.phone][-1] += "\n" + line.decode()
            return
        phone, words = message["phone"].decode(), message["words"]
        self.phone = phone
        if message["kind"] == b"text":
            self.got[phone].append(words.decode())
            return
        header, _, data = words.split(b" ")
        header, data = unquoted(header), unquoted(data)
        assert header[:3] == b"\x05\x00\x03" and len(header) == 6, header
        assert len(data) <= 153, "a part is too long for its 140 octets"
        reference, count, number = header[3:]
        parts = self.parts.setdefault((phone, reference), {})
        assert number not in parts, "a part came twice"
        parts[number] = data
        if len(parts) == count:
            self.most_parts = max(self.most_parts, count)
            del self.parts[phone, reference]
            self.got[phone].append(b"".join(parts[n + 1] for n in range(count)).decode())


def unquoted(word):
    return urllib.parse.unquote_to_bytes(word.replace(b"+", b" "))


def connected(port):
    deadline = time.monotonic() + 20
    while True:
        try:
            return socket.create_connection(("127.0.0.1", port))
        except OSError:
            assert time.monotonic() < deadline, f"nobody listens on {port}"
            time.sleep(0.05)
