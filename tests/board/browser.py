"""The squad's page in a real browser: an evening is texted to the program, then
Chromium opens the page as a telephone and as a tablet does, by day and by night.

    browser.py PROGRAM FOLDER      (screenshots go into FOLDER)

Drives ChromeDriver by the WebDriver protocol (W3C), with nothing but Python's own
library."""

import base64
import contextlib
import datetime
import hashlib
import hmac
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request

HERE = pathlib.Path(__file__).parent
KEY = b"a key of thirty-two bytes or so!"
PEOPLE = ["coach", "heron", "teal", "wren", "siskin", "dunnock", "plover", "curlew", "snipe",
          "avocet", "dipper", "martin", "kestrel"]
PHONE, TABLET = 390, 1280
PARTS = ["Stopped or hurting now", "Tonight's register", "Lanes", "The set and the clock",
         "Last paced set", "Tests", "Four weeks of coming", "Focus and next date"]
# A coach's own words are shown as words.
PLANT = "<script>document.title='planted'</script><b>not bold</b>"


def address(who):
    return f"+155501{PEOPLE.index(who):02}"


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

    def __init__(self, program, folder):
        environment = {"LAPWING_SECRET": "whsec_" + base64.b64encode(KEY).decode()}
        self.run = lambda *words: subprocess.Popen(
            [program, *words], cwd=folder, env=environment, text=True,
            stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        opened, said = self.run("squad", "add", "Dusk", "--coach", address("coach"), "--ready").communicate()
        self.code = re.search(r"^join (\S+)$", opened, re.M)[1]
        self.server = self.run("serve", "--listen", "127.0.0.1:0", "--clock", "message")
        while not (line := self.server.stderr.readline()).startswith("listening on "):
            assert line, f"it ended; before: {said}"
        self.url, self.number = line.split()[-1], 0

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

    def script(self, script):
        return self.do("execute/sync", script=script, args=[])

    def devtools(self, command, **parameters):
        return self.do("goog/cdp/execute", cmd=command, params=parameters)

    def close(self):
        with contextlib.suppress(Exception):
            fetch(self.url, method="DELETE")
        self.driver.terminate()
        self.driver.wait()


def look(browser, url, width, into, height=800):
    """Opens the page at a width; checks it, keeps a picture of the whole."""
    phone = width < 600
    browser.devtools("Emulation.setDeviceMetricsOverride", width=width, height=height,
                     deviceScaleFactor=2 if phone else 1, mobile=phone)
    browser.do("url", url=url)
    assert browser.script("return document.documentElement.scrollWidth <= window.innerWidth"), \
        f"{width}: it scrolls sideways"
    wide = browser.script("""return [...document.querySelectorAll('body *')].filter(one => {
        const box = one.getBoundingClientRect();
        return box.width && (box.right > window.innerWidth + 0.5 || box.left < -0.5);
    }).map(one => one.outerHTML.slice(0, 80))""")
    assert not wide, f"{width}: cut off: {wide}"
    shown = browser.script("""return [...document.querySelectorAll('h2')].filter(one =>
        one.getBoundingClientRect().height > 0 && getComputedStyle(one).visibility === 'visible'
    ).map(one => one.innerText.replace(/^\\d+\\s*/, ''))""")
    assert shown == PARTS, shown
    small = browser.script("""return [...document.querySelectorAll('body *')].filter(one =>
        one.innerText && parseFloat(getComputedStyle(one).fontSize) < 14
    ).map(one => one.outerHTML.slice(0, 80))""")
    assert not small, f"too small: {small}"
    taps = browser.script("""return [...document.querySelectorAll('a')].map(one =>
        [one.href, one.getBoundingClientRect().height])""")
    # WCAG 2.2, 2.5.8 asks for 24 px; a wet thumb for more (ours).
    assert taps and all(height >= 44 for _, height in taps), taps
    assert taps[0][0] == "tel:+15550177", taps
    picture = browser.devtools("Page.captureScreenshot", captureBeyondViewport=True)["data"]
    into.write_bytes(base64.b64decode(picture))


def main(program, folder):
    folder = pathlib.Path(folder).absolute()
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as home, contextlib.ExitStack() as ends:
        running = Program(os.path.abspath(program), home)
        ends.callback(running.server.kill)
        url = running.evening()
        browser = Browser(os.path.join(home, "browser"), dark=False)
        ends.callback(browser.close)
        for scheme in ("light", "dark"):
            browser.devtools("Emulation.setEmulatedMedia",
                             features=[{"name": "prefers-color-scheme", "value": scheme}])
            look(browser, url, PHONE, folder / f"phone-{scheme}.png")
            look(browser, url, TABLET, folder / f"tablet-{scheme}.png")
        assert browser.script("return document.title") == "Board: Dusk"
        words = browser.script("return document.body.innerText")
        assert words.count(PLANT) == 2, "the coach's words are not shown as typed"
        assert browser.script("return document.scripts.length + document.images.length") == 0
        browser.devtools("Emulation.setEmulatedMedia", media="print")
        printed = browser.script("""return [...document.querySelectorAll('body *')].filter(one =>
            one.children.length === 0 && one.getBoundingClientRect().height > 0
        ).map(one => one.innerText).join(' ')""")
        assert "heron" in printed and "wren" not in printed, "the sheet: who swims, not who is stopped"
        for private in ("kestrel", "easy version", "dizzy", "knee", "0177", "exhale"):
            assert private not in printed, f"{private} is on the printed sheet"
        sheet = browser.devtools("Page.printToPDF", printBackground=True)["data"]
        (folder / "sheet.pdf").write_bytes(base64.b64decode(sheet))
        troubles = [entry["message"] for entry in browser.do("se/log", type="browser")
                    if "favicon" not in entry["message"]]
        assert not troubles, troubles
        print(f"the page at {PHONE} and {TABLET} px, light and dark, and its printed sheet: {folder}")


main(*sys.argv[1:])
