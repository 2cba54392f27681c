// A ball as it is recorded, and before it the situation where that is new.
import { newId } from "../commands.js";
import { openBlock } from "./situation.js";

/** @typedef {import("../types.js").Body} Body */
/** @typedef {import("../types.js").Situation} Situation */
/** @typedef {import("../types.js").Trial} Trial */
/** @typedef {import("../acts.js").Said} Said */

const FIGURES = ["carry", "side", "ball_speed", "launch", "spin", "spin_axis", "apex", "landing", "total", "club_speed", "attack", "lean", "strike", "turf", "divot", "flight"];

/**
 * @param {import("../state.js").VisitStore} store @param {Trial} trial @param {Situation} situation @param {Said} said @param {string} unit
 */
export function recordShot(store, trial, situation, said, unit) {
  const known = openBlock(trial, situation);
  const blockId = known?.id ?? newId();
  if (!known) store.record("block.start", { id: blockId, trial_id: trial.id, unit, ...situation });
  const shotId = newId();
  /** @type {Body} */
  const body = Object.fromEntries(FIGURES.map((key) => [key, said[key] ?? ""]));
  // A fat or thin ball is kept and counted; the mean is of the balls that were struck.
  const inMean = said.in_mean ? said.in_mean === "yes" : !["fat", "thin"].includes(said.strike ?? "");
  store.hitIn(situation);
  store.record("shot.record", { ...body, id: shotId, block_id: blockId, unit, speed_unit: unit === "m" ? "km/h" : "mph", in_mean: inMean });
  if (said.misread) store.record("shot.exclude", { id: newId(), shot_id: shotId, reason: "misread" }, false);
  return shotId;
}
