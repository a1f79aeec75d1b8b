// The face: a tap is a mark. Arrow keys move a cross by 1 mm, with Shift by 5 mm; Enter marks.
// Marks of a set in unknown order are kept until the set is full, then sent together.

import { sendAct } from "./sent.js";

const STEPS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
const SVG = "http://www.w3.org/2000/svg";
const pad = document.getElementById("pad");
const unordered = document.getElementById("unordered");
const said = document.getElementById("pad-said");
let cross = { toe: 0, high: 0 };
let held = [];
let shown = false;

if (pad) {
  pad.addEventListener("click", tapped);
  pad.addEventListener("keydown", pressed);
  pad.addEventListener("focus", () => { shown = pad.matches(":focus-visible"); draw(); });
  pad.addEventListener("blur", () => { shown = false; draw(); });
  unordered.addEventListener("click", toggle);
  document.addEventListener("parts", (event) => { if (event.detail.changed.includes("face")) draw(); });
}

function svg() { return pad.querySelector("svg[data-mm-per-unit]"); }

// Millimetres of a unit of the view box, where the middle stands, and which way is toe and up.
function map() {
  const { mmPerUnit, centreX, centreY, toeSign, highSign } = svg().dataset;
  return { unit: +mmPerUnit, x: +centreX, y: +centreY, toe: +toeSign, high: +highSign };
}

function tapped(event) {
  const drawing = svg();
  if (!drawing || event.detail === 0) return;
  const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(drawing.getScreenCTM().inverse());
  const { unit, x, y, toe, high } = map();
  take({ toe: toe * (at.x - x) * unit, high: high * (at.y - y) * unit });
}

function pressed(event) {
  if (event.ctrlKey || event.altKey || event.metaKey) return;
  const step = STEPS[event.key];
  if (step) {
    event.preventDefault();
    const { toe, high } = map();
    const far = event.shiftKey ? 5 : 1;
    cross = { toe: within(cross.toe + step[0] * toe * far), high: within(cross.high + step[1] * high * far) };
    shown = true;
    draw();
    said.textContent = words(cross);
  } else if (event.key === "Enter") {
    event.preventDefault();
    take(cross);
  }
}

function within(value) { return Math.max(-80, Math.min(80, Math.round(value))); }

function take(place) {
  const { toe, high } = { toe: place.toe.toFixed(1), high: place.high.toFixed(1) };
  if (unordered.getAttribute("aria-pressed") !== "true") {
    sendAct(pad.dataset.mark, { toe_mm: toe, high_mm: high });
    said.textContent = `Marked ${words(place)}.`;
    return;
  }
  held.push(`${toe},${high}`);
  const balls = setBalls();
  said.textContent = `Mark ${held.length} of ${balls.length}: ${words(place)}.`;
  unordered.textContent = `Order unknown: ${held.length} of ${balls.length}`;
  draw();
  if (held.length < balls.length) return;
  sendAct(pad.dataset.marks, { marks: held.join(";"), balls: balls.join(",") });
  leave();
}

function setBalls() {
  return (pad.querySelector("[data-set]")?.dataset.set ?? "").split(",").filter(Boolean);
}

function toggle() {
  if (unordered.getAttribute("aria-pressed") === "true") {
    leave();
  } else if (setBalls().length < 2) {
    said.textContent = "A set needs two balls without a mark or more.";
    unordered.textContent = "No set without marks";
    setTimeout(() => { unordered.textContent = "Order unknown"; }, 2000);
  } else {
    unordered.setAttribute("aria-pressed", "true");
    unordered.textContent = `Order unknown: 0 of ${setBalls().length}`;
  }
}

function leave() {
  held = [];
  unordered.setAttribute("aria-pressed", "false");
  unordered.textContent = "Order unknown";
  draw();
}

// What is not in the record yet is drawn over the picture: the cross, and a set that is not full.
function draw() {
  const drawing = svg();
  if (!drawing) return;
  drawing.querySelector(".over")?.remove();
  const over = document.createElementNS(SVG, "g");
  over.setAttribute("class", "over");
  const { unit, x, y, toe, high } = map();
  const place = ([t, h]) => [x + (toe * t) / unit, y + (high * h) / unit];
  for (const one of held) {
    const [cx, cy] = place(one.split(",").map(Number));
    over.append(shape("circle", { cx, cy, r: 8, class: "held" }));
  }
  if (shown) {
    const [cx, cy] = place([cross.toe, cross.high]);
    over.append(shape("path", { d: `M${cx - 14} ${cy}h28M${cx} ${cy - 14}v28`, class: "cross" }));
  }
  drawing.append(over);
}

function shape(name, attributes) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}

function words({ toe, high }) {
  const parts = [];
  if (Math.round(toe)) parts.push(`${Math.abs(Math.round(toe))} mm ${toe > 0 ? "toe" : "heel"}`);
  if (Math.round(high)) parts.push(`${Math.abs(Math.round(high))} mm ${high > 0 ? "high" : "low"}`);
  return parts.join(", ") || "in the middle";
}
