// A hand-over that the server refused: the club before counts as in hand, while the player holds
// another. So it comes back into the entry's place, with all that was chosen, until it is settled.
import { html, useEffect, useRef } from "../../vendor/htm-preact.js";
import { Icon } from "../parts.js";
import { READINGS } from "./readings.js";

/** @typedef {import("../state.js").VisitStore} VisitStore */
/** @typedef {import("../types.js").VisitState} VisitState */
/** @typedef {import("../types.js").Refusal} Refusal */

/**
 * The last hand-over of this tablet, if it was refused and belongs to this step. One that another
 * club has followed is past: it is told above, like whatever else was not stored.
 * @param {VisitStore} store @param {VisitState} view @param {string} step @returns {Refusal | null}
 */
export function refusedHandOver(store, view, step) {
  if (view.visit.state !== "open" || (step !== "baseline" && step !== "trials")) return null;
  const found = store.refused.find(({ command }) => command.kind === "trial.start" && command.id === store.handedOver);
  return found && (found.command.body.purpose === "baseline") === (step === "baseline") ? found : null;
}

/** What was chosen for it. @param {Refusal} refused */
export function chosenAgain({ command: { body } }) {
  const text = (/** @type {string} */ key) => (typeof body[key] === "string" ? /** @type {string} */ (body[key]) : "");
  return {
    club_id: text("club_id"), trial_head_id: text("trial_head_id"), trial_shaft_id: text("trial_shaft_id"), adapter_id: text("adapter_id"),
    slot: Number(text("slot")) || null, loft: text("loft"), lie: text("lie"), swing_weight: text("swing_weight"), mass: text("mass"),
    changed: Array.isArray(body.changed) ? body.changed.map(String) : [], head_tight: body.head_tight === true,
  };
}

/** Said once: of what has a field of its own, only that it is marked there. @param {{refused: Refusal, inHand: string}} props */
export function NotHandedOver({ refused, inHand }) {
  const strip = useRef(/** @type {HTMLElement | null} */ (null));
  useEffect(() => strip.current?.scrollIntoView({ block: "center" }), []);
  const { errors, sentence } = refused;
  const isMarked = READINGS.some((key) => errors[key]);
  const others = Object.entries(errors).filter(([key]) => !READINGS.some((one) => one === key)).map(([, said]) => said);
  const said = [isMarked ? "Put right what is marked." : "", ...others, ...(isMarked || others.length ? [] : [sentence])].filter(Boolean).join(" ");
  return html`<div class="strip error not-handed" role="alert" ref=${strip}><${Icon} name="warning" />
    <p><b>Not handed over.</b> ${said}${inHand && ` Until then balls would count for ${inHand}.`}</p></div>`;
}
