// The next club into the player's hand: nobody swings meanwhile, so this may take the entry's place.
import { html, useState } from "../../vendor/htm-preact.js";
import { newId } from "../commands.js";
import { Chips, Icon, SeveralChips } from "../parts.js";
import { againstNow, alsoDifferent, chosenOf, driftOffer, differing } from "./changes.js";
import { inHand } from "./club_in_hand.js";
import { chosenAgain, NotHandedOver } from "./hand_over.js";
import { goTo, lookAgain, READINGS, Readings, wrongReadings } from "./readings.js";
import { choicesOf } from "./situation.js";

/** @typedef {import("../state.js").VisitStore} VisitStore */
/** @typedef {import("../types.js").VisitState} VisitState */
/** @typedef {import("../types.js").Trial} Trial */
/** @typedef {import("../types.js").Item} Item */
/** @typedef {import("../types.js").BagClub} BagClub */
/** @typedef {import("../types.js").Choice} Choice */
/** @typedef {"trial" | "own" | "former"} Source */
/** @typedef {import("./readings.js").Reading} Reading */

/** In the order that proves most. @type {Choice[]} */
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
 * @property {string} swing_weight
 * @property {string} mass
 * @property {string[]} changed
 * @property {boolean} head_tight
 */

/** What a gauge or a scale said is of one club: with another part it is unread again. */
const UNREAD = { loft: "", lie: "", swing_weight: "", mass: "" };

/** @param {VisitState} view @returns {Chosen} what carries over: shaft, adapter and slot; never the check, nor what was withdrawn */
function carriedOver(view) {
  const last = view.trials.filter((trial) => trial.trial_head_id && trial.code === null).at(-1);
  const { shafts, adapters } = view.equipment;
  return {
    club_id: "", trial_head_id: "", trial_shaft_id: inUse(shafts, last?.trial_shaft_id), adapter_id: inUse(adapters, last?.adapter_id),
    slot: view.trials.at(-1)?.slot ?? view.plan?.slots[0]?.slot ?? null, ...UNREAD, changed: [], head_tight: false,
  };
}

/** @param {Item[]} items @param {string | null | undefined} id */
function inUse(items, id) {
  return items.find((item) => item.id === id && !item.withdrawn)?.id ?? "";
}

/**
 * @param {{store: VisitStore, view: VisitState, purpose: "baseline" | "trials", refused: import("../types.js").Refusal | null, onDone: () => void, canClose: boolean, go: (step: string) => void}} props
 */
