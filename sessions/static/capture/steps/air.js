// The air at one moment: what makes the same club carry further on another day.
import { html, useState } from "../../vendor/htm-preact.js";
import { newId } from "../commands.js";
import { Field, FieldError } from "../parts.js";

/** @typedef {import("../app.js").StepProps} StepProps */

/** Key, label, unit, help. @type {[string, string, string, string][]} */
const FIGURES = [
  ["temperature", "Temperature", "°C", ""],
  ["pressure", "Pressure", "hPa", "As measured here. From a weather report: 1013 sea level."],
  ["altitude", "Altitude", "m", "Instead of a pressure, where there is no gauge."],
  ["humidity", "Humidity", "%", ""],
  ["wind", "Wind", "m/s", "Or with its unit: 10 mph."],
  ["wind_to", "Wind blows to", "degrees", "From the target line: 0 helps, 90 blows to the player's right, 180 hurts."],
];

/** What is typed and not yet recorded stays, whatever the server says. @type {{visit: string, typed: Record<string, string>}} */
const draft = { visit: "", typed: {} };

/** @param {{store: StepProps["store"], view: StepProps["view"], onClose: () => void}} props */
export function AirSheet({ store, view, onClose }) {
  const [, redraw] = useState(0);
  if (draft.visit !== view.visit.id) Object.assign(draft, { visit: view.visit.id, typed: {} });
  const refusal = store.refusalOf("conditions.record", "");
  const isEmpty = FIGURES.every(([key]) => !(draft.typed[key] ?? "").trim());
  const save = () => {
    const typed = Object.fromEntries(FIGURES.map(([key]) => [key, draft.typed[key] ?? ""]));
    store.record("conditions.record", { ...typed, id: newId() });
    redraw((count) => count + 1);
  };
  const errors = refusal?.errors ?? {};
  const other = refusal && !Object.keys(errors).length ? refusal.sentence : undefined;
  return html`<form class="panel entry sheet" aria-label="The air" onSubmit=${(/** @type {Event} */ event) => { event.preventDefault(); save(); }}>
    <div class="sheet-head"><h2 class="sheet-title">The air</h2><button type="button" class="button" onClick=${onClose}>Back to the balls</button></div>
    ${view.air && html`<p>Last recorded: <b>${view.air}</b></p>`}
    <div class="fields two">${FIGURES.map(([key, label, unit, help]) => html`<${Field} key=${key} id=${`air-${key}`} label=${label} unit=${unit} help=${help} isFigure=${key !== "pressure" && key !== "wind"}
      value=${draft.typed[key] ?? ""} error=${errors[key]} onType=${(/** @type {string} */ value) => { draft.typed[key] = value; redraw((count) => count + 1); }} />`)}</div>
    <${FieldError} id="air-error" error=${other} />
    <div class="actions"><button type="submit" class="button go main" disabled=${isEmpty}>Record the air</button></div>
  </form>`;
}
