// The line that says how the page stands with the studio, in words, for eye and ear.

const line = document.getElementById("link");
const spoken = document.getElementById("link-spoken");
const state = { live: false, lostAt: 0, retryAt: 0, seenAt: new Date(), waiting: 0 };
let clock = 0;
let said = "";

export function tell(change) {
  Object.assign(state, change);
  document.body.dataset.link = state.lostAt ? "lost" : state.live ? "live" : "none";
  write();
  if (state.lostAt && !clock) clock = setInterval(write, 1000);
  if (!state.lostAt && clock) clock = clearInterval(clock) ?? 0;
}

function write() {
  const parts = state.lostAt ? lost() : [];
  if (state.waiting) parts.push(`${state.waiting === 1 ? "1 act waits" : `${state.waiting} acts wait`} for the link.`);
  line.textContent = parts.length ? parts.join(" ") : state.live ? "Live" : "";
  const news = `${Boolean(state.lostAt)} ${state.waiting}`;
  if (news === said) return;
  // The seconds change all the time; only what is new is read aloud.
  if (state.lostAt || state.waiting) spoken.textContent = line.textContent;
  else if (said) spoken.textContent = "The link to the studio is back.";
  said = news;
}

function lost() {
  const now = Date.now();
  const since = Math.round((now - state.lostAt) / 1000);
  const until = Math.max(0, Math.ceil((state.retryAt - now) / 1000));
  const trying = until ? `trying again in ${until} s` : "trying again now";
  return [`Link to the studio lost ${since} s ago; ${trying}.`, `What you see is from ${time(state.seenAt)}.`];
}

function time(moment) {
  return [moment.getHours(), moment.getMinutes(), moment.getSeconds()].map((n) => String(n).padStart(2, "0")).join(":");
}
