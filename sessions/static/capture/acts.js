// What was done in the bay, act by act, so that Undo takes back the last one and says which.
// An act is taken back by facts of their own; nothing that was recorded is edited.
import { newId } from "./commands.js";
import { carryWords, sideWords } from "./figures.js";

/** @typedef {import("./types.js").Body} Body */
/** @typedef {import("./types.js").Shot} Shot */
/** @typedef {import("./types.js").Situation} Situation */
/** @typedef {import("./types.js").VisitState} VisitState */
/** @typedef {Record<string, string>} Said what is said of the ball that is in the air */
/**
 * @typedef {{kind: "ball", shot: string}
 *   | {kind: "left_out", shot: string, exclusion: string, reason: string}
 *   | {kind: "mend", shot: string, old: string, exclusion: string, says: string}
 *   | {kind: "rating", rating: string, about: string, score: string}
 *   | {kind: "hand_over", trial: string}
 *   | {kind: "said", before: Said, key: string}
 *   | {kind: "surroundings", before: Situation, after: Situation, key: string, was_chosen: Situation | null, says: string}
 *   | {kind: "fixed", says: string}} Act
 */
/** What Undo would do now; without an act, why not. @typedef {{act: Act | null, says: string}} Offer */

const MOST = 40;
const NO_BALL = ["mistyped", "undone"];
const FIXED = /** @type {Record<string, string>} */ ({
  "trial.finish": "the club is out of the hand", "comparison.open": "the order is drawn",
  "comparison.reveal": "they are revealed", "comparison.peek": "somebody looked",
  "equipment.withdraw": "a part is withdrawn", "conditions.record": "note the air anew",
  "act.take_back": "that ball counts again",
});

/** @param {Body} body @param {string} key */
function text(body, key) {
  const value = body[key];
  return typeof value === "string" ? value : "";
}

/** @param {VisitState} view @param {string} id @returns {Shot | undefined} */
function shotOf(view, id) {
  return view.trials.flatMap((trial) => trial.blocks).flatMap((block) => block.shots).find((shot) => shot.id === id);
}

/** What an entry does, if it is done in the bay. @param {string} kind @param {Body} body @returns {Act | null} */
function actOf(kind, body) {
  const id = text(body, "id");
  if (kind === "shot.record") return { kind: "ball", shot: id };
  if (kind === "shot.exclude") return { kind: "left_out", shot: text(body, "shot_id"), exclusion: id, reason: text(body, "reason") };
  if (kind === "shot.mend") {
    const says = ["strike", "turf"].map((key) => text(body, key)).find(Boolean) ?? (body.block_id ? "other swing" : "");
    return { kind: "mend", shot: id, old: text(body, "shot_id"), exclusion: text(body, "exclusion_id"), says };
  }
  if (kind === "rating.record" || kind === "comparison.rate") {
    return { kind: "rating", rating: id, about: text(body, "about"), score: text(body, "score") };
  }
  if (kind === "trial.start") return { kind: "hand_over", trial: id };
  const fixed = FIXED[kind];
  return fixed ? { kind: "fixed", says: fixed } : null;
}

/** The acts with one more, from an entry. @param {Act[]} acts @param {string} kind @param {Body} body @returns {Act[]} */
export function withEntry(acts, kind, body) {
  const act = actOf(kind, body);
  if (!act) return acts;
  // What was said before a ball went with it.
  const kept = act.kind === "ball" ? acts.filter((one) => one.kind !== "said") : acts;
  return [...kept, act].slice(-MOST);
}

/** One more change of the same thing is still the one act. @param {Act[]} acts @param {Act & {kind: "said" | "surroundings"}} act @returns {Act[]} */
export function withChange(acts, act) {
  const last = acts.at(-1);
  if (last?.kind === "said" && act.kind === "said" && last.key === act.key) return acts;
  if (last?.kind === "surroundings" && act.kind === "surroundings" && last.key === "target" && act.key === "target") {
    return [...acts.slice(0, -1), { ...last, after: act.after, says: act.says }];
  }
  // There and back again is nothing to take back.
  if (last?.kind === "surroundings" && act.kind === "surroundings" && JSON.stringify(last.before) === JSON.stringify(act.after)) return acts.slice(0, -1);
  return [...acts, act].slice(-MOST);
}

/** Without what the server did not take. @param {Act[]} acts @param {Body} body @returns {Act[]} */
export function withoutRefused(acts, body) {
  const id = text(body, "id");
  const idOf = (/** @type {Act} */ act) => ({
    ball: "shot" in act ? act.shot : "", mend: "shot" in act ? act.shot : "", left_out: "exclusion" in act ? act.exclusion : "",
    rating: "rating" in act ? act.rating : "", hand_over: "trial" in act ? act.trial : "", said: "", surroundings: "", fixed: "",
  })[act.kind];
  return id ? acts.filter((act) => idOf(act) !== id) : acts;
}

