// What changes with the next club, in words, and which club would show drift. Against the club
// before only words are compared; the whole club's mass the server works out at the hand-over.
import { beside, heldOf } from "./held.js";

/** @typedef {import("../types.js").VisitState} VisitState */
/** @typedef {import("../types.js").Trial} Trial */
/** @typedef {{name: string, then: string, now: string}} Difference */

/** @typedef {import("../types.js").HeldWord | "head_name"} Word */
/** @typedef {{club_id: string, trial_head_id: string, trial_shaft_id: string, slot: number | null, loft: string, lie: string}} Choosing */

/** A word of a club and its name; by these names a fitter chooses, but for head and bounce, which come along with a sole. @type {[Word, string][]} */
const WORDS = [
  ["loft_words", "loft"], ["length_words", "length"], ["shaft_name", "shaft"], ["lie_words", "lie"], ["sole_words", "sole"],
  ["grip_name", "grip"], ["head_name", "head"], ["bounce_words", "bounce"],
];
const OF_A_SOLE = ["head", "bounce"];
/** Words that are longer than this, together, go by their name alone. */
const SHORT_ENOUGH = 24;

/** The club that is in the hand, or was last, if it may be named. @param {VisitState} view */
function before(view) {
  const last = view.trials.at(-1);
  return last && last.code === null && !last.hidden ? last : null;
}

/**
 * What is different from the club before, as far as both are known in words.
 * @param {VisitState} view @param {Choosing} chosen
 * @returns {Difference[]}
 */
export function differing(view, chosen) {
  const then = before(view);
  return !then || chosen.club_id ? [] : apart(then, heldOf(view, chosen));
}

/**
 * How the club that is chosen stands against the one played now in its slot, in one line. Nothing
 * where that one was the last in the hand: then what differs is said already.
 * @param {VisitState} view @param {Choosing} chosen
 */
export function againstNow(view, chosen) {
  const own = view.played_now?.find((one) => one.slot === chosen.slot);
  if (!own || chosen.club_id || before(view)?.club_id === own.club_id) return "";
  const found = beside(heldOf(view, chosen), own, view.apart_from_deg);
  if (!found) return "";
  const count = found.isSeveral ? `${found.count} things differ: ` : "";
  return `Against ${own.name}, played now: ${count}${found.each.join("; ") || "nothing known to differ"}. ${found.unknown}`.trim();
}

/** @param {Partial<Record<Word, string>>} club @param {Word} key */
function of(club, key) {
  return club[key] ?? "";
}

/** @param {Partial<Record<Word, string>>} then @param {Partial<Record<Word, string>>} now @returns {Difference[]} */
function apart(then, now) {
  return WORDS.flatMap(([key, name]) => {
    const [was, is] = [of(then, key), of(now, key)];
    return was && is && bare(was) !== bare(is) ? [{ name, then: was, now: is }] : [];
  });
}

/** A figure that was only worked out and one that was measured can be alike. @param {string} words */
function bare(words) {
  return words.replace(/^about /, "");
}

/** @param {string} then @param {string} now */
function isLong(then, now) {
  return `${then}${now}`.length > SHORT_ENOUGH;
}

/** What was chosen to change, and does. @param {Difference[]} found @param {string[]} changed */
export function chosenOf(found, changed) {
  return found.filter(({ name }) => changed.includes(name));
}

/** What comes along with it, in one line; a name alone where its words are long. @param {Difference[]} found @param {string[]} changed */
export function alsoDifferent(found, changed) {
  return found.filter(({ name }) => !changed.includes(OF_A_SOLE.includes(name) && changed.includes("sole") ? "sole" : name))
    .map(({ name, then, now }) => (isLong(then, now) ? name : `${name} ${now}, was ${then}`)).join("; ");
}

/**
 * The first club of the slot in the hand, once another was hit after it: come back to, it shows drift.
 * @param {VisitState} view @returns {Trial | null}
 */
export function driftOffer(view) {
  const last = before(view);
  const hit = view.trials.filter((trial) => trial.code === null && !trial.hidden && trial.purpose !== "baseline"
    && trial.slot === last?.slot && trial.blocks.some((block) => block.shots.length > 0));
  const [first] = hit;
  if (!first || !last || isSameClub(first, last) || hit.every((trial) => isSameClub(trial, first))) return null;
  return first;
}

/** @param {Trial} a @param {Trial} b */
function isSameClub(a, b) {
  return a.club_id ? a.club_id === b.club_id : a.trial_head_id === b.trial_head_id && a.trial_shaft_id === b.trial_shaft_id;
}
