// A scanner types a label's code and Enter faster than a hand can, wherever the focus is. What
// comes so goes into the page's form for labels and never to the letters that act; a field that
// has the focus takes it as it is.

const SIGN = /^[0-9A-Za-z-]$/;
const QUICK = 100;
const LEAST = 9;
let typed = "";
let last = -Infinity;

document.addEventListener("keydown", (event) => {
  if (event.repeat || event.ctrlKey || event.altKey || event.metaKey) return;
  if (event.target.closest?.("input, textarea, select, [contenteditable]")?.checkVisibility()) return;
  const follows = typed !== "" && event.timeStamp - last < QUICK;
  if (event.key === "Enter" && follows && typed.replaceAll("-", "").length >= LEAST) {
    take(event);
    send(typed);
    typed = "";
    return;
  }
  if (!SIGN.test(event.key)) return;
  // A label is in capitals: a scanner holds Shift for them, and no act has a figure for its key.
  const begins = event.shiftKey || /\d/.test(event.key);
  typed = follows ? typed + event.key : begins ? event.key : "";
  last = event.timeStamp;
  if (typed) take(event);
}, true);

function take(event) {
  event.preventDefault();
  event.stopImmediatePropagation();
}

function send(code) {
  const form = document.querySelector("form[data-scan]");
  if (!form) return;
  form.elements.code.value = code;
  form.requestSubmit();
}
