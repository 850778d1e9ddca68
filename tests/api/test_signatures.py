"""Messages signed by another implementation of Standard Webhooks (its Python
library), the two published vectors' secrets both alive on the server."""

import json
import os
import time
from datetime import datetime, timezone

import pytest
import requests
from standardwebhooks import Webhook

URL = os.environ["LAPWING_URL"] + "/v1/messages"
NEW, OLD = os.environ["LAPWING_SECRET"].split()
OTHER = "whsec_" + "A" * 43 + "="
# Seconds between signing and arrival, here, on one machine.
SLACK = 20


def send(identity, text="help", secret=NEW, at=0, sent=None, signature=None):
    body = json.dumps({"id": identity, "from": "+15550101", "text": text})
    now = int(time.time()) + at
    signature = signature or Webhook(secret).sign(
        identity, datetime.fromtimestamp(now, timezone.utc), body)
    headers = {"content-type": "application/json", "webhook-id": identity,
               "webhook-timestamp": str(now), "webhook-signature": signature}
    return requests.post(URL, data=(sent or body).encode(), headers=headers, timeout=20)


def test_a_message_is_taken_and_its_repeat_is_answered_from_the_store():
    first = send("py-1").json()
    again = send("py-1", at=2).json()
    assert (first["duplicate"], again["duplicate"]) == (False, True)
    assert {**first, "duplicate": True} == again
    assert send("py-1", text="squad").status_code == 409


@pytest.mark.parametrize("secret, status", [(NEW, 200), (OLD, 200), (OTHER, 401)])
def test_both_live_keys_hold_and_no_other(secret, status):
    assert send("py-" + secret[6:10], secret=secret).status_code == status


def test_an_altered_body_is_refused():
    altered = json.dumps({"id": "py-2", "from": "+15550101", "text": "squad"})
    assert send("py-2", sent=altered).status_code == 401


@pytest.mark.parametrize("at, status", [(-301, 401), (301 + SLACK, 401),
                                        (-300 + SLACK, 200), (300 - SLACK, 200)])
def test_five_minutes_either_way(at, status):
    assert send(f"py-at{at}", at=at).status_code == status


def test_one_signature_that_holds_is_enough():
    body = json.dumps({"id": "py-3", "from": "+15550101", "text": "help"})
    good = Webhook(OLD).sign("py-3", datetime.now(timezone.utc), body)
    assert send("py-3", signature=f"v1,AAAA v2,{good[3:]} {good} v1,").status_code == 200
    assert send("py-4", signature="v1,").status_code == 401
