// Ratings belong to the turn and the situation that they were given in, and are shown only there.
import { figure } from "../figures.js";

/** @typedef {import("../types.js").Rated} Rated */
/** @typedef {import("../types.js").Situation} Situation */

/** Of a situation, what a player feels: the ball's and the device's words say nothing of the club. */
const FELT = /** @type {const} */ (["swing", "hit_from", "ground", "wetness", "face"]);

/** The part of a situation that a rating is sent with. @param {Situation} situation */
export function feltIn(situation) {
  const { swing, target, hit_from, ground, wetness, face } = situation;
  return { swing, target, hit_from, ground, wetness, face };
}

/**
 * The last word to a question in this situation, at this turn of a comparison; null outside one.
 * @param {Rated[] | undefined} rated @param {string} about @param {Situation} situation @param {number | null} turn
 */
export function ratedIn(rated, about, situation, turn = null) {
  return rated?.filter((one) => one.about === about && one.turn === turn && figure(one.target) === figure(situation.target)
    && FELT.every((word) => one[word] === situation[word])).at(-1)?.score;
}