export function NextClub({ store, view, purpose, refused, onDone, canClose, go }) {
  const isBaseline = purpose === "baseline";
  const [source, setSource] = useState(/** @type {Source} */ (isBaseline || refused?.command.body.club_id ? "own" : "trial"));
  const [chosen, setChosen] = useState(() => /** @type {Chosen} */ (refused ? chosenAgain(refused) : carriedOver(view)));
  // A reading is judged once its field was left, all of them at the hand-over.
  const [judged, setJudged] = useState(/** @type {Reading[]} */ (refused ? [...READINGS] : []));
  const set = (/** @type {Partial<Chosen>} */ part) => setChosen({ ...chosen, ...part });
  const isTrialClub = Boolean(chosen.trial_head_id);
  const missing = missingOf(view, chosen);
  const drift = isBaseline || chosen.club_id || isTrialClub ? null : driftOffer(view);
  const wrong = wrongReadings(chosen, refused);
  const errors = Object.fromEntries(judged.map((key) => [key, wrong[key]]));
  const handOver = () => {
    if (Object.keys(wrong).length > 0) {
      setJudged([...READINGS]);
      goTo(wrong);
      return;
    }
    const isOwn = Boolean(chosen.club_id);
    const slot = view.plan?.slots.find((one) => one.slot === chosen.slot);
    store.record("trial.start", {
      id: newId(), purpose: isBaseline ? "baseline" : isOwn ? "own" : "candidate",
      ...(isOwn ? { club_id: chosen.club_id } : { trial_head_id: chosen.trial_head_id, trial_shaft_id: chosen.trial_shaft_id, adapter_id: chosen.adapter_id }),
      slot: isBaseline || chosen.slot === null ? "" : String(chosen.slot), role: isBaseline ? "" : slot?.role ?? "",
      loft: chosen.loft, lie: chosen.lie, swing_weight: chosen.swing_weight, mass: chosen.mass, changed: isBaseline ? [] : chosen.changed, head_tight: chosen.head_tight,
    });
    onDone();
  };
  /** @type {Choice[]} */
  const sources = [["trial", "Trial club"], ["own", "Player's own"], ["former", "A former club"]];
  return html`<section class="panel entry next-club" aria-label="Next club">
    <div class="sheet-head"><h2 class="sheet-title">${isBaseline ? "Which club first?" : "Next club"}</h2>
      ${canClose && html`<button type="button" class="button" onClick=${onDone}>${refused ? "Keep the club before" : "Back to the balls"}</button>`}</div>
    ${refused && html`<${NotHandedOver} refused=${refused} inHand=${nameInHand(view)} />`}
    ${!isBaseline && !chosen.club_id && !isTrialClub && view.next_trial && html`<p class="next-why">${view.next_trial}</p>`}
    ${drift && html`<${Drift} drift=${drift} onTake=${() => { setSource("former"); set(partsOf(drift)); }} />`}
    ${!isBaseline && html`<div class="choice" role="group" aria-label="Where it comes from">${sources.map(([word, label]) => html`<button type="button" key=${word}
      aria-pressed=${String(word === source)} onClick=${() => { setSource(/** @type {Source} */ (word)); set({ club_id: "", trial_head_id: "", ...UNREAD }); }}>${label}</button>`)}</div>`}
    ${source === "trial" && html`<${TrialParts} view=${view} chosen=${chosen} set=${set} />`}
    ${source === "own" && html`<${OwnClubs} view=${view} chosen=${chosen} set=${set} go=${go} />`}
    ${source === "former" && html`<${Former} view=${view} chosen=${chosen} set=${set} />`}
    ${!isBaseline && (isTrialClub || chosen.club_id) && html`<${Purpose} view=${view} chosen=${chosen} set=${set} errors=${errors} onLeave=${(/** @type {Reading} */ key) => setJudged([...judged, key])} />`}
    <div class="hand-over">${isTrialClub && html`<label class="tick head-tight"><input type="checkbox" checked=${chosen.head_tight}
        onChange=${(/** @type {{currentTarget: HTMLInputElement}} */ event) => set({ head_tight: event.currentTarget.checked })} /><span><b>Head tight: checked</b></span></label>`}
      <button type="button" class="button go main" disabled=${missing !== ""} onClick=${handOver}>Hand it over</button>
      ${(missing || lookAgain(errors)) && html`<span class="soft" role="status">${missing || lookAgain(errors)}</span>`}</div>
  </section>`;
}

/** The club that is in hand as far as the shop knows, as it may be named. @param {VisitState} view */
function nameInHand(view) {
  const trial = inHand(view);
  if (!trial) return "";
  return trial.code !== null ? `number ${trial.code}` : trial.hidden ? "the club before" : [trial.loft_words, trial.head_name].filter(Boolean).join(" ");
}

/** What stands in the way, in words; empty where nothing does. @param {VisitState} view @param {Chosen} chosen */
function missingOf(view, chosen) {
  if (!view.me.may_capture || view.visit.state !== "open") return "Nothing can be recorded now.";
  if (chosen.club_id) return "";
  if (!chosen.trial_head_id) return "Choose a club.";
  const { heads, shafts, adapters } = view.equipment;
  const parts = /** @type {[Item[], string][]} */ ([[heads, chosen.trial_head_id], [shafts, chosen.trial_shaft_id], [adapters, chosen.adapter_id]]);
  const withdrawn = parts.map(([items, id]) => items.find((item) => item.id === id && item.withdrawn)).find(Boolean);
  if (withdrawn) return withdrawn.withdrawn_words || `${withdrawn.mark} was withdrawn. Take another.`;
  if (!chosen.trial_shaft_id) return "Choose the shaft.";
  if (!chosen.adapter_id && adapters.length > 0) return "Choose the adapter.";
  return chosen.head_tight ? "" : "Check that the head is tight.";
}

