"""Swimmers text by a real SMS gateway; every text gets its own answer, once.

Usage: kannel.py LAPWING MESSAGES, in a network namespace of its own.

1. Two squads join by SMS.
2. MESSAGES distinct texts, of results and of words in other scripts; each is
   answered exactly once, each result with its own time.
3. The same again with other results, the program killed (SIGKILL) in the middle
   and started again a second later: Kannel repeats under the id it gave (`%I`),
   and the answer comes from the store.
4. A text in UCS-2 (UTF-16BE), by a centre over HTTP.
5. Silence for who has opted out; alarms to the coaches through Kannel's own
   address for sending, none to the one who opted out.

Before the alarms the journal holds one entry a message and no more. An alarm may leave a
few: it goes by real time, is tried again within seconds, and whoever raised it is told
that nobody was reached, which all may happen on a busy machine.
"""

import collections
import http.server
import pathlib
import queue
import re
import signal
import subprocess
import sys
import tempfile
import threading
import time
import urllib.parse
import urllib.request

from centre import Centre, connected

HERE = pathlib.Path(__file__).resolve().parent
PATIENCE_S = 120
# How long nothing may come before we believe that nothing more will.
QUIET_S = 2.0
SWIMMERS = 50
COACHES = ["+1555000100", "+1555000200"]
PHONES = [f"+15550010{n:02}" for n in range(SWIMMERS)]
UCS_2_PHONE = "+15559000001"
NUMBERS = [*COACHES, *PHONES, UCS_2_PHONE]
ABROAD = ["привет, как дела", "二百米 测试", "שלום", "مرحبا", "γειά σου", "\U0001f3ca \U0001f44b", "łódź"]
SECRETS = {"KANNEL_TOKEN": "wren-7", "KANNEL_PASSWORD": "plover-9"}


class Lapwing:
    """The program, killed or stopped at will, with its log kept."""

    def __init__(self, program, folder):
        self.program, self.folder = program, folder
        self.log = open(folder / "lapwing.log", "w")

    def run(self, *arguments):
        done = subprocess.run([self.program, *arguments], cwd=self.folder, check=True,
                              capture_output=True, text=True, env={})
        return done.stdout.splitlines()

    def start(self):
        self.serving = subprocess.Popen(
            [self.program, "serve", "--config", HERE / "lapwing.toml"], cwd=self.folder,
            env={**SECRETS, "RUST_LOG": "lapwing=debug"}, stderr=self.log)
        connected(7373).close()

    def entries(self):
        """How many entries the journal holds."""
        return int(self.run("check")[-2].split()[0])

    def kill(self):
        self.serving.kill()
        self.serving.wait()

    def stop(self):
        self.serving.terminate()
        assert self.serving.wait(15) == 0


def main():
    program, messages = pathlib.Path(sys.argv[1]).resolve(), int(sys.argv[2])
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        lapwing = Lapwing(program, folder)
        boxes = []
        try:
            codes = [lapwing.run("squad", "add", f"Squad {n}", "--coach", coach, "--ready")[1]
                     .removeprefix("join ") for n, coach in enumerate(COACHES)]
            lapwing.start()
            boxes = kannel(folder)
            least = talk(lapwing, codes, messages)
            lapwing.stop()
            entries = lapwing.entries()
            # A failed try, a notice and its delivery.
            assert least <= entries <= least + 3 * SWIMMERS, f"{entries} entries, not {least}"
            log = (folder / "lapwing.log").read_text()
            # Whole numbers: six digits of one also turn up in a time or a request's id.
            for hidden in [*SECRETS.values(), *(number[1:] for number in NUMBERS), "привет"]:
                assert hidden not in log, f"{hidden} is in the log"
        except BaseException:
            for name in ["lapwing.log", "smsbox.log", "bearerbox.log"]:
                if (folder / name).exists():
                    print(f"-- {name}\n" + (folder / name).read_text(errors="replace")[-1500:], file=sys.stderr)
            raise
        finally:
            for process in [*boxes, lapwing.serving]:
                process.kill()
                process.wait()


def kannel(folder):
    boxes = []
    for box, port in [("bearerbox", 13001), ("smsbox", 13013)]:
        log = open(folder / f"{box}.log", "w")
        command = [box, "-v", "2", HERE / "kannel.conf"]
        boxes.append(subprocess.Popen(command, cwd=folder, stdout=log, stderr=log))
        connected(port).close()
    return boxes


def talk(lapwing, codes, messages):
    """All the conversations; gives how many entries they should have left."""
    centre = Centre()
    phones = PHONES
    # From Sunday evening to Monday evening each would get the week's summary beside what is
    # counted here.
    for coach in COACHES:
        centre.send(coach, "digest off")
    settled(centre, len(COACHES))
    for n, phone in enumerate(phones):
        centre.send(phone, f"join {codes[n % 2]} swimmer{chr(97 + n // 26)}{chr(97 + n % 26)}")
    # Each is welcomed, and a coach is told of each.
    settled(centre, len(COACHES) + 2 * SWIMMERS)
    assert all(len(centre.texts(phone)) == 1 for phone in phones)
    entries = len(COACHES) + 2 * SWIMMERS

    for killed in [False, True]:
        begun, before = time.monotonic(), centre.count()
        sent = results(phones, messages, later=killed)
        already = {phone: len(centre.texts(phone)) for phone in phones}
        for at, (phone, words, _) in enumerate(sent):
            if killed and at == len(sent) // 2:
                while centre.count() < before + len(sent) // 4:
                    time.sleep(0.001)
                lapwing.kill()
                answered = centre.count() - before
                threading.Timer(1.0, lapwing.start).start()
            centre.send(phone, words)
        settled(centre, before + messages)
        answered_each(centre, sent, already)
        seconds = time.monotonic() - begun - QUIET_S
        note = f", killed after {answered} answers and started again" if killed else ""
        print(f"{messages} texts, {messages} answers, {seconds:.1f} s{note}")
        entries += messages
    assert centre.most_parts >= 2, "no answer came in parts"

    # Who joined on the way is told to the coach by the centre.
    before = centre.count()
    entries += utf_16(codes[0])
    settled(centre, before + 1)
    # With the squads; and one for each letter's delivery, which is told after the letter.
    entries += len(COACHES)
    deadline = time.monotonic() + PATIENCE_S
    while (held := lapwing.entries()) < entries and time.monotonic() < deadline:
        time.sleep(0.05)
    assert held == entries, f"{held} entries, not {entries}"
    return entries + opted_out(centre, phones)


