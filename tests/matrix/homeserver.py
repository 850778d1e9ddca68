"""A real homeserver on loopback, and people who use it by its client API."""

import json
import os
import pathlib
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.parse
import urllib.request

import yaml

PATIENCE = 60


HELD = []


def free_port():
    """A port that nobody else is given while we run: it is held without listening on it."""
    held = socket.socket()
    held.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    held.bind(("127.0.0.1", 0))
    HELD.append(held)
    return held.getsockname()[1]


def until(what, found, patience=PATIENCE):
    """What `found` gives, once it gives something."""
    end = time.monotonic() + patience
    while True:
        try:
            got = found()
        except (OSError, urllib.error.URLError):
            got = None
        if got:
            return got
        if time.monotonic() > end:
            raise SystemExit(f"matrix: {what} does not come")
        time.sleep(0.05)


class Homeserver:
    """Synapse with an SQLite store in a folder of its own."""

    def __init__(self, folder, registration):
        self.folder = pathlib.Path(folder)
        self.port = free_port()
        self.url = f"http://127.0.0.1:{self.port}"
        self.config = self.folder / "homeserver.yaml"
        self.process = None
        self.synapse("--server-name", "localhost", "--generate-config", "--report-stats=no")
        settings = yaml.safe_load(self.config.read_text())
        listener = {
            "port": self.port,
            "type": "http",
            "bind_addresses": ["127.0.0.1"],
            "resources": [{"names": ["client"]}],
        }
        settings |= {
            "listeners": [listener],
            "trusted_key_servers": [],
            "federation_domain_whitelist": [],
            "enable_registration": True,
            "enable_registration_without_verification": True,
            "app_service_config_files": [str(registration)],
            "rc_message": {"per_second": 1000, "burst_count": 1000},
            "rc_registration": {"per_second": 1000, "burst_count": 1000},
            "rc_joins": {"local": {"per_second": 1000, "burst_count": 1000}},
        }
        self.config.write_text(yaml.safe_dump(settings))

    def synapse(self, *arguments, **more):
        program = [sys.executable, "-m", "synapse.app.homeserver", "-c", str(self.config)]
        return subprocess.run(
            [*program, *arguments], cwd=self.folder, check=True, capture_output=True, **more
        )

    def start(self):
        log = (self.folder / "out.log").open("a")
        self.process = subprocess.Popen(
            [sys.executable, "-m", "synapse.app.homeserver", "-c", str(self.config)],
            cwd=self.folder,
            stdout=log,
            stderr=log,
        )
        until("the homeserver", lambda: urllib.request.urlopen(f"{self.url}/health").status == 200)

    def stop(self):
        if self.process and self.process.poll() is None:
            self.process.send_signal(signal.SIGTERM)
            self.process.wait(timeout=PATIENCE)


class Person:
    """Someone with an account and a client."""

    def __init__(self, homeserver, name):
        self.base = f"{homeserver.url}/_matrix/client/v3"
        self.id = f"@{name}:localhost"
        self.token = None
        self.sent = 0
        self.since = ""
        self.invitations = {}
        wish = {"username": name, "password": f"{name}-plover", "auth": {"type": "m.login.dummy"}}
        self.token = self.ask("POST", "/register", wish)["access_token"]

    def ask(self, method, path, body=None):
        request = urllib.request.Request(
            self.base + path,
            method=method,
            data=None if body is None else json.dumps(body).encode(),
            headers={"Content-Type": "application/json"},
        )
        if self.token:
            request.add_header("Authorization", f"Bearer {self.token}")
        with urllib.request.urlopen(request, timeout=PATIENCE) as answer:
            return json.load(answer)

    def open(self, *others, direct=False):
        wish = {"preset": "private_chat", "invite": list(others), "is_direct": direct}
        return self.ask("POST", "/createRoom", wish)["room_id"]

    def join(self, room):
        self.ask("POST", f"/join/{quoted(room)}", {})

    def invitation_from(self, other):
        """A room that the other asks us into, and whether it is for two."""
        # From where the last one ended: the same question gets a stored answer.
        sync = self.ask("GET", f"/sync?timeout=0{self.since}")
        self.since = f"&since={quoted(sync['next_batch'])}"
        self.invitations |= sync.get("rooms", {}).get("invite", {})
        for room, invited in self.invitations.items():
            for event in invited["invite_state"]["events"]:
                ours = event["type"] == "m.room.member" and event.get("state_key") == self.id
                if ours and event["sender"] == other:
                    return room, event["content"].get("is_direct", False)
        return None

    def say(self, room, text, **more):
        self.sent += 1
        content = {"msgtype": "m.text", "body": text, **more}
        path = f"/rooms/{quoted(room)}/send/m.room.message/{os.getpid()}-{self.sent}"
        return self.ask("PUT", path, content)["event_id"]

    def inside(self, room):
        return self.ask("GET", f"/rooms/{quoted(room)}/joined_members")["joined"]

    def heard(self, room, sender):
        """What this sender said in a room, oldest first: kind and words."""
        events, start = [], ""
        while True:
            page = self.ask("GET", f"/rooms/{quoted(room)}/messages?dir=b&limit=100{start}")
            events += page["chunk"]
            if not page.get("end"):
                break
            start = f"&from={quoted(page['end'])}"
        said = [
            one["content"]
            for one in reversed(events)
            if one["type"] == "m.room.message" and one["sender"] == sender
        ]
        assert all(content["msgtype"] == "m.notice" for content in said), said
        return said


def quoted(word):
    return urllib.parse.quote(word, safe="")
