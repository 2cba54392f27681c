// The next club into the player's hand: nobody swings meanwhile, so this may take the entry's place.
import { html, useState } from "../../vendor/htm-preact.js";
import { newId } from "../commands.js";
import { Chips, Field, Icon, SeveralChips } from "../parts.js";
import { choicesOf } from "./situation.js";

/** @typedef {import("../state.js").VisitStore} VisitStore */
/** @typedef {import("../types.js").VisitState} VisitState */
/** @typedef {import("../types.js").Trial} Trial */
/** @typedef {import("../types.js").Item} Item */
/** @typedef {import("../types.js").BagClub} BagClub */
/** @typedef {import("../types.js").Choice} Choice */
/** @typedef {"trial" | "own" | "former"} Source */

/** @type {Choice[]} */
const CHANGES = [["loft", "Loft"], ["length", "Length"], ["shaft", "Shaft"], ["lie", "Lie"], ["sole", "Sole"], ["grip", "Grip"], ["swing weight", "Swing weight"]];
const ROLES = /** @type {Record<string, string>} */ ({ full_shot: "full-shot", touch: "touch" });

/**
 * @typedef {object} Chosen
 * @property {string} club_id
 * @property {string} trial_head_id
 * @property {string} trial_shaft_id
 * @property {string} adapter_id
 * @property {number | null} slot
 * @property {string} loft
 * @property {string} lie
 * @property {string[]} changed
 * @property {boolean} head_tight
 */

/** @param {VisitState} view @returns {Chosen} what carries over: shaft, adapter and slot; never the check */
function carriedOver(view) {
  const last = view.trials.filter((trial) => trial.trial_head_id && trial.code === null).at(-1);
  return {
    club_id: "", trial_head_id: "", trial_shaft_id: last?.trial_shaft_id ?? "", adapter_id: last?.adapter_id ?? "",
    slot: view.trials.at(-1)?.slot ?? view.plan?.slots[0]?.slot ?? null, loft: "", lie: "", changed: [], head_tight: false,
  };
}

/**
 * @param {{store: VisitStore, view: VisitState, purpose: "baseline" | "trials", onDone: () => void, canClose: boolean, go: (step: string) => void}} props
 */
export function NextClub({ store, view, purpose, onDone, canClose, go }) {
  const isBaseline = purpose === "baseline";
  const [source, setSource] = useState(/** @type {Source} */ (isBaseline ? "own" : "trial"));
  const [chosen, setChosen] = useState(() => carriedOver(view));
  const set = (/** @type {Partial<Chosen>} */ part) => setChosen({ ...chosen, ...part });
  const isTrialClub = Boolean(chosen.trial_head_id);
  const missing = missingOf(view, chosen);
  const handOver = () => {
    const isOwn = Boolean(chosen.club_id);
    const slot = view.plan?.slots.find((one) => one.slot === chosen.slot);
    store.record("trial.start", {
      id: newId(), purpose: isBaseline ? "baseline" : isOwn ? "own" : "candidate",
      ...(isOwn ? { club_id: chosen.club_id } : { trial_head_id: chosen.trial_head_id, trial_shaft_id: chosen.trial_shaft_id, adapter_id: chosen.adapter_id }),
      slot: isBaseline || chosen.slot === null ? "" : String(chosen.slot), role: isBaseline ? "" : slot?.role ?? "",
      loft: chosen.loft, lie: chosen.lie, changed: isBaseline ? [] : chosen.changed, head_tight: chosen.head_tight,
    });
    onDone();
  };
  /** @type {Choice[]} */
  const sources = [["trial", "Trial club"], ["own", "Player's own"], ["former", "A former club"]];
  return html`<section class="panel entry next-club" aria-label="Next club">
    <div class="sheet-head"><h2 class="sheet-title">${isBaseline ? "Which club first?" : "Next club"}</h2>
      ${canClose && html`<button type="button" class="button" onClick=${onDone}>Back to the balls</button>`}</div>
    ${!isBaseline && html`<div class="choice" role="group" aria-label="Where it comes from">${sources.map(([word, label]) => html`<button type="button" key=${word}
      aria-pressed=${String(word === source)} onClick=${() => { setSource(/** @type {Source} */ (word)); set({ club_id: "", trial_head_id: "" }); }}>${label}</button>`)}</div>`}
    ${source === "trial" && html`<${TrialParts} view=${view} chosen=${chosen} set=${set} />`}
    ${source === "own" && html`<${OwnClubs} view=${view} chosen=${chosen} set=${set} go=${go} />`}
    ${source === "former" && html`<${Former} view=${view} chosen=${chosen} set=${set} />`}
    ${!isBaseline && (isTrialClub || chosen.club_id) && html`<${Purpose} view=${view} chosen=${chosen} set=${set} />`}
    ${isTrialClub && html`<label class="tick head-tight"><input type="checkbox" checked=${chosen.head_tight}
      onChange=${(/** @type {{currentTarget: HTMLInputElement}} */ event) => set({ head_tight: event.currentTarget.checked })} /><span><b>Head tight: checked</b></span></label>`}
    <div class="hand-over"><button type="button" class="button go main" disabled=${missing !== ""} onClick=${handOver}>Hand it over</button>
      ${missing && html`<span class="soft" role="status">${missing}</span>`}</div>
  </section>`;
}

