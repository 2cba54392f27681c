// Which theme the page wears: what was chosen on this device, else what the device prefers.
// Loaded in the head without defer, so that the first paint has the right colours.
// It keeps the choice and nothing else in this device's storage.
"use strict";
(function () {
  const KEY = "theme";
  const THEMES = ["day", "dusk"];
  const root = document.documentElement;
  const dark = window.matchMedia("(prefers-color-scheme: dark)");

  function chosen() {
    try {
      const kept = window.localStorage.getItem(KEY);
      return THEMES.includes(kept) ? kept : null;
    } catch (refused) {
      return null; // storage may be forbidden: the device's preference holds
    }
  }

  function wear() {
    root.dataset.theme = chosen() || (dark.matches ? "dusk" : "day");
    for (const button of document.querySelectorAll("[data-theme-choice]")) {
      button.setAttribute("aria-pressed", String(button.dataset.themeChoice === root.dataset.theme));
    }
  }

  function choose(theme) {
    try {
      window.localStorage.setItem(KEY, theme);
    } catch (refused) {
      root.dataset.theme = theme; // at least for this page
      return;
    }
    wear();
  }

  wear();
  dark.addEventListener("change", wear);
  window.addEventListener("storage", wear);
  document.addEventListener("DOMContentLoaded", wear);
  document.addEventListener("click", function (event) {
    const button = event.target instanceof Element && event.target.closest("[data-theme-choice]");
    if (button) choose(button.dataset.themeChoice);
  });
})();
