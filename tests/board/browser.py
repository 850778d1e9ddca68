"""The squad's page in a real browser: an evening is texted to the program, then
Chromium opens the page as a telephone, a tablet and a desk do, by day and by night,
prints it, and looks on while the set is cut and the server goes away.

    browser.py PROGRAM FOLDER      (screenshots and sheets go into FOLDER)

Drives ChromeDriver by the WebDriver protocol (W3C) with Python's own library.
Accessibility is checked by axe-core (Deque Systems)."""

import base64
import contextlib
import datetime
import hashlib
import hmac
import importlib.util
import json
import os
import pathlib
import re
import socket
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request
import zlib

HERE = pathlib.Path(__file__).parent
KEY = b"a key of thirty-two bytes or so!"
PEOPLE = ["coach", "heron", "teal", "wren", "siskin", "dunnock", "plover", "curlew", "snipe",
          "avocet", "dipper", "martin", "kestrel"]
# Widths and heights: a telephone, a tablet upright, a desk.
SIZES = {"phone": (390, 844), "tablet": (820, 1180), "desk": (1280, 800)}
# What is left of a desk's screen at 200 % and at 400 % (WCAG 2.2, 1.4.10).
ZOOMED = {"200 %": (640, 400), "400 %": (320, 256)}
PARTS = ["Stopped or hurting now", "Lanes", "To do", "Tonight's register", "The whole set",
         "Last paced set", "Tests", "The last four weeks", "Focus and next date", "To take along"]
AXE = pathlib.Path(importlib.util.find_spec("axe_playwright_python").origin).with_name("axe.min.js").read_text()
# Far more than it takes, on a busy machine too, and less than the half minute after which
# a page looks again though nothing was told.
SOON_S = 20
# A coach's own words are shown as words.
PLANT = "<script>document.title='planted'</script><b>not bold</b>"


def address(who):
    if who in PEOPLE:
        return f"+155501{PEOPLE.index(who):02}"
    return f"+1556{zlib.crc32(who.encode()) % 10**7:07}"


def fetch(url, body=None, headers=None, method=None):
    data = None if body is None else json.dumps(body).encode()
    request = urllib.request.Request(url, data, headers or {}, method=method)
    try:
        with urllib.request.urlopen(request, timeout=60) as answer:
            return json.load(answer)
    except urllib.error.HTTPError as refused:
        raise SystemExit(f"{request.get_method()} {request.selector}: {refused.read().decode()}")


