// A sheet of readings that is read while it is typed. Enter goes to the next row; what was changed
// is sent after a short pause, one sending at a time, and the rows themselves are never replaced.

import { tell } from "./link.js";
import { swap, untouched } from "./parts.js";

const PAUSE = 350;
const AGAIN = 2000;
const LONGEST = 5000;
const sheet = document.getElementById("typed");
const keeping = document.querySelector("#keep form");
const changed = new Set();
let timer = 0;
let sending = false;

sheet.addEventListener("input", ({ target }) => {
  if (!target.name || target.name === "kind") return;
  changed.add(target.name);
  const series = target.closest(".series");
  const row = target.closest("tr");
  if (row) whole(row);
  else if (series) offerSetUp(series, target);
  later(PAUSE);
});

sheet.addEventListener("keydown", (event) => {
  const field = event.target;
  if (event.key !== "Enter" || field.localName !== "input" || event.isComposing) return;
  event.preventDefault();
  const row = field.closest("tr");
  if (row && !field.hasAttribute("data-read")) row.querySelector("[data-read]").focus();
  else if (row) onward(row);
  else next(field)?.focus();
});

// What was typed is sent before a button acts, and the button then acts on what stands by then,
// so that neither a quick finger nor another tablet is told that the sheet was changed meanwhile.
sheet.addEventListener("submit", async (event) => {
  event.preventDefault();
  const fields = { act: event.submitter?.value ?? "save", kind: sheet.elements.namedItem("kind").value };
  await settled();
  post(sheet.action, fields);
});

keeping.addEventListener("submit", async (event) => {
  if (!changed.size && !sending) return;
  event.preventDefault();
  await settled();
  keeping.submit();
});

async function settled() {
  clearTimeout(timer);
  const until = Date.now() + LONGEST;
  while ((changed.size || sending) && Date.now() < until) {
    if (sending) await new Promise((done) => { setTimeout(done, 20); });
    else await send();
  }
}

function post(action, fields) {
  const form = document.createElement("form");
  Object.assign(form, { method: "post", action, hidden: true });
  for (const [name, value] of Object.entries(fields)) {
    const field = document.createElement("input");
    Object.assign(field, { name, value });
    form.append(field);
  }
  document.body.append(form);
  form.submit();
}

addEventListener("pagehide", () => { if (changed.size) send(true); });

// A reading takes the set-up with it, cell by cell, even where it was only offered.
function whole(row) {
  if (!row.querySelector("[data-read]").value) return;
  for (const cell of row.querySelectorAll("input")) changed.add(cell.name);
}

function offerSetUp(series, field) {
  const cell = field.name.split("-")[1];
  for (const row of series.querySelectorAll("tbody tr")) {
    if (row.querySelector("[data-read]").value) continue;
    const there = row.querySelector(`[name$="-${cell}"]`);
    if (there) there.value = field.value;
  }
}

function onward(row) {
  const following = row.nextElementSibling ?? ruled(row);
  offerPlace(following);
  const place = following.querySelector("input");
  const target = place.value ? following.querySelector("[data-read]") : place;
  target.focus();
  target.select();
}

function next(field) {
  const all = [...sheet.querySelectorAll("input:not([type=hidden])")].filter((one) => one.checkVisibility());
  return all[all.indexOf(field) + 1];
}

// A fresh row below the last one, with the set-up at the head of its series.
function ruled(row) {
  const series = row.closest(".series");
  const [, at, number] = /^row-s(\d+)r(\d+)$/.exec(row.id);
  const fresh = row.cloneNode(true);
  const [old, key] = [`s${at}r${number}`, `s${at}r${Number(number) + 1}`];
  const name = `${row.querySelector("th").textContent[0]}${Number(number) + 2}`;
  fresh.id = `row-${key}`;
  fresh.querySelector("th").textContent = name;
  fresh.querySelector(".verdict").id = `verdict-${key}`;
  fresh.querySelector(".verdict").replaceChildren();
  for (const cell of fresh.querySelectorAll("input")) {
    const words = cell.name.split("-")[1];
    cell.name = `${key}-${words}`;
    cell.id = `b-${cell.name}`;
    cell.value = series.querySelector(`.set-up [name="s${at}-${words}"]`)?.value ?? "";
    cell.setAttribute("aria-label", cell.getAttribute("aria-label").replace(/^\w+/, name));
    cell.setAttribute("aria-describedby", `verdict-${key}`);
    cell.removeAttribute("aria-invalid");
  }
  row.after(fresh);
  return fresh;
}