/** @param {Trial} trial @returns {Partial<Chosen>} */
function partsOf(trial) {
  return {
    club_id: trial.club_id ?? "", trial_head_id: trial.trial_head_id ?? "", trial_shaft_id: trial.trial_shaft_id ?? "",
    adapter_id: trial.adapter_id ?? "", slot: trial.slot, ...UNREAD, changed: [], head_tight: false,
  };
}

/** @param {{drift: Trial, onTake: () => void}} props */
function Drift({ drift, onTake }) {
  return html`<div class="strip drift"><${Icon} name="note" /><p>Or the first club again, <b>${[drift.loft_words, drift.head_name].filter(Boolean).join(" ")}</b>: the end against the beginning shows drift.</p>
    <button type="button" class="button" onClick=${onTake}>The first again</button></div>`;
}

/** @param {{view: VisitState, chosen: Chosen, set: (part: Partial<Chosen>) => void}} props */
function TrialParts({ view, chosen, set }) {
  const { heads, shafts, adapters } = view.equipment;
  const hands = heads.filter((head) => !head.hand || head.hand === view.player.hand);
  return html`<div class="parts"><${Part} label="Head" items=${hands} value=${chosen.trial_head_id} none=${`No ${view.player.hand}-hand head that is in use here.`} canFind=${true}
      onPick=${(/** @type {string} */ id) => set({ trial_head_id: id, club_id: "", head_tight: false, ...UNREAD })} />
    <${Part} label="Shaft" items=${shafts} value=${chosen.trial_shaft_id} none="No trial shaft in use here."
      onPick=${(/** @type {string} */ id) => set({ trial_shaft_id: id, head_tight: false, ...UNREAD })} />
    <${Part} label="Adapter" items=${adapters} value=${chosen.adapter_id} none="No adapter in use here."
      onPick=${(/** @type {string} */ id) => set({ adapter_id: id, head_tight: false, ...UNREAD })} /></div>`;
}

/**
 * One part of a trial club: the shelf, and once one is chosen only that.
 * @param {{label: string, items: Item[], value: string, onPick: (id: string) => void, none: string, canFind?: boolean}} props
 */
function Part({ label, items, value, onPick, none, canFind = false }) {
  const [typed, setTyped] = useState("");
  const picked = items.find((item) => item.id === value);
  if (picked) {
    return html`<div class=${`next-part picked${canFind ? " is-wide" : ""}`} role="group" aria-label=${label}>
      <${Items} items=${[picked]} value=${value} onPick=${onPick} none="" />
      <button type="button" class="button" onClick=${() => onPick("")}>Another<span class="unseen"> ${label.toLowerCase()}</span></button></div>`;
  }
  const wanted = typed.trim().toLowerCase();
  const fits = items.filter((item) => !item.withdrawn && `${item.mark} ${item.name} ${item.loft_words ?? ""}`.toLowerCase().includes(wanted));
  return html`<div class="next-part is-wide" role="group" aria-label=${label}><div class="row between"><h3>${label}</h3>
      ${canFind && html`<label class="find"><span class="unseen">Find by mark, name or loft</span><input type="search" autocomplete="off" placeholder="Mark, name or loft" value=${typed}
        onInput=${(/** @type {{currentTarget: HTMLInputElement}} */ event) => setTyped(event.currentTarget.value)} /></label>`}</div>
    <${Items} items=${fits} value=${value} onPick=${onPick} none=${wanted ? "None by that mark, name or loft." : none} /></div>`;
}

/** @param {Item} item */
function moreOf(item) {
  const day = item.inspect_by ? new Date(`${item.inspect_by}T12:00`).toLocaleDateString("en-GB", { day: "numeric", month: "long" }) : "";
  return [item.loft_words, item.bounce_words && `bounce ${item.bounce_words}`, !item.due && day && `inspect by ${day}`].filter(Boolean);
}

