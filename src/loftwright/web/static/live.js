// A page that follows its fitting: the whole state on connecting, then the parts that change.
// A lost link leaves the page as it is, says so in words, and catches up by itself.

import { tell } from "./link.js";
import { swap, untouched } from "./parts.js";

const FIRST = 250;
const LONGEST = 2000;
const SILENT = 25000;
// A browser opens few links to one studio: a page that nobody looks at lets go of its own.
const UNSEEN = 15000;
const address = document.body.dataset.live;
let wait = FIRST;
let lostAt = 0;
let wake = () => {};
let newest = Promise.resolve();

if (address) follow();
addEventListener("online", () => wake());
document.addEventListener("visibilitychange", () => { if (!document.hidden) wake(); });
document.addEventListener("acts-wait", () => wake());

async function follow() {
  for (;;) {
    const verdict = await connect();
    if (verdict === "refused") return location.reload();
    if (verdict === "unseen") {
      await seen();
      continue;
    }
    lostAt ||= Date.now();
    tell({ live: true, lostAt, retryAt: Date.now() + wait });
    await new Promise((done) => { const timer = setTimeout(done, wait); wake = () => { clearTimeout(timer); done(); }; });
    wake = () => {};
    wait = Math.min(LONGEST, 2 * wait);
  }
}

// Read the stream until it ends; a page that may not see it any more is refused.
async function connect() {
  const stop = new AbortController();
  let silence = setTimeout(() => stop.abort(), SILENT);
  const leave = () => stop.abort();
  addEventListener("pagehide", leave, { once: true });
  let unseen = false;
  let hiding = 0;
  const look = () => {
    clearTimeout(hiding);
    if (document.hidden) hiding = setTimeout(() => { unseen = true; stop.abort(); }, UNSEEN);
  };
  document.addEventListener("visibilitychange", look);
  look();
  try {
    const answer = await fetch(address, { headers: { Accept: "text/event-stream" }, cache: "no-store", signal: stop.signal });
    if ([401, 403, 404, 423].includes(answer.status)) return "refused";
    if (!answer.ok) return "lost";
    const reader = answer.body.pipeThrough(new TextDecoderStream()).getReader();
    let rest = "";
    for (;;) {
      const { value, done } = await reader.read();
      if (done) return "lost";
      clearTimeout(silence);
      silence = setTimeout(() => stop.abort(), SILENT);
      const blocks = (rest + value).split("\n\n");
      rest = blocks.pop();
      for (const block of blocks) take(block);
    }
  } catch {
    return unseen ? "unseen" : "lost";
  } finally {
    clearTimeout(silence);
    clearTimeout(hiding);
    removeEventListener("pagehide", leave);
    document.removeEventListener("visibilitychange", look);
  }
}

function seen() {
  return new Promise((done) => document.addEventListener("visibilitychange", () => done(), { once: true }));
}

function take(block) {
  const lines = block.split("\n");
  const data = lines.filter((line) => line.startsWith("data: ")).map((line) => line.slice(6)).join("\n");
  wait = FIRST;
  lostAt = 0;
  tell({ live: true, lostAt: 0, seenAt: new Date() });
  if (!data) return;
  const { revision, parts } = JSON.parse(data);
  document.dispatchEvent(new CustomEvent("link-back"));
  newest = newest.then(untouched).then(() => paint(revision, parts));
}

function paint(revision, parts) {
  const changed = swap(parts);
  document.body.dataset.revision = revision;
  document.dispatchEvent(new CustomEvent("parts", { detail: { revision, changed } }));
  // A task that follows a frame runs after that frame was painted.
  requestAnimationFrame(() => setTimeout(() => { document.body.dataset.paintedRevision = revision; }, 0));
}
