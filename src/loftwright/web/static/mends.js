// The sliders of a run say their ball, and the run never ends before it begins.

const first = document.getElementById("first-ball");
const last = document.getElementById("last-ball");

if (first) {
  first.addEventListener("input", () => { if (+first.value > +last.value) last.value = first.value; say(); });
  last.addEventListener("input", () => { if (+last.value < +first.value) first.value = last.value; say(); });
  say();
}

function say() {
  document.getElementById("first-said").textContent = first.value;
  document.getElementById("last-said").textContent = last.value;
}
