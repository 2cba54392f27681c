// A form that was refused comes back at the top of its page: go to what has to be put right.
// Loaded with defer. Without this script the page is the same, only further to scroll.
"use strict";
(function () {
  const FIELDS = "[aria-invalid='true'], .has-error input:not([type=hidden]), .has-error select, .has-error textarea";
  const SENTENCES = ".errorlist, .strip.error";
  const main = document.getElementById("main");
  if (!main) return;
  const first = main.querySelector(FIELDS) ?? main.querySelector(SENTENCES);
  if (!(first instanceof HTMLElement)) return;
  for (let folded = first.closest("details"); folded; folded = folded.parentElement?.closest("details") ?? null) {
    folded.open = true;
  }
  // A sentence is no field: it can be gone to all the same.
  if (!first.matches("input, select, textarea")) first.tabIndex = -1;
  first.focus({ preventScroll: true });
  first.scrollIntoView({ block: "center" });
})();
