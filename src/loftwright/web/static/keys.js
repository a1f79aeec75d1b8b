// One letter, one act: every button that bears data-key is pressed by its letter, every place
// that bears data-focus is gone to. Letters do nothing in a field, and can be turned off.

const KEPT = "loftwright-keys";
const button = document.getElementById("keys-on");
let on = kept() !== "off";

write();
button?.addEventListener("click", () => {
  on = !on;
  try { localStorage.setItem(KEPT, on ? "on" : "off"); } catch { /* a private window forgets */ }
  write();
});

document.addEventListener("keydown", (event) => {
  if (!on || event.repeat || event.ctrlKey || event.altKey || event.metaKey) return;
  // A field in a panel that was just closed holds the focus for one more frame.
  if (event.target.closest?.("input, textarea, select, [contenteditable]")?.checkVisibility()) return;
  if (event.key.length !== 1) return;
  const name = CSS.escape(event.key.toLowerCase());
  const place = document.querySelector(`[data-focus="${name}"]`);
  const target = place ?? [...document.querySelectorAll(`[data-key="${name}"]`)].find((one) => !one.disabled);
  if (!target) return;
  event.preventDefault();
  if (place) place.focus({ focusVisible: true });
  else target.click();
});

function kept() {
  try { return localStorage.getItem(KEPT); } catch { return null; }
}

function write() {
  button?.setAttribute("aria-pressed", String(on));
  if (button) button.textContent = on ? "Keys are on here" : "Keys are off here";
}
