// The feel line: a tap says where the club in hand stands; arrow keys move, Enter says it.

import { sendAct } from "./sent.js";

const STEP = 5;
let moved = null;

document.addEventListener("click", (event) => {
  const line = event.target.closest?.("#feel-line");
  const drawing = line?.querySelector("svg");
  if (!drawing || !line.dataset.club) return;
  const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(drawing.getScreenCTM().inverse());
  const { left, right } = drawing.dataset;
  say(line, (at.x - left) / (right - left));
});

document.addEventListener("keydown", (event) => {
  const line = event.target.closest?.("#feel-line");
  if (!line?.dataset.club || event.ctrlKey || event.altKey || event.metaKey) return;
  const step = { ArrowLeft: -STEP, ArrowDown: -STEP, ArrowRight: STEP, ArrowUp: STEP, Home: -100, End: 100 }[event.key];
  if (step) {
    event.preventDefault();
    moved = Math.max(0, Math.min(100, (moved ?? Number(line.getAttribute("aria-valuenow"))) + step));
    line.setAttribute("aria-valuenow", moved);
    line.setAttribute("aria-valuetext", `${moved} of 100 towards want it; Enter says it`);
    show(line, moved);
  } else if (event.key === "Enter" && moved !== null) {
    event.preventDefault();
    say(line, moved / 100);
  }
});

function say(line, place) {
  moved = null;
  sendAct(`${document.querySelector("[data-at]").dataset.at}/acts/felt`, {
    club: line.dataset.club,
    place: Math.max(0, Math.min(1, place)).toFixed(3),
  });
}

function show(line, percent) {
  const drawing = line.querySelector("svg");
  const { left, right } = drawing.dataset;
  let pointer = drawing.querySelector(".pointer");
  if (!pointer) {
    pointer = document.createElementNS("http://www.w3.org/2000/svg", "path");
    pointer.setAttribute("class", "pointer cross");
    drawing.append(pointer);
  }
  pointer.setAttribute("d", `M${+left + (percent / 100) * (right - left)} 24v44`);
}
