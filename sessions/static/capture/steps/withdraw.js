// A thing of the trial equipment taken out of use from the bay.
import { html, useState } from "../../vendor/htm-preact.js";
import { Chips } from "../parts.js";

/** @typedef {import("../state.js").VisitStore} VisitStore */
/** @typedef {import("../types.js").VisitState} VisitState */
/** @typedef {import("../types.js").Trial} Trial */
/** @typedef {import("../types.js").Item} Item */
/** @typedef {import("../types.js").Choice} Choice */

/** @type {Choice[]} */
const WHYS = [["Loose head", "Loose head"], ["Crack", "Crack"], ["Adapter worn", "Adapter worn"], ["Grip turned", "Grip turned"], ["To be looked at", "To be looked at"]];

/** Off every tablet at once, and out of the hand. @param {{store: VisitStore, view: VisitState, trial: Trial, onDone: () => void}} props */
export function Withdraw({ store, view, trial, onDone }) {
  const [why, setWhy] = useState("");
  /** @type {[string, string, string | null | undefined, Item[]][]} */
  const parts = [["head", "Head", trial.trial_head_id, view.equipment.heads], ["shaft", "Shaft", trial.trial_shaft_id, view.equipment.shafts], ["adapter", "Adapter", trial.adapter_id, view.equipment.adapters]];
  const known = parts.filter(([, , id]) => id);
  const [what, setWhat] = useState(/** @type {string} */ (known[0]?.[0] ?? "head"));
  const withdraw = () => {
    const id = known.find(([word]) => word === what)?.[2];
    if (!id) return;
    store.record("equipment.withdraw", { what, item_id: id, why });
    store.record("trial.finish", { trial_id: trial.id });
    onDone();
  };
  const choices = known.map(([word, label, id, items]) => /** @type {Choice} */ ([word, `${label} ${items.find((one) => one.id === id)?.mark ?? ""}`]));
  return html`<section class="panel entry next-club" aria-label="Withdraw now">
    <div class="sheet-head"><h2 class="sheet-title">Withdraw now</h2><button type="button" class="button" onClick=${onDone}>Back to the balls</button></div>
    <p>It goes off every tablet until it was checked. What was hit with it stays on record.</p>
    ${known.length ? html`<${Chips} label="What" choices=${choices} value=${what} onPick=${setWhat} />` : html`<p class="soft">The parts of this club are not known to this tablet.</p>`}
    <h3 id="why">Why</h3><${Chips} labelledBy="why" label="Why" choices=${WHYS} value=${why} onPick=${setWhy} />
    <div class="hand-over"><button type="button" class="button stop main" disabled=${!why || !known.length} onClick=${withdraw}>Withdraw it</button></div>
  </section>`;
}
