// Marks of a double reading: a tap, or the arrow keys and Enter, writes a line into the field.

const STEPS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
const SVG = "http://www.w3.org/2000/svg";
const FARTHEST = 80;
const pad = document.getElementById("pad");
const field = document.querySelector("#double textarea");
const said = document.getElementById("pad-said");
const undo = document.getElementById("pad-undo");
const drawing = pad.querySelector("svg");
const { mmPerUnit, centreX, centreY, toeSign, highSign } = drawing.dataset;
let cross = null;

pad.addEventListener("click", (event) => {
  if (event.detail === 0) return;
  const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(drawing.getScreenCTM().inverse());
  take([+toeSign * (at.x - +centreX) * +mmPerUnit, +highSign * (at.y - +centreY) * +mmPerUnit]);
});

pad.addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.altKey || event.metaKey) return;
  const step = STEPS[event.key];
  if (step) {
    event.preventDefault();
    const far = event.shiftKey ? 5 : 1;
    const [toe, high] = cross ?? [0, 0];
    cross = [within(toe + step[0] * +toeSign * far), within(high + step[1] * +highSign * far)];
    draw();
    said.textContent = `Cross at ${words(cross)}.`;
  } else if (event.key === "Enter") {
    event.preventDefault();
    take(cross ?? [0, 0]);
  }
});

undo.addEventListener("click", () => { write(marks().slice(0, -1)); });
field.addEventListener("input", draw);
draw();

function marks() {
  return field.value.split(/[\n;]/).map((line) => line.trim()).filter(Boolean)
    .map((line) => line.split(",").map(Number));
}

function take(mark) {
  if (mark.some((value) => Math.abs(value) > FARTHEST)) return;
  write([...marks(), mark]);
}

function write(all) {
  field.value = all.map(([toe, high]) => `${round(toe)}, ${round(high)}`).join("\n");
  draw();
}

function draw() {
  drawing.querySelectorAll(".reading, .reading-number, .cross").forEach((one) => one.remove());
  const all = marks();
  all.forEach((mark, index) => {
    if (mark.length !== 2 || mark.some(Number.isNaN)) return;
    const [x, y] = place(mark);
    add("circle", { class: "reading", cx: x, cy: y, r: 5 });
    add("text", { class: "reading-number", x: x + 8, y: y + 5 }).textContent = index + 1;
  });
  if (cross) {
    const [x, y] = place(cross);
    add("path", { class: "cross", d: `M${x - 10} ${y}h20M${x} ${y - 10}v20` });
  }
  undo.disabled = all.length === 0;
  if (all.length) said.textContent = `${all.length} ${all.length === 1 ? "mark" : "marks"}; the last at ${words(all.at(-1))}.`;
}

function add(name, attributes) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  drawing.append(made);
  return made;
}

function place([toe, high]) {
  return [+centreX + (+toeSign * toe) / +mmPerUnit, +centreY + (+highSign * high) / +mmPerUnit];
}
function within(value) { return Math.max(-FARTHEST, Math.min(FARTHEST, Math.round(value))); }
function round(value) { return Math.round(10 * value) / 10; }
function words([toe, high]) {
  return `${Math.abs(Math.round(toe))} mm ${toe < 0 ? "heel" : "toe"}, ${Math.abs(Math.round(high))} mm ${high < 0 ? "low" : "high"}`;
}
