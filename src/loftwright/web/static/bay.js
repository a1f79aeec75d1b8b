// The bay page: face, feel line, and what a tap closes.

import "./face.js";
import "./feel.js";

// An act says what its page had shown, so that two screens do not correct one thing unawares.
document.addEventListener("formdata", (event) => {
  const { revision } = document.body.dataset;
  if (revision !== undefined && event.target.matches("[data-act]")) event.formData.set("seen", revision);
});

// A panel has done its work once one of its acts was sent; who types balls goes on typing.
document.addEventListener("submit", (event) => {
  const panel = event.target.closest("[popover]");
  if (panel && panel.id !== "entry") setTimeout(() => panel.hidePopover(), 0);
});

// A field that a person opens is ready to be typed in, unless most open its panel for a tap.
document.addEventListener("toggle", (event) => {
  if (event.newState === "open") event.target.querySelector("input:not([type=hidden], [data-waits])")?.focus();
}, true);
