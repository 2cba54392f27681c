// A club on the shelf held against the one played now, before it is handed over: by the rule, and
// in the words, that the server uses for the club in the hand (`likeness`, `beside_now`).
import { figure } from "../figures.js";
import { angleOf } from "./readings.js";

/** @typedef {import("../types.js").VisitState} VisitState */
/** @typedef {import("../types.js").Angles} Angles */
/** @typedef {import("../types.js").HeldWord} HeldWord */
/** @typedef {{trial_head_id: string, trial_shaft_id: string, loft: string, lie: string}} Choosing */
/** @typedef {Partial<Record<HeldWord | "head_name", string>> & {angles: Partial<Angles>}} Held */
/** @typedef {{name: string, mine: string, theirs: string, isAlike: boolean | null}} Aspect */

const SEVERAL = 2;

/** Whole hundredths of a degree, so that a difference is the one that was typed. @param {string | null | undefined} angle */
function hundredths(angle) {
  const degrees = figure(angle);
  return degrees === null ? null : Math.round(degrees * 100);
}

/** @param {number} value in hundredths of a degree */
function degrees(value) {
  return `${value / 100}\u00b0`;
}

/** The club that is chosen, with what was read of it now. @param {VisitState} view @param {Choosing} chosen @returns {Held} */
export function heldOf(view, chosen) {
  const head = view.equipment.heads.find((one) => one.id === chosen.trial_head_id);
  const shaft = view.equipment.shafts.find((one) => one.id === chosen.trial_shaft_id);
  return { ...head?.played, ...shaft?.played, angles: { ...head?.angles }, ...bentTo(head?.angles, chosen) };
}

/**
 * Loft and lie as they were read now, and the bounce that follows the loft, a degree for a degree.
 * @param {Angles | undefined} known @param {Choosing} chosen @returns {Partial<Held>}
 */
function bentTo(known, chosen) {
  const [loft, lie] = [angleOf("loft", chosen.loft), angleOf("lie", chosen.lie)].map((read) => (read === null ? null : String(read)));
  /** @type {Partial<Held>} */
  const bent = { angles: { ...known, ...(loft && { loft }), ...(lie && { lie }) } };
  if (lie) bent.lie_words = degrees(hundredths(lie) ?? 0);
  if (!loft) return bent;
  bent.loft_words = degrees(hundredths(loft) ?? 0);
  if (hundredths(loft) === hundredths(known?.loft)) return bent;
  const [at, bounce] = [hundredths(known?.bends_from?.loft), hundredths(known?.bends_from?.bounce)];
  const now = at === null || bounce === null ? null : bounce + (hundredths(loft) ?? 0) - at;
  if (now === null) return bent;
  const isKnown = now === hundredths(known?.stamped_bounce) || (known?.bends_from?.is_measured && hundredths(loft) === at);
  bent.bounce_words = isKnown ? degrees(now) : `about ${degrees(toHalf(now))}`;
  bent.angles = { ...bent.angles, bounce: String(now / 100) };
  return bent;
}

/** What nobody measured has no finer step than half a degree. @param {number} value in hundredths */
function toHalf(value) {
  return Math.sign(value) * Math.round(Math.abs(value) / 50) * 50;
}

/** @param {Held} mine @param {Held} theirs @param {"loft" | "lie" | "bounce"} which @param {number} from @returns {boolean | null} */
function isNear(mine, theirs, which, from) {
  const [one, other] = [hundredths(mine.angles[which]), hundredths(theirs.angles[which])];
  return one === null || other === null ? null : Math.abs(one - other) < from;
}

/**
 * The pairs of clubs that differ in several things, each difference in words: no difference between them can be put down to one.
 * @param {import("../types.js").Trial[]} clubs @param {string | undefined} apartFrom degrees
 */
export function severalApart(clubs, apartFrom) {
  const held = clubs.map((club) => ({ club, as: /** @type {Held} */ ({ ...club, angles: club.angles ?? {} }) }));
  return held.flatMap((one, place) => held.slice(place + 1).flatMap((other) => {
    const found = beside(one.as, other.as, apartFrom);
    return found?.isSeveral ? [{ one: one.club, other: other.club, each: found.each }] : [];
  }));
}

/** @param {Held} mine @param {Held} theirs @param {number} from hundredths of a degree that set two angles apart @returns {Aspect[]} */
function aspects(mine, theirs, from) {
  /** @param {string} name @param {HeldWord} key @param {boolean | null} isAlike @returns {Aspect} */
  const aspect = (name, key, isAlike) => ({ name, mine: mine[key] ?? "", theirs: theirs[key] ?? "", isAlike });
  /** @param {HeldWord} key */
  const isWord = (key) => (mine[key] && theirs[key] ? mine[key]?.toLowerCase() === theirs[key]?.toLowerCase() : null);
  return [
    aspect("loft", "loft_words", isNear(mine, theirs, "loft", from)), aspect("length", "length_words", isWord("length_words")),
    aspect("shaft", "shaft_name", isWord("shaft_name")), aspect("lie", "lie_words", isNear(mine, theirs, "lie", from)),
    sole(mine, theirs, from), aspect("grip", "grip_name", isWord("grip_name")),
  ];
}

/** An own club's sole is known by its bounce alone. @param {Held} mine @param {Held} theirs @param {number} from @returns {Aspect} */
function sole(mine, theirs, from) {
  const [one = "", other = ""] = [mine, theirs].map((club) => (club.bounce_words ? `bounce ${club.bounce_words}` : ""));
  if (isNear(mine, theirs, "bounce", from) === false) return { name: "sole", mine: one, theirs: other, isAlike: false };
  if (mine.sole_words && theirs.sole_words) {
    return { name: "sole", mine: mine.sole_words, theirs: theirs.sole_words, isAlike: mine.sole_words === theirs.sole_words };
  }
  return { name: "sole", mine: one, theirs: other, isAlike: mine.head_name === theirs.head_name && one && other ? true : null };
}

/** "a, b and c". @param {string[]} words */
function listed(words) {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}

/**
 * What differs, each as "loft 54° against 56°", and what nobody can compare; null where nothing is known of both.
 * @param {Held} mine @param {Held} theirs @param {string | undefined} apartFrom degrees
 */
export function beside(mine, theirs, apartFrom) {
  const all = aspects(mine, theirs, hundredths(apartFrom) ?? 50);
  if (all.every((one) => one.isAlike === null)) return null;
  const apart = all.filter((one) => one.isAlike === false);
  const each = apart.map((one) => `${one.name} ${one.mine} against ${one.theirs}`);
  const unknown = listed(all.filter((one) => one.isAlike === null).map((one) => one.name));
  return { count: apart.length, isSeveral: apart.length >= SEVERAL, each, unknown: unknown && `Not known: ${unknown}.` };
}
