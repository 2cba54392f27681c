// What changes with the next club, in words, and which club would show drift. Only words are
// compared here: what they mean, and the whole club's mass, the server works out at the hand-over.

/** @typedef {import("../types.js").VisitState} VisitState */
/** @typedef {import("../types.js").Trial} Trial */
/** @typedef {{name: string, then: string, now: string}} Difference */

/** A word of a club and its name; by these names a fitter chooses, but for head and bounce, which only come along. @type {["loft_words" | "sole_words" | "shaft_name" | "length_words" | "lie_words" | "grip_name" | "head_name" | "bounce_words", string][]} */
const WORDS = [
  ["loft_words", "loft"], ["length_words", "length"], ["shaft_name", "shaft"], ["lie_words", "lie"], ["sole_words", "sole"],
  ["grip_name", "grip"], ["head_name", "head"], ["bounce_words", "bounce"],
];

/** The club that is in the hand, or was last, if it may be named. @param {VisitState} view */
function before(view) {
  const last = view.trials.at(-1);
  return last && last.code === null && !last.hidden ? last : null;
}

/**
 * What is different from the club before, as far as both are known in words.
 * @param {VisitState} view
 * @param {{club_id: string, trial_head_id: string, trial_shaft_id: string, loft: string, lie: string}} chosen
 * @returns {Difference[]}
 */
export function differing(view, chosen) {
  const then = before(view);
  if (!then || chosen.club_id) return [];
  const head = view.equipment.heads.find((one) => one.id === chosen.trial_head_id)?.played;
  const shaft = view.equipment.shafts.find((one) => one.id === chosen.trial_shaft_id)?.played;
  /** @type {Record<string, string>} */
  const now = { ...head, ...shaft, ...(chosen.loft && { loft_words: `${chosen.loft}\u00b0`, bounce_words: "" }), ...(chosen.lie && { lie_words: `${chosen.lie}\u00b0` }) };
  return WORDS.flatMap(([key, name]) => {
    const [was, is] = [then[key] ?? "", now[key] ?? ""];
    return was && is && was !== is ? [{ name, then: was, now: is }] : [];
  });
}

/** What was chosen to change, and does. @param {Difference[]} found @param {string[]} changed */
export function chosenOf(found, changed) {
  return found.filter(({ name }) => changed.includes(name));
}

/** What comes along with it, in one line; a name alone where its words are long. @param {Difference[]} found @param {string[]} changed */
export function alsoDifferent(found, changed) {
  return found.filter(({ name }) => !changed.includes(name))
    .map(({ name, then, now }) => (`${then}${now}`.length > 24 ? name : `${name} ${now}, was ${then}`)).join("; ");
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
