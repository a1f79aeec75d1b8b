// The virtual golfer of an invented fitting: a ball at a tap, or one every few seconds until it is
// told to stop; the mark is read a moment after its ball, as a fitter would.

const BETWEEN = 3000;
const TO_THE_FACE = 1200;
const form = document.getElementById("virtual");
const keep = document.getElementById("virtual-on");
const said = document.getElementById("virtual-said");
let timer = 0;

if (form) {
  keep.hidden = false;
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    hit();
  });
  keep.addEventListener("click", () => (timer ? stop("Stopped.") : start()));
}

function start() {
  keep.setAttribute("aria-pressed", "true");
  keep.textContent = "Stop hitting";
  timer = setInterval(hit, BETWEEN);
  hit();
}

function stop(words) {
  clearInterval(timer);
  timer = 0;
  keep.setAttribute("aria-pressed", "false");
  keep.textContent = "Keep hitting";
  said.textContent = words;
  said.classList.toggle("vh", words === "Stopped.");
}

async function hit() {
  const told = await post(form.action, { mark: "later" });
  if (told === null) return;
  said.classList.add("vh");
  setTimeout(() => post(`/fittings/${told.fitting}/virtual/mark`, { ball: told.ball }), TO_THE_FACE);
}

// A refusal stops the golfer and is said beside the buttons.
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