def results(phones, messages, later):
    """(phone, words, what its answer holds), each a text that no other is."""
    sent = []
    for at in range(messages):
        phone = phones[at % len(phones)]
        if at % 10 == 9:
            words = ABROAD[at // 10 % len(ABROAD)]
            sent.append((phone, f"{words} {at}{'b' if later else ''}", None))
            continue
        # Of one swimmer close enough to each other to be believed.
        hundredths = 15000 + 210 * (at % len(phones)) + 10 * (at // len(phones)) + 5 * later
        typed = f"{hundredths // 6000}:{hundredths % 6000 / 100:05.2f}"
        sent.append((phone, f"200 test {typed}", typed.removesuffix("0").removesuffix(".0")))
    assert len({words for _, words, _ in sent}) == messages
    return sent


def settled(centre, expected):
    """Waits until so many answers are there, and until no more come."""
    deadline = time.monotonic() + PATIENCE_S
    while came(centre) < expected or time.monotonic() < centre.last + QUIET_S:
        assert centre.broken is None, centre.broken
        assert time.monotonic() < deadline, f"{came(centre)} of {expected} answers came; {centre.parts}"
        time.sleep(0.05)
    assert came(centre) == expected, f"{came(centre)} answers, not {expected}"


def came(centre):
    """All that phones got, but for what alarms may cause besides on a busy machine."""
    notices = sum("not reached your coach" in text for phone in PHONES for text in centre.texts(phone))
    alerts = [text for text in centre.texts(COACHES[0]) if "ALERT" in text]
    return centre.count() - notices - (len(alerts) - len(set(alerts)))


def answered_each(centre, sent, already):
    """That every text has an answer of its own."""
    wanted = collections.defaultdict(list)
    for phone, _, shown in sent:
        wanted[phone].append(shown)
    answers = set()
    for phone, times in wanted.items():
        got = centre.texts(phone)[already[phone]:]
        assert len(got) == len(times), f"{phone} has {len(got)} answers to {len(times)} texts"
        for shown in filter(None, times):
            stored = [text for text in got if re.search(rf"\b200 free {shown} stored", text)]
            assert len(stored) == 1, f"{shown}: {len(stored)} answers\n" + "\n".join(got)
            answers.add(stored[0])
        assert not any("unavailable" in text for text in got)
    assert len(answers) == sum(shown is not None for _, _, shown in sent)


def utf_16(code):
    """Texts that come in UCS-2 are read, full-width digits and all."""
    answers = queue.Queue()

    class Phone(http.server.BaseHTTPRequestHandler):
        def do_GET(self):
            query = urllib.parse.parse_qs(urllib.parse.urlsplit(self.path).query)
            answers.put(query["text"][0])
            self.send_response(202)
            self.end_headers()
            self.wfile.write(b"Sent.")

        def log_message(self, *_):
            pass

    server = http.server.ThreadingHTTPServer(("127.0.0.1", 8100), Phone)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    for words, answer in [(f"join {code} \u2019plover\u2019", "plover"),
                          ("\uff12\uff10\uff10 test \uff13:\uff15\uff19.\uff11", "200 free 3:59.1 stored")]:
        query = urllib.parse.urlencode({
            "username": "web", "password": "local", "from": UCS_2_PHONE, "to": "12345",
            "coding": "2", "charset": "UTF-16BE", "text": words.encode("utf-16-be")})
        urllib.request.urlopen(f"http://127.0.0.1:10001/sms?{query}").close()
        said = ""
        while answer not in said:
            said += answers.get(timeout=PATIENCE_S)
    print("2 texts in UCS-2, 2 answers")
    return 3


def opted_out(centre, phones):
    """Silence, and alarms by Kannel's own address for sending."""
    quiet, before = phones[1], centre.count()
    centre.send(quiet, "STOP")
    settled(centre, before + 1)
    centre.send(quiet, "200 test 2:59")
    centre.send(COACHES[1], "stop")
    settled(centre, before + 2)

    for at, phone in enumerate(phones):
        centre.send(phone, f"felt dizzy {at}")
    # Each swimmer is told what to do, the one who opted out too; the coach who
    # did not is told of each of his.
    alarms = len(phones) // 2
    settled(centre, before + 2 + len(phones) + alarms)
    told = {text for text in centre.texts(COACHES[0]) if "ALERT" in text}
    assert len(told) == alarms
    assert all("dizzy" in text or "faint" in text for text in told)
    assert not any("ALERT" in text for text in centre.texts(COACHES[1]))
    print(f"{alarms} alarms by the gateway, none to who opted out")
    return 3 + len(phones) + alarms


if __name__ == "__main__":
    signal.alarm(600)
    sys.exit(main())