/** Whether what an act did still stands as it left it. @param {Act} act @param {VisitState} view @param {Said} said @param {Situation | null} now */
function stands(act, view, said, now) {
  if (act.kind === "ball") return [null, "misread"].includes(shotOf(view, act.shot)?.left_out ?? null) && Boolean(shotOf(view, act.shot));
  if (act.kind === "left_out") return shotOf(view, act.shot)?.left_out_id === act.exclusion;
  if (act.kind === "mend") return shotOf(view, act.shot)?.left_out === null && shotOf(view, act.old)?.left_out_id === act.exclusion;
  if (act.kind === "hand_over") return view.trials.find((trial) => trial.id === act.trial)?.state === "open";
  if (act.kind === "said") return Object.values(said).some(Boolean);
  if (act.kind === "surroundings") return JSON.stringify(act.after) === JSON.stringify(now);
  return true;
}

/** "84", or what stands for it where no figure was read. @param {VisitState} view @param {string} shotId */
function ballWords(view, shotId) {
  const shot = shotOf(view, shotId);
  return carryWords(shot?.carry ?? null) || (shot ? `ball ${shot.number}` : "");
}

/** What taking an act back takes back, in words. @param {Act} act @param {VisitState} view @param {Said} said @returns {string} */
function wordsOf(act, view, said) {
  switch (act.kind) {
    case "ball": return `ball ${carryWords(shotOf(view, act.shot)?.carry ?? null) || shotOf(view, act.shot)?.number || ""}`;
    case "left_out": return act.reason === "misread" ? `misread on ${ballWords(view, act.shot)}` : `taking back ${ballWords(view, act.shot)}`;
    case "mend": return `${act.says || "correction"} on ${ballWords(view, act.shot)}`;
    case "rating": return `${act.about} ${act.score}`;
    case "hand_over": return "the hand-over";
    case "said": return `${saidWords(said, act.key)}, next ball`;
    default: return act.says;
  }
}

/** @param {Said} said @param {string} key */
function saidWords(said, key) {
  if (key === "side") return sideWords(said.side ?? "") || "side";
  if (key === "misread" || key === "strike") return said.misread ? "misread" : said.strike || "strike";
  if (key === "turf") return said.turf ? `turf ${said.turf}` : "turf";
  return key === "in_mean" ? "in or out of the mean" : "what was typed";
}

/** Why an act can't be taken back although it stands, or "". @param {Act} act @param {VisitState} view */
function whyNot(act, view) {
  if (act.kind === "fixed") return act.says;
  if (act.kind !== "hand_over") return "";
  const trial = view.trials.find((one) => one.id === act.trial);
  if (trial?.blocks.some((block) => block.shots.some((shot) => !NO_BALL.includes(shot.left_out ?? "")))) return "balls of this club count";
  return trial?.rated?.length ? "something was said of the club" : "";
}

/**
 * What Undo takes back now. A tablet that did nothing here itself offers the last ball it sees.
 * @param {Act[]} acts @param {VisitState} view @param {Said} said @param {Situation | null} now @param {Shot[]} shots @returns {Offer}
 */
export function offerOf(acts, view, said, now, shots) {
  const last = acts.filter((act) => stands(act, view, said, now)).at(-1) ?? lastBall(shots);
  if (!last) return { act: null, says: "" };
  const refusal = whyNot(last, view);
  return refusal ? { act: null, says: refusal } : { act: last, says: wordsOf(last, view, said) };
}

/** @param {Shot[]} shots @returns {Act | null} */
function lastBall(shots) {
  const last = shots.filter((shot) => !NO_BALL.includes(shot.left_out ?? "")).at(-1);
  if (!last) return null;
  if (last.left_out && last.left_out_id) return { kind: "left_out", shot: last.id, exclusion: last.left_out_id, reason: last.left_out };
  return { kind: "ball", shot: last.id };
}

/** The entries that take an act back; none where it was nothing but a choice. @param {Act} act @param {VisitState} view @returns {[string, Body][]} */
export function takingBack(act, view) {
  const lift = (/** @type {string} */ exclusion) => /** @type {[string, Body]} */ (["act.take_back", { id: newId(), what: "exclusion", of_id: exclusion }]);
  const undone = (/** @type {string} */ shot) => /** @type {[string, Body]} */ (["shot.exclude", { id: newId(), shot_id: shot, reason: "undone" }]);
  switch (act.kind) {
    case "ball": {
      const misread = shotOf(view, act.shot)?.left_out_id;
      return misread ? [lift(misread), undone(act.shot)] : [undone(act.shot)];
    }
    case "left_out": return [lift(act.exclusion)];
    case "mend": return [undone(act.shot), lift(act.exclusion)];
    case "rating": return [["act.take_back", { id: newId(), what: "rating", of_id: act.rating }]];
    case "hand_over": return [["act.take_back", { id: newId(), what: "hand_over", of_id: act.trial }]];
    default: return [];
  }
}
