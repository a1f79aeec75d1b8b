// A device that nobody touches locks itself. A touch counts in every page that is open on it, and
// is told to the studio now and then, for reading sends nothing.

const after = 1000 * Number(document.body.dataset.lockAfter ?? 0);
const LOOK = 1000;
const TELL = 60000;
const TOUCHED = "loftwright-touched";
const LOCKED = "loftwright-locked";
let told = Date.now();

// A lock shuts every page that is open on the device, also those that follow nothing.
const shut = document.body.dataset.locked !== undefined;
addEventListener("storage", (event) => { if (event.key === LOCKED && !shut) location.assign("/lock"); });
if (shut) localStorage.setItem(LOCKED, String(Date.now()));

if (after) {
  touched();
  for (const kind of ["pointerdown", "keydown", "scroll", "wheel"]) addEventListener(kind, touched, { passive: true, capture: true });
  setInterval(look, LOOK);
}

function touched() {
  localStorage.setItem(TOUCHED, String(Date.now()));
}

async function look() {
  const last = Number(localStorage.getItem(TOUCHED));
  const now = Date.now();
  if (now - last >= after) return lock();
  if (last <= told || now - told < Math.min(TELL, after / 4)) return;
  told = now;
  const answer = await fetch("/lock/awake", { method: "POST", headers: { Accept: "application/json" } }).catch(() => null);
  if (answer?.status === 423 || answer?.status === 401) location.assign("/lock");
}

async function lock() {
  await fetch("/lock/now", { method: "POST", headers: { Accept: "application/json" } }).catch(() => null);
  location.assign("/lock");
}