/** What stands in the way, in words; empty where nothing does. @param {VisitState} view @param {Chosen} chosen */
function missingOf(view, chosen) {
  if (!view.me.may_capture || view.visit.state !== "open") return "Nothing can be recorded now.";
  if (chosen.club_id) return "";
  if (!chosen.trial_head_id) return "Choose a club.";
  if (!chosen.trial_shaft_id) return "Choose the shaft.";
  if (!chosen.adapter_id && view.equipment.adapters.length > 0) return "Choose the adapter.";
  return chosen.head_tight ? "" : "Check that the head is tight.";
}

/** @param {{view: VisitState, chosen: Chosen, set: (part: Partial<Chosen>) => void}} props */
function TrialParts({ view, chosen, set }) {
  const [typed, setTyped] = useState("");
  const { heads, shafts, adapters } = view.equipment;
  const wanted = typed.trim().toLowerCase();
  const picked = heads.find((head) => head.id === chosen.trial_head_id);
  const fits = heads.filter((head) => !head.withdrawn && (!head.hand || head.hand === view.player.hand)
    && `${head.mark} ${head.name} ${head.loft_words ?? ""}`.toLowerCase().includes(wanted));
  return html`<div class="next-part"><div class="row between"><h3 id="next-head">Head</h3>
      <label class="find"><span class="unseen">Find by mark, name or loft</span><input type="search" autocomplete="off" placeholder="Mark, name or loft" value=${typed}
        onInput=${(/** @type {{currentTarget: HTMLInputElement}} */ event) => setTyped(event.currentTarget.value)} /></label></div>
    <${Items} label="Head" items=${fits} value=${chosen.trial_head_id} onPick=${(/** @type {string} */ id) => set({ trial_head_id: id, club_id: "", head_tight: false })}
      none=${wanted ? "None by that mark, name or loft." : `No ${view.player.hand}-hand head that is in use here.`} />
      ${picked?.sole_words && html`<p class="soft">${picked.mark}: ${picked.sole_words}.</p>`}</div>
    <div class="next-part"><h3>Shaft</h3><${Items} label="Shaft" items=${shafts.filter((one) => !one.withdrawn)} value=${chosen.trial_shaft_id}
      onPick=${(/** @type {string} */ id) => set({ trial_shaft_id: id, head_tight: false })} none="No trial shaft in use here." /></div>
    <div class="next-part"><h3>Adapter</h3><${Items} label="Adapter" items=${adapters.filter((one) => !one.withdrawn)} value=${chosen.adapter_id}
      onPick=${(/** @type {string} */ id) => set({ adapter_id: id, head_tight: false })} none="No adapter in use here." /></div>`;
}

/** @param {Item} item */
function moreOf(item) {
  const day = item.inspect_by ? new Date(`${item.inspect_by}T12:00`).toLocaleDateString("en-GB", { day: "numeric", month: "long" }) : "";
  return [item.loft_words, item.bounce_words && `bounce ${item.bounce_words}`, day && `inspect by ${day}`].filter(Boolean);
}

/** @param {{label: string, items: Item[], value: string, onPick: (id: string) => void, none: string}} props */
function Items({ label, items, value, onPick, none }) {
  if (!items.length) return html`<p class="soft">${none}</p>`;
  return html`<div class="items" role="group" aria-label=${label}>${items.map((item) => html`<button type="button" class="item" key=${item.id}
    aria-pressed=${String(item.id === value)} onClick=${() => onPick(item.id)}><b>${item.mark}</b><span>${item.name && item.name !== item.mark ? item.name : ""}${moreOf(item).map((words) => html`<small key=${words}>${words}</small>`)}</span></button>`)}</div>`;
}

