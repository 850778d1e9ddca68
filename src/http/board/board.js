"use strict";
// Keeps the page up to date, counts down to the next send-off, and keeps the last
// state, with its age, while the server is away. Everything on the page can be
// read without it.
(() => {
  const TOLD_S = 30; // between two looks while the server tells of changes
  const ALONE_S = 5; // between two looks where nothing tells
  const LOST_S = 2; // between two looks for a server that is away, and two calls
  const SILENT_S = 12; // a line on which nothing is said for so long is dead
  const SOON_S = 1; // between two looks that a send-off asks for
  const WIDE = "(min-width: 75rem)"; // room for all parts at once

  const now = () => performance.now() / 1000;
  let still = "still" in document.getElementById("hold").dataset;
  let lost = false;
  let busy = false;
  let more = false; // something changed while it was looked
  let got = now(); // when what is shown was fetched
  let asked = got; // when it was last asked for
  let line = null; // the line on which changes are told
  let heard = 0; // when anything was last said on it
  let called = -LOST_S; // when it was last tried
  const one = (id) => document.getElementById(id);
  const clock = (s) => `${Math.floor(s / 60)}:${String(Math.floor(s % 60)).padStart(2, "0")}`;
  const age = () => now() - got;

  function tell() {
    const hold = one("hold");
    const old = one("old");
    const words = lost ? hold.dataset.lost : hold.dataset.old;
    hold.setAttribute("role", "button");
    hold.textContent = still ? hold.dataset.on : hold.dataset.pause;
    old.hidden = !(lost || still);
    const text = old.hidden ? "" : words.replace("{}", clock(age()));
    if (old.textContent !== text) old.textContent = text;
    // The age is read out once, not each second.
    old.setAttribute("aria-live", old.dataset.said === words ? "off" : "polite");
    old.dataset.said = words;
    let over = false;
    if ("ticks" in one("page").dataset) {
      for (const count of document.querySelectorAll("[data-in]")) {
        const left = count.dataset.in - age();
        count.textContent = clock(Math.max(0, Math.ceil(left)));
        over ||= left <= 0;
      }
    }
    return over;
  }

  function put(text) {
    const next = new DOMParser().parseFromString(text, "text/html");
    if (!next.getElementById("page")) return location.reload();
    for (const part of next.querySelectorAll("details[id]")) {
      part.open = Boolean(one(part.id)?.open);
    }
    const active = document.activeElement;
    const within = active?.closest("details[id]")?.id;
    const href = active?.getAttribute("href");
    for (const which of ["#page", ".sheets"]) {
      document.querySelector(which).replaceWith(next.querySelector(which));
    }
    // Whoever goes by the keys goes on where they were.
    const linked = href && document.querySelector(`#page a[href="${CSS.escape(href)}"]`);
    const folded = within && one(within)?.querySelector("summary");
    const again = active?.id ? one(active.id) : linked || folded;
    again?.focus({ preventScroll: true });
  }

  async function look() {
    more = busy;
    if (busy) return;
    busy = true;
    asked = now();
    try {
      const answer = await fetch(location.href, { cache: "no-store", signal: AbortSignal.timeout(8000) });
      if (answer.status === 404) return location.reload();
      if (!answer.ok) throw new Error(answer.statusText);
      const text = await answer.text();
      // Nothing is put in place of what somebody has stopped to read.
      if (!still) {
        put(text);
        got = now();
      }
      lost = false;
    } catch {
      lost = true;
    } finally {
      busy = false;
      tell();
    }
    if (more && !lost) look();
  }

  function hangUp() {
    line?.close();
    line = null;
  }

  function call() {
    called = heard = now();
    line = new EventSource(`${location.pathname}/live`);
    // What changed before it was open nobody told.
    line.onopen = look;
    line.onmessage = (event) => {
      heard = now();
      if (event.data === "changed") look();
    };
    line.onerror = () => {
      hangUp();
      look();
    };
  }

  // Whoever doesn't look listens to nothing: a browser has few lines to a server.
  function turn() {
    if (still || document.hidden) return hangUp();
    look();
  }

  document.addEventListener("click", (event) => {
    const to = event.target.closest?.("a[href^='#']");
    const part = to && one(to.hash.slice(1));
    if (part?.matches("details")) part.open = true;
    if (event.target.id !== "hold") return;
    event.preventDefault();
    still = !still;
    turn();
    tell();
  });
  document.addEventListener("keydown", (event) => {
    if (event.key === " " && event.target.id === "hold") {
      event.preventDefault();
      event.target.click();
    }
  });
  document.addEventListener("visibilitychange", turn);
  if (matchMedia(WIDE).matches) {
    for (const part of document.querySelectorAll("main > details")) part.open = true;
  }
  tell();
  setInterval(() => {
    const over = tell();
    if (still || document.hidden) return;
    if (line && now() - heard > SILENT_S) hangUp();
    if (!line && !lost && now() - called > LOST_S) call();
    const every = lost ? LOST_S : line ? TOLD_S : ALONE_S;
    const since = now() - asked;
    if (since >= every || (over && since >= SOON_S)) look();
  }, 250);
})();
