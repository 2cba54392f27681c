// All the arithmetic that these pages do: count, mean, spread, and the nine figures around the mean.
// What the numbers mean is worked out on the server.

/** @typedef {import("./types.js").Shot} Shot */
/** @typedef {import("./types.js").Block} Block */

/** What was typed as a number; null where nothing was measured. @param {string | number | null | undefined} typed */
export function figure(typed) {
  if (typed === null || typed === undefined || String(typed).trim() === "") return null;
  const number = Number(String(typed).replace(",", ".").replace("\u2212", "-"));
  return Number.isFinite(number) ? number : null;
}

/**
 * @typedef {object} Tally
 * @property {number} count every ball that was hit, however it was struck
 * @property {number} inMean
 * @property {number | null} mean
 * @property {number | null} spread standard deviation of one ball, from two on
 * @property {Record<string, number>} strikes
 */

/** @param {Shot[]} shots @returns {Tally} */
export function tally(shots) {
  const kept = shots.filter((shot) => !shot.left_out);
  const carries = kept.filter((shot) => shot.in_mean).map((shot) => figure(shot.carry))
    .filter((carry) => carry !== null);
  const mean = carries.length ? carries.reduce((sum, carry) => sum + carry, 0) / carries.length : null;
  /** @type {Record<string, number>} */
  const strikes = {};
  for (const shot of kept) {
    if (shot.strike && shot.strike !== "clean") strikes[shot.strike] = (strikes[shot.strike] ?? 0) + 1;
  }
  return { count: kept.length, inMean: carries.length, mean, spread: spread(carries, mean), strikes };
}

/** @param {number[]} carries @param {number | null} mean */
function spread(carries, mean) {
  if (mean === null || carries.length < 2) return null;
  const squares = carries.reduce((sum, carry) => sum + (carry - mean) ** 2, 0);
  return Math.sqrt(squares / (carries.length - 1));
}

/** The nine figures to tap, the middle one first known; null before the first ball. @param {Shot[]} shots */
export function nineAround(shots) {
  const { mean } = tally(shots);
  const middle = mean ?? figure(shots.filter((shot) => !shot.left_out).at(-1)?.carry);
  if (middle === null) return null;
  const first = Math.max(1, Math.round(middle) - 4);
  return Array.from({ length: 9 }, (_, index) => first + index);
}

/** A number as it is read: no digit that was not measured. @param {number} value */
export function shown(value) {
  return String(Math.round(value));
}

/** A carry as it is read: what came in another unit has at most one place. @param {string | number | null} carry */
export function carryWords(carry) {
  const number = figure(carry);
  return number === null ? "" : String(Math.round(number * 10) / 10);
}

/** "4 left", "on line". @param {string | number | null} side positive to the player's right */
export function sideWords(side) {
  const number = figure(side);
  if (number === null) return "";
  if (number === 0) return "on line";
  return `${Math.abs(number)} ${number < 0 ? "left" : "right"}`;
}