/** @param {{view: VisitState, chosen: Chosen, set: (part: Partial<Chosen>) => void, go: (step: string) => void}} props */
function OwnClubs({ view, chosen, set, go }) {
  const clubs = view.bag.clubs.filter((club) => !club.hidden);
  if (!clubs.length) {
    return html`<div class="empty"><h3>No club of the bag is written down yet</h3><p>The pitching wedge is enough to begin with.</p>
      <button type="button" class="button" onClick=${() => go("bag")}><${Icon} name="plus" />Add it in the bag</button></div>`;
  }
  const items = clubs.map((club) => ({ id: club.id, mark: club.label, name: [club.maker, club.model].filter(Boolean).join(" "), loft_words: loftOf(club) }));
  return html`<div class="next-part"><h3>Own club</h3><${Items} label="Own club" items=${items} value=${chosen.club_id}
    onPick=${(/** @type {string} */ id) => set({ club_id: id, trial_head_id: "" })} none="" /></div>`;
}

/** @param {BagClub} club */
function loftOf(club) {
  if (club.entry?.loft) return `${club.entry.loft}\u00b0 measured`;
  return club.stamped_loft ? `stamped ${club.stamped_loft}` : "loft not read";
}

/** @param {{view: VisitState, chosen: Chosen, set: (part: Partial<Chosen>) => void}} props */
function Former({ view, chosen, set }) {
  const former = view.trials.filter((trial) => trial.code === null && (trial.club_id || trial.trial_head_id));
  const items = [...former].reverse().map((trial) => ({
    id: trial.id, mark: `Club ${trial.number}`, name: trial.head_name ?? "", loft_words: [trial.loft_words, trial.shaft_name].filter(Boolean).join(", "),
  }));
  const now = former.find((trial) => (chosen.club_id ? trial.club_id === chosen.club_id : trial.trial_head_id === chosen.trial_head_id && trial.trial_shaft_id === chosen.trial_shaft_id));
  /** @param {string} id */
  const pick = (id) => {
    const trial = former.find((one) => one.id === id);
    if (trial) set({ club_id: trial.club_id ?? "", trial_head_id: trial.trial_head_id ?? "", trial_shaft_id: trial.trial_shaft_id ?? "", adapter_id: trial.adapter_id ?? "", slot: trial.slot, head_tight: false });
  };
  return html`<div class="next-part"><h3>Had in hand before</h3><${Items} label="Had in hand before" items=${items} value=${now?.id ?? ""} onPick=${pick} none="Nothing was handed over yet." /></div>`;
}

/** @param {{view: VisitState, chosen: Chosen, set: (part: Partial<Chosen>) => void}} props */
function Purpose({ view, chosen, set }) {
  const [isBent, setBent] = useState(false);
  const slots = (view.plan?.slots ?? []).map((one) => /** @type {Choice} */ ([String(one.slot), one.label || `Slot ${one.slot}, ${ROLES[one.role] ?? ""}`]));
  const known = choicesOf(view, "changed");
  return html`${slots.length > 0 && html`<div class="next-part"><h3 id="next-slot">For</h3><${Chips} labelledBy="next-slot" label="For" choices=${slots}
      value=${String(chosen.slot ?? "")} onPick=${(/** @type {string} */ slot) => set({ slot: Number(slot) || null })} /></div>`}
    ${view.trials.length > 0 && html`<div class="next-part"><h3 id="next-changed">What did you choose to change?</h3>
      <${SeveralChips} labelledBy="next-changed" label="Changed" choices=${known.length ? known : CHANGES} values=${chosen.changed} onPick=${(/** @type {string[]} */ changed) => set({ changed })} />
      ${chosen.changed.length > 1 && html`<p class="strip sand"><${Icon} name="warning" /><span>${chosen.changed.length} changes at once prove nothing about either.</span></p>`}</div>`}
    ${isBent ? html`<div class="fields two"><${Field} id="next-loft" label="Loft as read now" unit="degrees" isFigure=${true} value=${chosen.loft} onType=${(/** @type {string} */ loft) => set({ loft })} />
        <${Field} id="next-lie" label="Lie as read now" unit="degrees" isFigure=${true} value=${chosen.lie} onType=${(/** @type {string} */ lie) => set({ lie })} /></div>`
      : html`<button type="button" class="button quiet bent" onClick=${() => setBent(true)}>It was bent or read again</button>`}`;
}

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
