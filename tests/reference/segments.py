"""Cuts random texts for SMS again with smsutil, and encodes them with gsm0338.

Usage: segments.py CASES.json. Exits 1 and names the first differences.
"""

import json
import sys

import gsm0338
import smsutil

CODEC = gsm0338.Codec()


def fits(text):
    try:
        CODEC.encode(text, "strict")
        return True
    except UnicodeError:
        return False


def main():
    wrong = []
    cases = json.load(open(sys.argv[1]))
    for case in cases:
        text = case["text"]
        theirs = [part.content for part in smsutil.split(text).parts] or [""]
        if fits(text) != case["gsm"]:
            wrong.append(f"alphabet of {text!r}")
        if [part for part in theirs] != case["parts"]:
            wrong.append(f"{text!r}: {[len(p) for p in theirs]}, not {[len(p) for p in case['parts']]}")
    print(f"{len(cases)} texts, {len(wrong)} cut otherwise")
    print("\n".join(wrong[:5]))
    sys.exit(bool(wrong))


main()
