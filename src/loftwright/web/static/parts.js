// Put fresh parts into a page without taking away what a person holds: the pressed button, the
// focus, half-typed words, opened details and where lists were scrolled to.

const HELD = 1000;
let pressed = 0;
let release = () => {};

document.addEventListener("pointerdown", () => { pressed = Date.now(); }, true);
for (const name of ["pointerup", "pointercancel"]) {
  document.addEventListener(name, () => {
    // The click comes after this event; a part replaced in between would swallow it.
    setTimeout(() => { pressed = 0; release(); }, 0);
  }, true);
}

// Resolves once no finger lies on the page, or after a second of holding.
export function untouched() {
  if (!pressed) return Promise.resolve();
  return new Promise((done) => {
    const late = setTimeout(() => { pressed = 0; done(); }, Math.max(0, HELD - (Date.now() - pressed)));
    release = () => { clearTimeout(late); release = () => {}; done(); };
  });
}

export function swap(parts) {
  const changed = [];
  for (const [name, html] of Object.entries(parts)) {
    const part = document.getElementById(`part-${name}`);
    if (!part) continue;
    const kept = keep(part);
    part.innerHTML = html;
    restore(part, kept);
    changed.push(name);
  }
  return changed;
}

function keep(part) {
  const active = part.contains(document.activeElement) ? document.activeElement : null;
  return {
    focus: active && { mark: mark(active), start: read(active, "selectionStart"), end: read(active, "selectionEnd") },
    typed: [...part.querySelectorAll("input, textarea, select")].filter(isTyped).map((one) => ({ mark: mark(one), value: one.value, checked: one.checked })),
    open: [...part.querySelectorAll("details[open]")].map(mark),
    scrolled: [...part.querySelectorAll(".scroll")].map((one) => [mark(one), one.scrollLeft, one.scrollTop]),
  };
}

function restore(part, kept) {
  for (const { mark: where, value, checked } of kept.typed) {
    const field = find(part, where);
    if (!field) continue;
    if (field.type === "checkbox" || field.type === "radio") field.checked = checked;
    else field.value = value;
  }
  for (const where of kept.open) find(part, where)?.setAttribute("open", "");
  for (const [where, left, top] of kept.scrolled) find(part, where)?.scrollTo({ left, top, behavior: "instant" });
  if (kept.focus) focus(part, kept.focus);
}

function focus(part, { mark: where, start, end }) {
  const target = find(part, where);
  if (!target || target.disabled) {
    part.tabIndex = -1;
    part.focus({ preventScroll: true });
    return;
  }
  target.focus({ preventScroll: true });
  if (start !== null && target.setSelectionRange) target.setSelectionRange(start, end);
}

// How an element is found again: by its id, else by its kind, name, form and place among its like.
function mark(element) {
  if (element.id) return { id: element.id };
  const alike = like(element);
  const root = element.closest('[id^="part-"]');
  const place = [...root.querySelectorAll(alike)].filter((one) => action(one) === action(element)).indexOf(element);
  return { alike, action: action(element), place };
}

function find(part, where) {
  if (where.id) return part.querySelector(`#${CSS.escape(where.id)}`);
  return [...part.querySelectorAll(where.alike)].filter((one) => action(one) === where.action)[where.place] ?? null;
}

function like(element) {
  const name = element.getAttribute("name");
  const value = element.localName === "button" || element.type === "radio" ? element.getAttribute("value") : null;
  return element.localName + (name ? `[name="${CSS.escape(name)}"]` : "") + (value ? `[value="${CSS.escape(value)}"]` : "");
}

function action(element) {
  return element.closest("form")?.getAttribute("action") ?? "";
}

function isTyped(field) {
  if (field.type === "hidden" || field.type === "file") return false;
  if (field.type === "checkbox" || field.type === "radio") return field.checked !== field.defaultChecked;
  if (field.localName === "select") return [...field.options].some((one) => one.selected !== one.defaultSelected);
  return field.value !== field.defaultValue;
}

function read(element, property) {
  try { return element[property] ?? null; } catch { return null; }
}