/** @param {{items: Item[], value: string, onPick: (id: string) => void, none: string}} props */
function Items({ items, value, onPick, none }) {
  if (!items.length) return html`<p class="soft">${none}</p>`;
  return html`<div class="items">${items.map((item) => html`<button type="button" class="item" key=${item.id}
    aria-pressed=${String(item.id === value)} onClick=${() => onPick(item.id)}><b>${item.mark}</b><span>${item.name && item.name !== item.mark ? item.name : ""}<small>${moreOf(item).join(", ")}</small>${item.due && html`<small><strong>${item.due}</strong></small>`}</span></button>`)}</div>`;
}

/** @param {{view: VisitState, chosen: Chosen, set: (part: Partial<Chosen>) => void, go: (step: string) => void}} props */
function OwnClubs({ view, chosen, set, go }) {
  const clubs = view.bag.clubs.filter((club) => !club.hidden);
  if (!clubs.length) {
    return html`<div class="empty"><h3>No club of the bag is written down yet</h3><p>The pitching wedge is enough to begin with.</p>
      <button type="button" class="button" onClick=${() => go("bag")}><${Icon} name="plus" />Add it in the bag</button></div>`;
  }
  const items = clubs.map((club) => ({ id: club.id, mark: club.label, name: [club.maker, club.model].filter(Boolean).join(" "), loft_words: loftOf(club) }));
  return html`<div class="next-part" role="group" aria-label="Own club"><h3>Own club</h3><${Items} items=${items} value=${chosen.club_id}
    onPick=${(/** @type {string} */ id) => set({ club_id: id, trial_head_id: "", ...UNREAD })} none="" /></div>`;
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
    if (trial) set(partsOf(trial));
  };
  return html`<div class="next-part" role="group" aria-label="Had in hand before"><h3>Had in hand before</h3><${Items} items=${items} value=${now?.id ?? ""} onPick=${pick} none="Nothing was handed over yet." /></div>`;
}

/** @param {{view: VisitState, chosen: Chosen, set: (part: Partial<Chosen>) => void, errors: import("./readings.js").Errors, onLeave: (key: Reading) => void}} props */
function Purpose({ view, chosen, set, errors, onLeave }) {
  const [isBent, setBent] = useState(READINGS.some((key) => chosen[key] !== ""));
  const slots = (view.plan?.slots ?? []).map((one) => /** @type {Choice} */ ([String(one.slot), one.label || `Slot ${one.slot}, ${ROLES[one.role] ?? ""}`]));
  const known = choicesOf(view, "changed");
  const found = differing(view, chosen);
  const also = alsoDifferent(found, chosen.changed);
  const now = againstNow(view, chosen);
  return html`${slots.length > 0 && html`<div class="next-part"><h3 id="next-slot">For</h3><${Chips} labelledBy="next-slot" label="For" choices=${slots}
      value=${String(chosen.slot ?? "")} onPick=${(/** @type {string} */ slot) => set({ slot: Number(slot) || null })} /></div>`}
    ${view.trials.length > 0 && html`<div class="next-part"><h3 id="next-changed">What did you choose to change?</h3>
      <${SeveralChips} labelledBy="next-changed" label="Changed" choices=${known.length ? known : CHANGES} values=${chosen.changed} onPick=${(/** @type {string[]} */ changed) => set({ changed })} />
      ${chosen.changed.length === 0 && html`<p class="also soft">One change at a time proves most.</p>`}
      ${chosen.changed.length > 1 && html`<p class="two-changes" role="status">${chosen.changed.length} chosen changes at once: nothing is proved about either.</p>`}
      ${chosenOf(found, chosen.changed).map(({ name, then, now }) => html`<p class="chosen-change" key=${name}>${name} <b>${now}</b>${then.length < 24 && html`<span class="soft">, was ${then}</span>`}</p>`)}
      ${also && html`<p class="also soft">Also different: ${also}.</p>`}</div>`}
    ${now && html`<p class="also soft">${now}</p>`}
    ${isBent ? html`<${Readings} read=${chosen} hasAdapter=${chosen.adapter_id !== "" && !chosen.club_id} errors=${errors} set=${set} onLeave=${onLeave} />`
      : html`<button type="button" class="button quiet bent" onClick=${() => setBent(true)}>It was bent, read or weighed</button>`}`;
}

