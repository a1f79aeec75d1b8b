// Change the theme at once; the studio keeps it for the next page.

document.addEventListener("submit", async (event) => {
  const form = event.target;
  if (form.getAttribute("action") !== "/theme" || !event.submitter) return;
  event.preventDefault();
  const theme = event.submitter.value;
  if (theme === "system") delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = theme;
  for (const button of form.querySelectorAll("button[name=theme]")) {
    button.setAttribute("aria-pressed", String(button.value === theme));
  }
  await fetch("/theme", {
    method: "POST",
    headers: { Accept: "application/json" },
    body: new URLSearchParams(new FormData(form, event.submitter)),
  });
});
