// Forms marked data-act are sent without leaving the page: one after the other, each under a key
// that lets the studio write it once, kept in order while the link is lost. A refusal is shown
// where it was caused, with its mend.

import { tell } from "./link.js";

const FIRST = 250;
const LONGEST = 2000;
const queue = [];
const refusals = [];
let running = false;
let wake = () => {};

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (!form.matches("form[data-act]")) return;
  event.preventDefault();
  if (form.dataset.sending !== undefined) return;
  send(form, event.submitter);
});
document.addEventListener("link-back", () => wake());
document.addEventListener("parts", () => refusals.forEach(place));
addEventListener("beforeunload", (event) => { if (queue.length) event.preventDefault(); });

// Send a form, or an act that a script made: { action, fields }.
export function send(form, submitter = null) {
  const body = new FormData(form, submitter);
  body.set("key", fresh());
  forget(form.action);
  form.dataset.sending = "";
  return add({ form, action: submitter?.getAttribute("formaction") ?? form.action, body });
}

export function act(action, fields) {
  const body = new FormData();
  for (const [name, value] of Object.entries(fields)) body.set(name, value);
  body.set("key", fresh());
  forget("");
  return add({ form: null, action: new URL(action, location).href, body });
}

function add(entry) {
  return new Promise((done) => {
    queue.push({ ...entry, done });
    if (!running) run();
  });
}

async function run() {
  running = true;
  let wait = FIRST;
  while (queue.length) {
    const answer = await post(queue[0]);
    if (answer === null) {
      tell({ waiting: queue.length });
      document.dispatchEvent(new CustomEvent("acts-wait"));
      await new Promise((done) => { const timer = setTimeout(done, wait); wake = () => { clearTimeout(timer); done(); }; });
      wake = () => {};
      wait = Math.min(LONGEST, 2 * wait);
      continue;
    }
    wait = FIRST;
    const entry = queue.shift();
    tell({ waiting: 0 });
    finish(entry, answer);
  }
  running = false;
}

async function post({ action, body, form }) {
  const files = [...body.values()].some((value) => value instanceof File);
  try {
    const answer = await fetch(action, {
      method: "POST",
      headers: { Accept: "application/json", "Idempotency-Key": body.get("key") },
      body: files || form?.enctype === "multipart/form-data" ? body : new URLSearchParams(body),
    });
    if (answer.redirected) return { ok: answer.ok, status: answer.status, told: { to: answer.url } };
    return { ok: answer.ok, status: answer.status, told: await answer.json() };
  } catch (error) {
    if (error instanceof SyntaxError) return { ok: false, status: 0, told: {} };
    return null;
  }
}

function finish({ form, action, done }, answer) {
  if (form) delete form.dataset.sending;
  if (!answer.ok) {
    refuse(form, action, answer.told.error ?? { message: "The studio did not understand this", mend: "Load the page again." });
    done(answer);
    return;
  }
  if (form?.hasAttribute("data-reset")) form.reset();
  if (answer.told.note) say(action, answer.told.note);
  done(answer);
  const stays = document.body.dataset.live && form?.dataset.act !== "go";
  if (stays || !form) return;
  const there = new URL(answer.told.to, location);
  if (there.pathname === location.pathname && there.search === location.search) location.reload();
  else location.assign(there);
}

function refuse(form, action, { message, place: where, mend }) {
  const what = document.createElement("b");
  what.textContent = `${where ? `${where}: ` : ""}${message}. `;
  show(form, action, "alert", what, mend ?? "");
}

// An act that was done, with a word that the page itself does not say.
function say(action, note) {
  show(null, action, "status", note);
}

function show(form, action, role, ...said) {
  const box = document.createElement("div");
  box.className = role === "alert" ? "act-error" : "act-note";
  box.setAttribute("role", role);
  const words = document.createElement("p");
  words.append(...said);
  const close = document.createElement("button");
  close.type = "button";
  close.textContent = "Close";
  close.addEventListener("click", () => forget(action));
  box.append(words, close);
  const refusal = { action, box, form, passing: role === "status" };
  refusals.push(refusal);
  place(refusal);
}

// A part that is drawn anew takes its forms with it; the refusal goes to the one that follows, and
// to the page itself where that lies in a panel that is closed.
function place(refusal) {
  if (refusal.box.isConnected) return;
  const { form, action, box } = refusal;
  const mine = (one) => one?.isConnected && (one === form || one.action === action) && one.checkVisibility();
  const home = [form, ...document.forms].find(mine);
  (home ?? document.getElementById("act-errors")).prepend(box);
}

function forget(action) {
  for (const refusal of refusals.filter((one) => one.passing || one.action === action)) {
    refusal.box.remove();
    refusals.splice(refusals.indexOf(refusal), 1);
  }
}

// crypto.randomUUID exists only on secure origins, which a tablet on the shop's network is not on.
function fresh() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}
