// What is asked of one ball is fetched when somebody opens it, so that no ball waits for it. Without
// a script the same link opens a page.

const panel = document.getElementById("ball-delivery");
const inside = document.getElementById("ball-delivery-inside");
let newest = 0;

document.addEventListener("click", async (event) => {
  const link = event.target.closest("a[data-sheet]");
  if (!link || !panel || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
  event.preventDefault();
  const turn = ++newest;
  inside.textContent = "Asking the ball…";
  if (!panel.matches(":popover-open")) panel.showPopover();
  panel.focus();
  const text = await fetched(link.dataset.sheet);
  if (turn !== newest) return;
  if (text === null) location.assign(link.href);
  else inside.innerHTML = text;
});

async function fetched(address) {
  try {
    const answer = await fetch(address);
    return answer.ok ? await answer.text() : null;
  } catch {
    return null;
  }
}
