// The bag now: 9-iron down in full, the rest as a count by kind.
import { html, useState } from "../../vendor/htm-preact.js";
import { newId } from "../commands.js";
import { Sent } from "../frame.js";
import { Chips, Field, FieldError, Icon, SeveralChips, Stepper } from "../parts.js";

/** @typedef {import("../app.js").StepProps} StepProps */
/** @typedef {import("../types.js").BagClub} BagClub */
/** @typedef {import("../types.js").Choice} Choice */
/** @typedef {import("../types.js").Refusal} Refusal */

const MOST_CLUBS = 14; // Rule 4.1b

/** @type {Choice[]} */
const KINDS = [["iron", "Iron"], ["pitching_wedge", "Pitching wedge"], ["wedge", "Wedge"]];
/** @type {Choice[]} */
const OTHERS = [["driver", "Driver"], ["fairway", "Fairway woods"], ["hybrid", "Hybrids"], ["long_iron", "Irons above the 9"], ["putter", "Putter"], ["other", "Other"]];
/** @type {Choice[]} */
const GROOVES = [["fresh", "Fresh"], ["worn", "Worn"], ["unknown", "Not looked at"]];
/** @type {Choice[]} */
const YES_NO = [["yes", "Yes"], ["no", "No"]];
/** @type {Choice[]} */
const SHOTS = ["Full", "Three-quarter", "Half", "Chip", "Pitch", "Flop", "Sand"].map((word) => [word, word]);

/** @typedef {Record<string, string>} Draft */
const TEXTS = ["label", "kind", "maker", "model", "making", "stamped_loft", "stamped_bounce", "shaft", "loft", "lie", "bounce",
  "length", "swing_weight", "stock_carry", "flat_out_carry", "grooves", "has_crack", "is_kept", "is_loved", "shots", "note"];
const OF_CLUB = new Set(["label", "kind", "maker", "model", "making", "stamped_loft", "stamped_bounce", "shaft"]);

/** What is being typed, kept while one looks at another step. @type {Map<string, Draft>} */
const drafts = new Map();

/** @param {unknown} value */
function asText(value) {
  if (value === true) return "yes";
  if (value === false) return "no";
  return value === null || value === undefined ? "" : String(value);
}

/** @param {BagClub | undefined} club @returns {Draft} */
function draftOf(club) {
  const entry = club?.entry ?? {};
  const known = /** @type {Record<string, unknown>} */ (/** @type {unknown} */ (club ?? {}));
  return Object.fromEntries(TEXTS.map((key) => [key, asText(OF_CLUB.has(key) ? known[key] ?? entry[key] : entry[key])]));
}

/** @param {StepProps} props */
export function Bag({ store, view, go }) {
  const { clubs, others } = view.bag;
  const [chosen, setChosen] = useState(/** @type {string | null} */ (clubs[0]?.id ?? null));
  const kinds = (view.choices.other_kind ?? OTHERS).map(([word, label]) => /** @type {Choice} */ ([word, label.charAt(0).toUpperCase() + label.slice(1)]));
  const counted = kinds.reduce((sum, [kind]) => sum + (others[kind]?.count ?? 0), 0);
  const total = clubs.length + counted;
  const waiting = store.refused.filter((one) => one.command.kind === "bag.club");
  return html`<main class="capture-main is-aside" id="main"><h1 class="unseen">Bag</h1>
    <section class="aside" aria-label="Clubs of the bag">
      <ol>${clubs.map((club) => html`<li key=${club.id}><button type="button" class="aside-part" aria-current=${club.id === chosen ? "true" : undefined} disabled=${club.hidden === true}
        onClick=${() => setChosen(club.id)}><span>${club.label || "Club"}</span>${waiting.some((one) => one.command.body.club_id === club.id) ? html`<small class="needs">needs a look</small>` : html`<small>${lineOf(club, view.player.unit)}</small>`}</button></li>`)}
        ${waiting.filter((one) => !clubs.some((club) => club.id === one.command.body.club_id)).map((one) => html`<li key=${one.command.id}>
          <button type="button" class="aside-part" aria-current=${one.command.body.club_id === chosen ? "true" : undefined}
          onClick=${() => setChosen(String(one.command.body.club_id))}><span>${one.command.body.label || "Club"}</span><small class="needs">needs a look</small></button></li>`)}
      </ol>
      ${view.visit.state === "open" && html`<button type="button" class="button full" onClick=${() => setChosen(newId())}><${Icon} name="plus" />Add a club</button>`}
    </section>
    <div class="aside-body" role="group" aria-label="One club, and how many others" tabindex="0"><fieldset class="as-was" disabled=${!(view.visit.state === "open" && view.me.may_capture)}>
      ${chosen && html`<${ClubForm} key=${chosen} id=${chosen} store=${store} view=${view} onDone=${() => setChosen(nextAfter(clubs, chosen))} />`}
      ${!chosen && html`<div class="empty"><h2>From the 9-iron down</h2><p>Add each club the player could hit a wedge shot with, as stamped and as measured.</p>
        <button type="button" class="button go" onClick=${() => setChosen(newId())}><${Icon} name="plus" />Add a club</button></div>`}
      <section class="panel others" aria-labelledby="others">
        <h2 id="others">The other clubs</h2>
        <div class="steppers">${kinds.map(([kind, label]) => html`<${Stepper} key=${kind} label=${label} most=${MOST_CLUBS}
          value=${others[kind]?.count ?? 0} onChange=${(/** @type {number} */ count) => store.record("bag.others", countsWith(view, kinds, kind, count))} />`)}</div>
        <p class=${total > MOST_CLUBS ? "over" : "soft"} role="status">${total} of ${MOST_CLUBS} clubs${total > MOST_CLUBS ? `: ${total - MOST_CLUBS} too many for a round` : total === MOST_CLUBS ? ": a new wedge takes another's place" : ""}</p>
      </section>
    </fieldset></div>
  </main>
  <footer class="capture-foot">
    <p class="tally"><b>${clubs.length} ${clubs.length === 1 ? "wedge or short iron" : "wedges and short irons"}</b>, ${total} of ${MOST_CLUBS} clubs</p>
    <button type="button" class="button" onClick=${() => go("baseline")}>To the baseline</button>
    <${Sent} store=${store} />
  </footer>`;
}

