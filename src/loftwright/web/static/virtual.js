// The virtual golfer of an invented fitting hits every few seconds until it is told to stop; the
// mark is read a moment after its ball, as a fitter would.

const BETWEEN = 3000;
const TO_THE_FACE = 1200;
const box = document.querySelector("[data-hit]");
const button = document.getElementById("virtual-on");
const said = document.getElementById("virtual-said");
let timer = 0;
let waiting = false;

button?.addEventListener("click", () => (timer ? stop("") : start()));

function start() {
  button.setAttribute("aria-pressed", "true");
  said.textContent = "It hits every three seconds.";
  timer = setInterval(hit, BETWEEN);
  hit();
}

function stop(words) {
  clearInterval(timer);
  timer = 0;
  button.setAttribute("aria-pressed", "false");
  said.textContent = words;
}

// A slow answer skips a turn, so that balls never pile up.
async function hit() {
  if (waiting) return;
  waiting = true;
  const told = await post(box.dataset.hit, { mark: "later" });
  waiting = false;
  if (told === null) return;
  setTimeout(() => post(`/fittings/${told.fitting}/virtual/mark`, { ball: told.ball }), TO_THE_FACE);
}

// A refusal stops the golfer and is said below the button.
async function post(address, fields) {
  try {
    const answer = await fetch(address, {
      method: "POST",
      headers: { Accept: "application/json" },
      body: new URLSearchParams(fields),
    });
    const told = await answer.json();
    if (answer.ok) return told;
    stop(`${told.error.message}. ${told.error.mend ?? ""}`);
  } catch {
    stop("The link is lost; the virtual golfer waits.");
  }
  return null;
}
