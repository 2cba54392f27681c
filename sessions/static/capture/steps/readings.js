// What was read of a club as it is handed over: bent, on the gauge, on the scale. A slip is told
// beside its field before the hand-over closes; the server reads it all again and has the last word.
import { html } from "../../vendor/htm-preact.js";
import { Field } from "../parts.js";

/** @typedef {import("../types.js").Refusal} Refusal */
/** @typedef {"loft" | "lie" | "swing_weight" | "mass"} Reading */
/** @typedef {Record<Reading, string>} Read */
/** @typedef {Partial<Record<Reading, string>>} Errors */

const DEGREES = { "": 1, "\u00b0": 1, deg: 1, "deg.": 1, degree: 1, degrees: 1 };
const GRAMS = { "": 1, g: 1, gram: 1, grams: 1, oz: 28.349523125, ounce: 28.349523125, ounces: 28.349523125 };
const NUMBER = "[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+";
const SWING_WEIGHT = new RegExp(`^[a-g] ?(${NUMBER})$`);
const FIGURE = new RegExp(`^([+-]?) ?(${NUMBER}) ?([^\\d.,+-].*)?$`);
const LONGEST = 40;

/** @typedef {{name: string, units: Record<string, number>, least: number, most: number, how: string}} Kind */
/** As the server's limits are. @type {Record<"loft" | "lie" | "mass", Kind>} */
const KINDS = {
  loft: { name: "loft", units: DEGREES, least: 15, most: 75, how: "Type a loft in degrees, for example 54.5." },
  lie: { name: "lie", units: DEGREES, least: 40, most: 80, how: "Type a lie in degrees, for example 63.5." },
  mass: { name: "mass", units: GRAMS, least: 250, most: 650, how: "Type a mass in grams, for example 461." },
};
export const READINGS = /** @type {const} */ (["loft", "lie", "swing_weight", "mass"]);
const NAMES = /** @type {Record<Reading, string>} */ ({ loft: "loft", lie: "lie", swing_weight: "swing weight", mass: "mass" });

/** @param {string} typed */
function tidy(typed) {
  return typed.replace("\u2212", "-").toLowerCase().trim().replace(/\s+/g, " ");
}

/** @param {string} typed @param {Kind} kind @returns {number | null} */
function figureOf(typed, kind) {
  const [, sign, number = "", unit = ""] = FIGURE.exec(tidy(typed)) ?? [];
  const factor = number && typed.length <= LONGEST ? kind.units[unit.trim()] : undefined;
  return factor === undefined ? null : (sign === "-" ? -1 : 1) * Number(number.replace(",", ".")) * factor;
}

/** What is wrong with one reading, in a sentence; "" where nothing is, or nothing was typed. @param {Reading} key @param {string} typed */
export function wrongIn(key, typed) {
  if (!typed.trim()) return "";
  if (key === "swing_weight") {
    const points = SWING_WEIGHT.exec(tidy(typed))?.[1]?.replace(",", ".");
    return points !== undefined && Number(points) < 10 ? "" : "Type a swing weight as a letter A to G and points, for example D2.5.";
  }
  const kind = KINDS[key];
  const value = figureOf(typed, kind);
  if (value === null) return kind.how;
  return value >= kind.least && value <= kind.most ? "" : `A ${kind.name} of ${typed.trim()} is not believable: ${kind.least} to ${kind.most}.`;
}

/** A loft or lie as it was typed, in degrees; null where it can't be read. @param {"loft" | "lie"} key @param {string} typed */
export function angleOf(key, typed) {
  return typed.trim() && !wrongIn(key, typed) ? figureOf(typed, KINDS[key]) : null;
}

/**
 * What is wrong with the readings; what the server refused stays wrong until it is typed otherwise.
 * @param {Read} read @param {Refusal | null} refused @returns {Errors}
 */
export function wrongReadings(read, refused) {
  return Object.fromEntries(READINGS.flatMap((key) => {
    const said = wrongIn(key, read[key]) || (refused?.command.body[key] === read[key] ? refused.errors[key] : "");
    return said ? [[key, said]] : [];
  }));
}

/** "Look at the loft and the mass again." @param {Errors} wrong */
export function lookAgain(wrong) {
  const names = READINGS.filter((key) => wrong[key]).map((key) => `the ${NAMES[key]}`);
  return names.length ? `Look again at ${names.join(" and ")}.` : "";
}

/** To the first field that is wrong, where it is seen whole. @param {Errors} wrong */
export function goTo(wrong) {
  const first = READINGS.find((key) => wrong[key]);
  const field = first && document.getElementById(`next-${first.replace("_", "-")}`);
  if (!field) return;
  field.scrollIntoView({ block: "center" });
  field.focus({ preventScroll: true });
}

/**
 * @param {{read: Read, hasAdapter: boolean, errors: Errors, set: (part: Partial<Read>) => void, onLeave: (key: Reading) => void}} props
 */
export function Readings({ read, hasAdapter, errors, set, onLeave }) {
  const field = (/** @type {Reading} */ key, /** @type {string} */ label, /** @type {{unit?: string, help?: string}} */ more) => html`<${Field} id=${`next-${key.replace("_", "-")}`}
    label=${label} unit=${more.unit ?? ""} help=${more.help ?? ""} isFigure=${key !== "swing_weight"} value=${read[key]} error=${errors[key]}
    onType=${(/** @type {string} */ typed) => set({ [key]: typed })} onLeave=${() => onLeave(key)} />`;
  return html`<div class="fields two">${field("loft", "Loft as read now", { unit: "degrees" })} ${field("lie", "Lie as read now", { unit: "degrees" })}
    ${field("swing_weight", hasAdapter ? "Swing weight, adapter and all" : "Swing weight", { help: "For example D2.5." })}
    ${field("mass", "Whole club on the scale", { unit: "g" })}</div>`;
}
