// What this tablet keeps of a visit over a page load, in its own storage: what was chosen and not yet
// hit in, and what was done last. None of it is a fact: facts are sent.

/** @typedef {import("./types.js").Situation} Situation */
/** @typedef {import("./acts.js").Act} Act */
/**
 * @typedef {object} Kept
 * @property {string} unit what the targets are typed in
 * @property {Situation | null} now what the next ball will be recorded in
 * @property {Record<string, Situation>} chosen by swing, not yet hit in
 * @property {Act[]} acts the last one last
 * @property {string[]} looked_at balls that were asked about and stay where they are
 * @property {number} at
 */

const PREFIX = "bay ";
const MOST_VISITS = 8;

/** @returns {Kept} */
function nothing() {
  return { unit: "", now: null, chosen: {}, acts: [], looked_at: [], at: 0 };
}

/** @param {string} visitId @returns {Kept} */
export function keptOf(visitId) {
  try {
    return { ...nothing(), ...JSON.parse(localStorage.getItem(PREFIX + visitId) ?? "{}") };
  } catch {
    return nothing();
  }
}

/** @param {string} visitId @param {Kept} kept */
export function keep(visitId, kept) {
  kept.at = Date.now();
  try {
    localStorage.setItem(PREFIX + visitId, JSON.stringify(kept));
    forgetOldest();
  } catch {
    // No storage, or none left: then it lasts as long as the page.
  }
}

function forgetOldest() {
  const visits = Object.keys(localStorage).filter((key) => key.startsWith(PREFIX));
  if (visits.length <= MOST_VISITS) return;
  const byAge = visits.sort((a, b) => ageOf(a) - ageOf(b));
  for (const key of byAge.slice(0, visits.length - MOST_VISITS)) localStorage.removeItem(key);
}

/** @param {string} key */
function ageOf(key) {
  return keptOf(key.slice(PREFIX.length)).at;
}
