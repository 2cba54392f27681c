// Small things that every step draws: icons, chips, fields. No style is ever set from here.
import { html, useEffect, useRef, useState } from "../vendor/htm-preact.js";

/** @typedef {import("./types.js").Choice} Choice */

// The shell knows the address with the hash.
const SPRITE = document.body.dataset.sprite ?? "";

/** @param {{name: string}} props */
export function Icon({ name }) {
  return html`<svg class="icon" aria-hidden="true" focusable="false"><use href=${`${SPRITE}#${name}`}></use></svg>`;
}

/**
 * One of several words, pressed. Pressing the chosen one again takes it back where `canClear`.
 * @param {{label: string, choices: Choice[], value: string, onPick: (value: string) => void, canClear?: boolean, labelledBy?: string}} props
 */
export function Chips({ label, choices, value, onPick, canClear = false, labelledBy }) {
  const name = labelledBy ? { "aria-labelledby": labelledBy } : { "aria-label": label };
  return html`<div class="chips" role="group" ...${name}>
    ${choices.map(([word, shown]) => html`<button type="button" class="chip" key=${word} aria-pressed=${String(word === value)}
      onClick=${() => onPick(canClear && word === value ? "" : word)}>${shown}</button>`)}
  </div>`;
}

/** @param {{label: string, choices: Choice[], values: string[], onPick: (values: string[]) => void, labelledBy?: string}} props */
export function SeveralChips({ label, choices, values, onPick, labelledBy }) {
  const name = labelledBy ? { "aria-labelledby": labelledBy } : { "aria-label": label };
  /** @param {string} word */
  const toggled = (word) => (values.includes(word) ? values.filter((one) => one !== word)
    : choices.map(([one]) => one).filter((one) => one === word || values.includes(one)));
  return html`<div class="chips" role="group" ...${name}>
    ${choices.map(([word, shown]) => html`<button type="button" class="chip" key=${word}
      aria-pressed=${String(values.includes(word))} onClick=${() => onPick(toggled(word))}>${shown}</button>`)}
  </div>`;
}

/** @param {{id: string, error?: string | undefined}} props */
export function FieldError({ id, error }) {
  if (!error) return null;
  return html`<ul class="errorlist" id=${id} role="alert"><li><${Icon} name="warning" /><span>${error}</span></li></ul>`;
}

/**
 * A labelled field that tells what was typed at every key, and nothing of when it is saved.
 * @param {{id: string, label: string, value: string, onType: (value: string) => void, error?: string | undefined, unit?: string, help?: string, isFigure?: boolean, onLeave?: () => void}} props
 */
export function Field({ id, label, value, onType, error, unit = "", help = "", isFigure = false, onLeave }) {
  const described = [help && `${id}-help`, error && `${id}-error`].filter(Boolean).join(" ") || undefined;
  const input = html`<input id=${id} type="text" autocomplete="off" inputmode=${isFigure ? "decimal" : "text"} value=${value}
    aria-invalid=${error ? "true" : undefined} aria-describedby=${described}
    onInput=${(/** @type {{currentTarget: HTMLInputElement}} */ event) => onType(event.currentTarget.value)} onBlur=${onLeave} />`;
  return html`<div class=${`field${error ? " has-error" : ""}`}>
    <label for=${id}>${label}</label>
    ${help && html`<p class="help" id=${`${id}-help`}>${help}</p>`}
    ${unit ? html`<div class="with-unit">${input}<span>${unit}</span></div>` : input}
    <${FieldError} id=${`${id}-error`} error=${error} />
  </div>`;
}

/**
 * A line that is saved when one pauses or leaves it. What was typed stays, whatever the server says.
 * @param {{id: string, value: string, onSave: (value: string) => void, error?: string | undefined, unit?: string, isFigure?: boolean, isMany?: boolean, labelledBy: string}} props
 */
export function SavedLine({ id, value, onSave, error, unit = "", isFigure = false, isMany = false, labelledBy }) {
  const [typed, setTyped] = useState(value);
  const saved = useRef(value);
  const latest = useRef(typed);
  latest.current = typed;
  useEffect(() => {
    // Another tablet's answer is shown, unless something is being typed here.
    if (latest.current === saved.current) setTyped(value);
    saved.current = value;
  }, [value]);
  const save = () => {
    if (latest.current === saved.current) return;
    saved.current = latest.current;
    onSave(latest.current);
  };
  const saver = useRef(save);
  saver.current = save;
  useEffect(() => {
    const pause = setTimeout(() => saver.current(), 900);
    return () => clearTimeout(pause);
  }, [typed]);
  useEffect(() => () => saver.current(), []);
  const shared = {
    id, value: typed, "aria-labelledby": labelledBy, "aria-invalid": error ? "true" : undefined,
    "aria-describedby": error ? `${id}-error` : undefined, autocomplete: "off",
    onInput: (/** @type {{currentTarget: HTMLInputElement}} */ event) => {
      // Known at once, not at the next drawing: leaving the line, or an answer that comes in between, loses nothing.
      latest.current = event.currentTarget.value;
      setTyped(latest.current);
    },
    onBlur: save,
  };
  const input = isMany ? html`<textarea rows="2" ...${shared}></textarea>`
    : html`<input type="text" inputmode=${isFigure ? "decimal" : "text"} ...${shared} />`;
  return html`<div class=${`field${error ? " has-error" : ""}`}>
    ${unit ? html`<div class="with-unit">${input}<span>${unit}</span></div>` : input}
    <${FieldError} id=${`${id}-error`} error=${error} />
  </div>`;
}

/**
 * A number between two keys, for counting clubs.
 * @param {{label: string, value: number, most: number, onChange: (value: number) => void}} props
 */
export function Stepper({ label, value, most, onChange }) {
  return html`<div class="stepper" role="group" aria-label=${label}>
    <span class="stepper-name">${label}</span>
    <button type="button" class="button" aria-label=${`One ${label} less`} disabled=${value <= 0} onClick=${() => onChange(value - 1)}><${Icon} name="minus" /></button>
    <b aria-live="polite">${value}</b>
    <button type="button" class="button" aria-label=${`One ${label} more`} disabled=${value >= most} onClick=${() => onChange(value + 1)}><${Icon} name="plus" /></button>
  </div>`;
}

/** One to five by thumb. @param {{label: string, value: number | undefined, onPick: (score: number) => void, low?: string, high?: string}} props */
export function Rating({ label, value, onPick, low = "poor", high = "best" }) {
  return html`<div class="rating" role="group" aria-label=${label}>
    <span>${label}<small class="rating-ends">1 ${low}, 5 ${high}</small></span>
    <div class="rating-keys">${[1, 2, 3, 4, 5].map((score) => html`<button type="button" class="chip" key=${score}
      aria-pressed=${String(value === score)} onClick=${() => onPick(score)}>${score}</button>`)}</div>
  </div>`;
}