class Program:
    """The program, with a squad of its own."""

    def __init__(self, program, folder, clock="message", zone="UTC"):
        pathlib.Path(folder).mkdir(exist_ok=True)
        environment = {"LAPWING_SECRET": "whsec_" + base64.b64encode(KEY).decode()}
        self.run = lambda *words: subprocess.Popen(
            [program, *words], cwd=folder, env=environment, text=True,
            stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        opened, said = self.run("squad", "add", "Dusk", "--coach", address("coach"), "--ready",
                                "--timezone", zone).communicate()
        assert opened, said
        self.code = re.search(r"^join (\S+)$", opened, re.M)[1]
        # Held without listening on it: nobody else is given the port between two starts.
        self.held = socket.socket()
        self.held.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        self.held.bind(("127.0.0.1", 0))
        self.listen = f"127.0.0.1:{self.held.getsockname()[1]}"
        self.clock, self.number = clock, 0
        self.serve()

    def serve(self):
        self.server = self.run("serve", "--listen", self.listen, "--clock", self.clock)
        said = ""
        while not (line := self.server.stderr.readline()).startswith("listening on "):
            assert line, f"it ended; before: {said}"
            said += line
        self.url = line.split()[-1]

    def stop(self):
        self.server.kill()
        self.server.wait()

    def say(self, at, who, text):
        self.number += 1
        name = f"m{self.number}"
        body = json.dumps({"id": name, "from": address(who), "text": text, "sent_at": at}).encode()
        now = str(int(time.time()))
        signed = hmac.digest(KEY, f"{name}.{now}.".encode() + body, hashlib.sha256)
        request = urllib.request.Request(f"{self.url}/v1/messages", body, {
            "content-type": "application/json", "webhook-id": name, "webhook-timestamp": now,
            "webhook-signature": "v1," + base64.b64encode(signed).decode()})
        with urllib.request.urlopen(request, timeout=60) as answer:
            return json.load(answer)

    def tells(self, text, at=None):
        """A coach's text; gives the answer's words."""
        answer = self.say(at, "coach", text)
        kind = answer["result"]["kind"]
        assert kind not in ("not_understood", "refused", "question"), f"{text}: {answer}"
        return answer["replies"][0]["text"]

    def evening(self):
        """Texts the evening; gives the address that `board` is answered with."""
        for line in (HERE / "evening.txt").read_text().splitlines():
            if not line or line.startswith("#"):
                continue
            day, clock, who, text = line.split(" ", 3)
            text = text.replace("$CODE", self.code).replace("$PLANT", PLANT)
            for name in PEOPLE:
                text = re.sub(rf"(invite|guardian martin) {name}\b", rf"\1 {address(name)}", text)
            answer = self.say(f"{day}T{clock}:00Z", who.rstrip(":"), text)
            kind = answer["result"]["kind"]
            assert kind not in ("not_understood", "refused", "question"), f"{line}: {answer}"
            said = " / ".join(reply["text"] for reply in answer["replies"] if reply["via"] == "answer")
            if os.environ.get("SHOW"):
                print(f"{line}\n    {said}")
        return re.search(r"http\S+", said)[0]


class Browser:
    """Headless Chromium behind ChromeDriver."""

    def __init__(self, folder, dark):
        self.driver = subprocess.Popen(["chromedriver", "--port=0"], stdout=subprocess.PIPE, text=True)
        for line in self.driver.stdout:
            if found := re.search(r"started successfully on port (\d+)", line):
                break
        self.url = f"http://127.0.0.1:{found[1]}"
        flags = ["--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
                 "--hide-scrollbars", "--disable-background-networking", "--disable-component-update",
                 "--disable-sync", f"--user-data-dir={folder}"]
        options = {"args": flags + (["--force-dark-mode"] if dark else [])}
        wanted = {"capabilities": {"alwaysMatch": {
            "browserName": "chrome", "goog:chromeOptions": options, "goog:loggingPrefs": {"browser": "ALL"}}}}
        session = fetch(f"{self.url}/session", wanted)["value"]["sessionId"]
        self.url = f"{self.url}/session/{session}"

    def do(self, what, **body):
        return fetch(f"{self.url}/{what}", body)["value"]

    def script(self, script, *args):
        return self.do("execute/sync", script=script, args=args)

    def wait_for(self, script):
        return self.do("execute/async", script=f"const done = arguments[0]; {script}", args=[])

    def source(self):
        return fetch(f"{self.url}/source")["value"]

    def until(self, holds, what):
        """Waits until it holds, not for ever."""
        end = time.monotonic() + SOON_S
        while not holds():
            assert time.monotonic() < end, f"after {SOON_S} s: {what}"
            time.sleep(0.1)

    def printed(self, within="body"):
        """The words that paper shows."""
        self.devtools("Emulation.setEmulatedMedia", media="print")
        words = self.script("""return [...document.querySelectorAll(`:is(${arguments[0]}) *`)].filter(one =>
            one.children.length === 0 && one.getBoundingClientRect().height > 0
        ).map(one => one.innerText).join(' ')""", within)
        self.devtools("Emulation.setEmulatedMedia", media="")
        return words

    def troubles(self):
        """What the browser complained of since it was last asked."""
        return [entry["message"] for entry in self.do("se/log", type="browser")
                if "favicon" not in entry["message"]]

    def devtools(self, command, **parameters):
        return self.do("goog/cdp/execute", cmd=command, params=parameters)

    def close(self):
        with contextlib.suppress(Exception):
            fetch(self.url, method="DELETE")
        self.driver.terminate()
        self.driver.wait()


def look(browser, url, size, scheme, folder):
    """Opens the page at a size; checks it, keeps a picture of the whole."""
    width, height = SIZES[size]
    phone = size == "phone"
    browser.devtools("Emulation.setDeviceMetricsOverride", width=width, height=height,
                     deviceScaleFactor=2 if phone else 1, mobile=phone)
    browser.devtools("Emulation.setEmulatedMedia",
                     features=[{"name": "prefers-color-scheme", "value": scheme}])
    browser.do("url", url=url)
    if phone:
        picture(browser, folder / f"first-screen-{scheme}.png", beyond=False)
        check_first_screen(browser, height)
    picture(browser, folder / f"{size}-{scheme}.png")
    unfolded = browser.script("return [...document.querySelectorAll('main > details')].every(one => one.open)")
    assert unfolded == (size == "desk"), f"{size}: what is unfolded"
    browser.script("document.querySelectorAll('details').forEach(one => { one.open = true; })")
    check_layout(browser, width)
    check_access(browser, f"{size}, {scheme}")
    picture(browser, folder / f"{size}-{scheme}-open.png")


def look_at_one(browser, url, size, scheme, folder):
    """The page of one swimmer, in the same way, and zoomed."""
    browser.devtools("Emulation.setEmulatedMedia",
                     features=[{"name": "prefers-color-scheme", "value": scheme}])
    for width, height in ZOOMED.values():
        browser.devtools("Emulation.setDeviceMetricsOverride", width=width, height=height,
                         deviceScaleFactor=1, mobile=False)
        browser.do("url", url=f"{url}/swimmer/heron")
        check_width(browser, width)
    width, height = SIZES[size]
    browser.devtools("Emulation.setDeviceMetricsOverride", width=width, height=height,
                     deviceScaleFactor=1, mobile=size == "phone")
    browser.do("url", url=f"{url}/swimmer/heron")
    check_width(browser, width)
    check_access(browser, f"one swimmer, {size}, {scheme}")
    assert browser.script("return document.querySelectorAll('svg').length") == 4
    picture(browser, folder / f"one-{size}-{scheme}.png")


def check_forced(browser, url, folder):
    """In the reader's own colours (CSS Color Adjust, forced-colors): everything is there,
    and what is drawn is drawn in them."""
    width, height = SIZES["phone"]
    browser.devtools("Emulation.setDeviceMetricsOverride", width=width, height=height,
                     deviceScaleFactor=1, mobile=True)
    for scheme in ("light", "dark"):
        browser.devtools("Emulation.setEmulatedMedia", features=[
            {"name": "forced-colors", "value": "active"}, {"name": "prefers-color-scheme", "value": scheme}])
        for name, page in (("board", url), ("one", f"{url}/swimmer/heron")):
            browser.do("url", url=page)
            assert browser.script("return matchMedia('(forced-colors: active)').matches")
            check_width(browser, width)
            check_access(browser, f"{name}, forced colours, {scheme}")
            picture(browser, folder / f"{name}-forced-{scheme}.png")
        drawn = browser.script("""const style = (which) => getComputedStyle(document.querySelector(which));
            return [style('.drawing .line').stroke, style('.drawing text').fill, style('body').color]""")
        assert len(set(drawn)) == 1, drawn
    browser.devtools("Emulation.setEmulatedMedia", features=[])


def check_others(browser, url, folder):
    """The pages of a few sentences: of the calendar that lasts, and one that is shut."""
    for size, (width, height) in SIZES.items():
        browser.devtools("Emulation.setDeviceMetricsOverride", width=width, height=height,
                         deviceScaleFactor=1, mobile=size == "phone")
        browser.do("url", url=f"{url}/calendar")
        check_width(browser, width)
        check_access(browser, f"the calendar, {size}")
        browser.script("document.querySelector('button').click()")
        browser.until(lambda: browser.script("return document.querySelector('.address')"), "its address")
        check_width(browser, width)
        check_access(browser, f"the calendar's address, {size}")
        picture(browser, folder / f"calendar-{size}.png")
        browser.do("url", url=f"{url}x")
        check_access(browser, f"a shut page, {size}")
    # A shut page is a failed request in the browser's own log.
    browser.troubles()


def check_spanish(browser, url, folder):
    """The same evening in the reader's own language, on a telephone and zoomed."""
    sizes = [*ZOOMED.values(), SIZES["phone"]]
    for name, page in (("board", url), ("one", f"{url}/swimmer/heron")):
        for width, height in sizes:
            browser.devtools("Emulation.setDeviceMetricsOverride", width=width, height=height,
                             deviceScaleFactor=1, mobile=True)
            browser.do("url", url=page)
            assert browser.script("return document.documentElement.lang") == "es"
            check_width(browser, width)
        picture(browser, folder / f"{name}-spanish.png")
        browser.script("document.querySelectorAll('details').forEach(one => { one.open = true; })")
        check_width(browser, width)
        check_access(browser, f"{name}, Spanish")


def check_first_screen(browser, height):
    """Minutes left, who is stopped, each lane's next leave and own times: no scrolling."""
    below = browser.script("""return [...document.querySelectorAll('.left, .open li, .leaves, .order li')]
        .filter(one => one.getBoundingClientRect().bottom > arguments[0]).map(one => one.innerText)""", height)
    assert not below, f"below the first screen: {below}"
    assert browser.script("return document.querySelectorAll('.order .own').length") >= 3


def check_width(browser, width):
    assert browser.script("return document.documentElement.scrollWidth <= window.innerWidth"), \
        f"{width}: it scrolls sideways"
    wide = browser.script("""return [...document.querySelectorAll('body *')].filter(one => {
        const box = one.getBoundingClientRect();
        return box.width && (box.right > window.innerWidth + 0.5 || box.left < -0.5);
    }).map(one => one.outerHTML.slice(0, 80))""")
    assert not wide, f"{width}: cut off: {wide}"


def check_layout(browser, width):
    check_width(browser, width)
    shown = browser.script("""return [...document.querySelectorAll('#page h2')].filter(one =>
        one.getBoundingClientRect().height > 0).map(one => one.innerText)""")
    assert shown == PARTS, shown
    broken = browser.script("""return [...document.querySelectorAll('#page .name')].filter(one =>
        one.getClientRects().length > 1 || one.getBoundingClientRect().right
            > one.closest('li, tr, article').getBoundingClientRect().right + 0.5).map(one => one.innerText)""")
    assert not broken, f"{width}: broken names: {broken}"
    small = browser.script("""return [...document.querySelectorAll('#page *')].filter(one =>
        one.innerText && parseFloat(getComputedStyle(one).fontSize) < 14
    ).map(one => one.outerHTML.slice(0, 80))""")
    assert not small, f"too small: {small}"
    taps = browser.script("""return [...document.querySelectorAll('#page a, #page summary')].map(one =>
        [one.innerText, one.getBoundingClientRect().height, Boolean(one.closest('.order, .open'))])""")
    # WCAG 2.2, 2.5.8 asks for 24 px; a wet thumb for more, but where all are to be on
    # one screen (ours).
    assert taps and all(height >= (24 if close else 44) for _, height, close in taps), taps


def check_access(browser, where):
    """No violation of WCAG 2.2 at A and AA that axe-core finds."""
    browser.script(AXE)
    found = browser.wait_for("""axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa',
        'wcag22aa', 'best-practice'] }).then(found => done(found.violations.map(one =>
        [one.id, one.nodes.map(node => node.html.slice(0, 90))])))""")
    assert not found, f"{where}: {json.dumps(found, indent=1)}"


def picture(browser, into, beyond=True):
    into.write_bytes(base64.b64decode(
        browser.devtools("Page.captureScreenshot", captureBeyondViewport=beyond)["data"]))


def pdf(browser, into, **paper):
    """Prints the page; gives how many pages that are."""
    printed = base64.b64decode(browser.devtools("Page.printToPDF", preferCSSPageSize=False, **paper)["data"])
    into.write_bytes(printed)
    return len(re.findall(rb"/Type\s*/Page\b", printed))


A4 = {"paperWidth": 8.27, "paperHeight": 11.69}
LETTER = {"paperWidth": 8.5, "paperHeight": 11}


def check_paper(browser, program, home, folder):
    """One sheet a lane, on either paper, upright and across; none for whoever is out."""
    running = Program(program, home)
    try:
        at = "2026-03-03T19:{:02}:00Z".format
        names = [f"{bird}{part}" for part in ("", "-grey", "-of-the-river-a")
                 for bird in ("ouzel", "ruff", "gull", "knot", "reeve", "stint", "tern", "scaup")]
        for number, name in enumerate(names):
            running.say("2026-02-27T20:00:00Z", name, f"join {running.code} {name}")
            running.say("2026-02-28T20:00:00Z", name, f"200 test {2 + number // 12}:{10 + number % 12 * 4}")
        running.tells("slot tue 2000-2100 8 lanes", at(1))
        running.tells("set 200 easy on 6:00, 8x50 hold 200 pace on 1:45, 6x100 hold 200 pace on 3:30, 100 easy on 4:00", at(2))
        running.tells("here " + " ".join(names), at(3))
        # More than eight in a lane are longer than a page.
        here, minute = len(names), 4
        for lanes in range(8, 0, -1):
            if here > 8 * lanes:
                running.tells("absent " + " ".join(names[8 * lanes:here]), at(minute))
                here = 8 * lanes
            running.tells(f"lanes {lanes}", at(minute + 1))
            browser.do("url", url=re.search(r"http\S+", running.tells("board", at(minute + 2)))[0])
            minute += 3
            assert browser.script("return document.querySelectorAll('.order .own').length") == here
            browser.script("document.querySelectorAll('details').forEach(one => { one.open = true; })")
            for width, height in [*SIZES.values(), *ZOOMED.values()] if lanes in (8, 4, 1) else []:
                browser.devtools("Emulation.setDeviceMetricsOverride", width=width, height=height,
                                 deviceScaleFactor=1, mobile=False)
                check_layout(browser, width)
            for paper, size in (("a4", A4), ("letter", LETTER)):
                for landscape in (False, True):
                    way = "across" if landscape else "upright"
                    pages = pdf(browser, folder / f"{lanes}-lanes-{paper}-{way}.pdf", landscape=landscape, **size)
                    # One a lane, and the coach's own.
                    assert pages == lanes + 1, f"{lanes} lanes on {paper} {way}: {pages} pages"
        printed = browser.printed(".sheet:not(.coach)")
        assert names[0] in printed and names[9] not in printed, printed
        # A page that is still open would miss the server.
        browser.do("url", url="about:blank")
    finally:
        running.stop()


def check_live(browser, program, home, folder):
    """By the wall clock: it counts down, sees a cut, stops and goes on, and outlives
    the server."""
    now = datetime.datetime.now(datetime.timezone.utc)
    east = (20 - now.hour + 11) % 24 - 11  # where it is past eight in the evening
    zone = f"Etc/GMT{-east:+d}" if east else "UTC"
    running = Program(program, home, "wall", zone)
    width, height = SIZES["desk"]
    browser.devtools("Emulation.setDeviceMetricsOverride", width=width, height=height,
                     deviceScaleFactor=1, mobile=False)
    try:
        day = (now + datetime.timedelta(hours=east)).strftime("%a").lower()
        running.tells(f"slot {day} 1930-2300 2 lanes")
        running.tells("add robin 3:20")
        running.tells("add kingfisher 2:50")
        running.tells("here robin kingfisher")
        running.tells("set 30x50 hold 200 pace on 1:15, 100 easy on 4:00")
        running.tells("lanes 1")
        url = re.search(r"http\S+", running.tells("board"))[0]
        browser.do("url", url=url)
        count = "return document.querySelector('.count').innerText"
        before = browser.script(count)
        browser.until(lambda: browser.script(count) != before, "it counts down")
        left = "return Number(document.querySelector('.left b').innerText)"
        assert 36 <= browser.script(left) <= 42, browser.script(left)
        running.tells("12 left")
        browser.until(lambda: 10 <= browser.script(left) <= 12, "the cut is on the page")
        browser.script("document.getElementById('tests').open = true; document.getElementById('hold').click()")
        running.tells("8 left")
        time.sleep(7)
        assert 10 <= browser.script(left) <= 12, "what was paused went on"
        old = "return document.getElementById('old').innerText"
        assert re.fullmatch(r"Paused: this is 0:\d\d old\.", browser.script(old)), browser.script(old)
        browser.script("document.getElementById('hold').click()")
        browser.until(lambda: 6 <= browser.script(left) <= 8, "it goes on")
        assert browser.script("return document.getElementById('tests').open"), "what was open is shut"
        running.stop()
        browser.until(lambda: "does not answer" in browser.script(old), "the server is missed")
        assert browser.script("return document.querySelectorAll('.order li').length") == 2
        picture(browser, folder / "away.png")
        running.serve()
        browser.until(lambda: browser.script("return document.getElementById('old').hidden"), "it is back")
        # The server away is a failed request in the browser's own log, and nothing else is there.
        away = ("ERR_CONNECTION_REFUSED", "ERR_INCOMPLETE_CHUNKED_ENCODING", "ERR_EMPTY_RESPONSE")
        troubles = [one for one in browser.troubles() if not any(word in one for word in away)]
        assert not troubles, troubles
        # Without script: everything is there, it looks again by itself, and a link stops that.
        browser.devtools("Emulation.setScriptExecutionDisabled", value=True)
        browser.do("url", url=url)
        html = browser.source()
        assert '<noscript><meta http-equiv="refresh"' in html and 'href="?still"' in html
        browser.do("url", url=url + "?still")
        html = browser.source()
        assert "refresh" not in html and 'href="?"' in html and "next leaves" in html
        browser.devtools("Emulation.setScriptExecutionDisabled", value=False)
    finally:
        running.stop()


def main(program, folder):
    program, folder = os.path.abspath(program), pathlib.Path(folder).absolute()
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as home, contextlib.ExitStack() as ends:
        running = Program(program, os.path.join(home, "evening"))
        ends.callback(running.stop)
        url = running.evening()
        browser = Browser(os.path.join(home, "browser"), dark=False)
        ends.callback(browser.close)
        for scheme in ("light", "dark"):
            for size in SIZES:
                look(browser, url, size, scheme, folder)
                look_at_one(browser, url, size, scheme, folder)
        browser.do("url", url=url)
        assert browser.script("return document.title") == "Board: Dusk"
        words = browser.script("return document.body.innerText")
        assert words.count(PLANT) == 2, "the coach's words are not shown as typed"
        assert browser.script("return document.images.length") == 0
        calls = browser.script("return [...document.querySelectorAll('a[href^=tel]')].map(one => one.href)")
        assert calls == ["tel:+15550177"], calls
        assert pdf(browser, folder / "evening.pdf", **A4) == 4
        printed = browser.printed(".sheet:not(.coach)")
        assert "heron" in printed and "wren" not in printed, "the sheet: who swims, not who is stopped"
        assert "avocet" not in printed and "dipper" not in printed, "whoever is out is on no sheet"
        marks = browser.printed(".coach")
        assert "wren" in marks and "avocet" in marks and "guest" in marks, marks
        printed = browser.printed()
        for private in ("kestrel", "easy version", "dizzy", "knee", "0177", "exhale"):
            assert private not in printed, f"{private} is on the printed sheet"
        check_forced(browser, url, folder)
        check_others(browser, url, folder)
        spanish = re.search(r"http\S+", running.tells("la pizarra", "2026-03-03T20:24:30Z"))[0]
        check_spanish(browser, spanish, folder)
        check_paper(browser, program, os.path.join(home, "paper"), folder)
        troubles = browser.troubles()
        assert not troubles, troubles
        check_live(browser, program, os.path.join(home, "live"), folder)
        print(f"the page at {', '.join(SIZES)} size, light and dark, its sheets, and how it keeps up: {folder}")


if __name__ == "__main__":
    main(*sys.argv[1:])