// The next station by the step of the two rows above, if nothing stands there yet.
function offerPlace(row) {
  const place = row.querySelector('[name$="-station"]');
  const [last, before] = [above(row, 1), above(row, 2)];
  if (!place || place.value || last === null || before === null || last.number === before.number) return;
  const at = last.number + (last.number - before.number);
  const length = number(document.getElementById("b-length").value);
  if (at <= 0 || (length && at >= length.number)) return;
  const text = at.toFixed(Math.max(last.digits, before.digits));
  place.value = last.comma ? text.replace(".", ",") : text;
}

function above(row, steps) {
  let there = row;
  for (let step = 0; step < steps; step += 1) there = there?.previousElementSibling;
  return there ? number(there.querySelector('[name$="-station"]').value) : null;
}

function number(text) {
  if (!/^\d+([.,]\d+)?$/.test(text.trim())) return null;
  const plain = text.trim().replace(",", ".");
  return { number: Number(plain), digits: plain.split(".")[1]?.length ?? 0, comma: text.includes(",") };
}

function later(wait) {
  clearTimeout(timer);
  timer = setTimeout(send, wait);
}

async function send(last = false) {
  if (!changed.size || (sending && last !== true)) return;
  sending = true;
  const names = [...changed];
  changed.clear();
  const body = new URLSearchParams({ version: version().value });
  for (const name of names) {
    const field = sheet.elements.namedItem(name);
    if (field) body.set(name, field.value);
  }
  const answer = await posted(body, last === true);
  sending = false;
  if (answer === null) {
    for (const name of names) changed.add(name);
    tell({ waiting: changed.size ? 1 : 0 });
    later(AGAIN);
    return;
  }
  tell({ waiting: 0 });
  await shown(answer);
  if (changed.size) later(0);
}

async function posted(body, keepalive) {
  try {
    const answer = await fetch(sheet.action, { method: "POST", headers: { Accept: "application/json" }, body, keepalive });
    return await answer.json();
  } catch {
    return null;
  }
}

async function shown(answer) {
  if (answer.error) {
    swap({ state: "" });
    const words = document.createElement("p");
    words.className = "wrong";
    words.textContent = `Not taken: ${answer.error.message}. ${answer.error.mend ?? ""}`;
    document.getElementById("part-state").append(words);
    return;
  }
  for (const field of document.querySelectorAll('input[name="version"]')) field.value = answer.version;
  await untouched();
  const held = inSight();
  swap(answer.parts);
  for (const [key, html] of Object.entries(answer.rows)) {
    const there = document.getElementById(`verdict-${key}`);
    if (there && there.innerHTML !== html && !there.contains(document.activeElement)) there.innerHTML = html;
  }
  for (const field of sheet.querySelectorAll("input:not([type=hidden])")) mark(field, answer.faults[field.name] ?? "");
  // Words beside an earlier row must not push the one that is typed out of sight.
  held?.scrollIntoView({ block: "nearest", behavior: "instant" });
}

function inSight() {
  const field = document.activeElement;
  if (!sheet.contains(field)) return null;
  const box = field.getBoundingClientRect();
  return box.bottom > 0 && box.top < innerHeight ? field : null;
}

function mark(field, fault) {
  if (fault) field.setAttribute("aria-invalid", "true");
  else field.removeAttribute("aria-invalid");
  const note = document.getElementById(`n-${field.name}`);
  if (!note) return;
  note.className = fault ? "wrong" : "hint";
  note.textContent = fault || note.dataset.hint;
}

function version() {
  return sheet.elements.namedItem("version");
}
