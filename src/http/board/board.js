"use strict";
// Keeps the page up to date, counts down to the next send-off, and keeps the last
// state, with its age, while the server is away. Everything on the page can be
// read without it.
(() => {
  const EVERY_S = 5; // between two looks
  const SOON_MS = 1000; // between two looks that a send-off asks for
  const WIDE = "(min-width: 75rem)"; // room for all parts at once

  let still = "still" in document.getElementById("hold").dataset;
  let lost = false;
  let busy = false;
  let got = performance.now(); // when what is shown was fetched
  let asked = got; // when it was last asked for
  const one = (id) => document.getElementById(id);
  const clock = (s) => `${Math.floor(s / 60)}:${String(Math.floor(s % 60)).padStart(2, "0")}`;
  const age = () => (performance.now() - got) / 1000;

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
    for (const which of ["#page", ".sheets"]) {
      document.querySelector(which).replaceWith(next.querySelector(which));
    }
    const again = active?.id ? one(active.id) : within && one(within)?.querySelector("summary");
    again?.focus({ preventScroll: true });
  }

  async function look() {
    if (busy) return;
    busy = true;
    asked = performance.now();
    try {
      const answer = await fetch(location.pathname, { cache: "no-store", signal: AbortSignal.timeout(8000) });
      if (answer.status === 404) return location.reload();
      if (!answer.ok) throw new Error(answer.statusText);
      const text = await answer.text();
      // Nothing is put in place of what somebody has stopped to read.
      if (!still) {
        put(text);
        got = performance.now();
      }
      lost = false;
    } catch {
      lost = true;
    } finally {
      busy = false;
      tell();
    }
  }

  document.addEventListener("click", (event) => {
    if (event.target.id !== "hold") return;
    event.preventDefault();
    still = !still;
    if (!still) look();
    tell();
  });
  document.addEventListener("keydown", (event) => {
    if (event.key === " " && event.target.id === "hold") {
      event.preventDefault();
      event.target.click();
    }
  });
  document.addEventListener("visibilitychange", () => {
    if (!document.hidden && !still) look();
  });
  if (matchMedia(WIDE).matches) {
    for (const part of document.querySelectorAll("main > details")) part.open = true;
  }
  tell();
  setInterval(() => {
    const over = tell();
    const since = performance.now() - asked;
    if (still || document.hidden) return;
    if (since >= EVERY_S * 1000 || (over && since >= SOON_MS)) look();
  }, 250);
})();