/** @param {BagClub} club @param {string} unit */
function lineOf(club, unit) {
  const loft = club.entry?.loft ? `${club.entry.loft}\u00b0 measured` : club.stamped_loft ? `stamped ${club.stamped_loft}` : "loft not read";
  return [loft, club.drift, club.entry?.stock_carry && `${club.entry.stock_carry} ${unit}`].filter(Boolean).join(", ");
}

/** @param {BagClub[]} clubs @param {string} id */
function nextAfter(clubs, id) {
  const index = clubs.findIndex((club) => club.id === id);
  return (index < 0 ? undefined : clubs[index + 1]?.id) ?? id;
}

/** @param {StepProps["view"]} view @param {Choice[]} kinds @param {string} changed @param {number} count */
function countsWith(view, kinds, changed, count) {
  /** @type {Record<string, string>} */ const counts = {};
  /** @type {Record<string, string>} */ const unused = {};
  for (const [kind] of kinds) {
    const known = view.bag.others[kind];
    counts[kind] = String(kind === changed ? count : known?.count ?? 0);
    unused[kind] = String(Math.min(known?.unused ?? 0, Number(counts[kind])));
  }
  return { counts, unused };
}

/** @param {{id: string, store: StepProps["store"], view: StepProps["view"], onDone: () => void}} props */
function ClubForm({ id, store, view, onDone }) {
  const club = view.bag.clubs.find((one) => one.id === id);
  const refusal = store.refusalOf("bag.club", id);
  const [draft, setDraft] = useState(() => drafts.get(id) ?? (refusal ? draftFrom(refusal) : draftOf(club)));
  const [isMore, setMore] = useState(false);
  const errors = refusal?.errors ?? {};
  const isTyped = drafts.has(id);
  const now = isTyped || refusal ? draft : draftOf(club);
  // What was typed stays in the unit that it was typed in.
  const unit = now.unit || view.player.unit;
  /** @param {string} key @param {string} value */
  const type = (key, value) => {
    const next = { ...now, unit, [key]: value };
    drafts.set(id, next);
    setDraft(next);
  };
  const save = () => {
    const words = Object.fromEntries(TEXTS.map((key) => [key, now[key] ?? ""]));
    store.record("bag.club", {
      ...words, id: newId(), club_id: id, unit, kind: now.kind || "wedge", label: (now.label ?? "").trim(),
      grooves: now.grooves || "unknown", making: now.making || "unknown",
      has_crack: answerOf(now.has_crack), is_kept: answerOf(now.is_kept), is_loved: answerOf(now.is_loved),
    });
    drafts.delete(id);
    onDone();
  };
  /** @param {string} key @param {string} label @param {{unit?: string, isFigure?: boolean, help?: string}} more */
  const field = (key, label, more = {}) => html`<${Field} id=${`bag-${key}`} label=${label} value=${now[key] ?? ""} error=${errors[key]}
    onType=${(/** @type {string} */ value) => type(key, value)} ...${more} />`;
  const degrees = { unit: "degrees", isFigure: true };
  const carry = { unit, isFigure: true };
  return html`<form class="panel club-form" aria-label=${now.label || "A club of the bag"} onSubmit=${(/** @type {Event} */ event) => { event.preventDefault(); save(); }}>
    <div class="row between"><h2>${now.label || "New club"}</h2><${Chips} label="Kind" choices=${KINDS} value=${now.kind || "wedge"} onPick=${(/** @type {string} */ value) => type("kind", value)} /></div>
    <div class="fields three">
      ${field("label", "What the player calls it")}
      ${field("stock_carry", "Stock carry", carry)} ${field("flat_out_carry", "Flat-out carry", carry)}
      ${field("stamped_loft", "Loft, stamped", degrees)} ${field("loft", "Loft, measured", degrees)} ${field("lie", "Lie, measured", degrees)}
      ${field("stamped_bounce", "Bounce, stamped", degrees)} ${field("bounce", "Bounce, measured", degrees)} ${field("length", "Length, in or mm")}
    </div>
    <div class="answers">
      <div><h3 id="grooves">Grooves</h3><${Chips} labelledBy="grooves" label="Grooves" choices=${GROOVES} value=${now.grooves ?? ""} onPick=${(/** @type {string} */ value) => type("grooves", value)} canClear=${true} /></div>
      <div><h3 id="crack">Crack at the hosel</h3><${Chips} labelledBy="crack" label="Crack at the hosel" choices=${YES_NO} value=${now.has_crack ?? ""} onPick=${(/** @type {string} */ value) => type("has_crack", value)} canClear=${true} /></div>
      <div><h3 id="kept">Stays in the bag</h3><${Chips} labelledBy="kept" label="Stays" choices=${YES_NO} value=${now.is_kept ?? ""} onPick=${(/** @type {string} */ value) => type("is_kept", value)} canClear=${true} /></div>
      <div><h3 id="loved">Loved</h3><${Chips} labelledBy="loved" label="Loved" choices=${YES_NO} value=${now.is_loved ?? ""} onPick=${(/** @type {string} */ value) => type("is_loved", value)} canClear=${true} /></div>
    </div>
    <div class="answers"><div><h3 id="plays">Plays</h3><${SeveralChips} labelledBy="plays" label="Plays" choices=${SHOTS}
      values=${(now.shots ?? "").split(", ").filter(Boolean)} onPick=${(/** @type {string[]} */ values) => type("shots", values.join(", "))} /></div></div>
    ${isMore && view.choices.making && html`<div class="answers"><div><h3 id="making">Head made of</h3><${Chips} labelledBy="making" label="Head made of" choices=${view.choices.making}
      value=${now.making || "unknown"} onPick=${(/** @type {string} */ value) => type("making", value)} /></div></div>`}
    ${isMore ? html`<div class="fields three">${field("maker", "Maker")} ${field("model", "Model")} ${field("shaft", "Shaft")}
      ${field("swing_weight", "Swing weight", { help: "Letter and figure, as on the scale." })} ${field("note", "Note")}</div>`
      : html`<button type="button" class="button quiet" onClick=${() => setMore(true)}><${Icon} name="plus" />Maker, model, shaft, swing weight, note</button>`}
    <${FieldError} id="bag-error" error=${refusal ? leftOver(refusal) : undefined} />
    <div class="actions"><button type="submit" class="button go main" disabled=${!(now.label ?? "").trim()}>${club ? "Record anew" : "Record this club"}</button>
      ${isTyped && html`<span class="soft">Not recorded yet</span>`}</div>
  </form>`;
}

/** @param {string | undefined} typed */
function answerOf(typed) {
  return typed === "yes" ? true : typed === "no" ? false : null;
}

/** @param {Refusal} refusal @returns {Draft} */
function draftFrom(refusal) {
  const { body } = refusal.command;
  return Object.fromEntries([...TEXTS, "unit"].map((key) => [key, asText(body[key])]));
}

/** What was said that belongs to no field in sight. @param {Refusal} refusal */
function leftOver(refusal) {
  const own = Object.entries(refusal.errors).filter(([key]) => !TEXTS.includes(key)).map(([, sentence]) => sentence);
  return [...own, Object.keys(refusal.errors).length ? "" : refusal.sentence].filter(Boolean).join(" ") || undefined;
}
