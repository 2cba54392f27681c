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
      return kept && THEMES.includes(kept) ? kept : null;
    } catch (refused) {
      return null; // storage may be forbidden: the device's preference holds
    }
  }

  function wear() {
    root.dataset.theme = chosen() || (dark.matches ? "dusk" : "day");
    /** @type {NodeListOf<HTMLElement>} */
    const buttons = document.querySelectorAll("[data-theme-choice]");
    for (const button of buttons) {
      button.setAttribute("aria-pressed", String(button.dataset.themeChoice === root.dataset.theme));
    }
  }

  /** @param {string} theme */
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
    const theme = button instanceof HTMLElement && button.dataset.themeChoice;
    if (theme) choose(theme);
  });
})();
