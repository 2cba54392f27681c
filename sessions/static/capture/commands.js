// Commands: each records one fact, under a name of its own that is made here, so that writing it
// twice is writing it once.
import { sha256 } from "./sha256.js";

/** @typedef {import("./types.js").Command} Command */
/** @typedef {import("./types.js").Body} Body */

/** A random UUID (version 4), also where only plain http is spoken. @returns {string} */
export function newId() {
  if (typeof crypto.randomUUID === "function") return crypto.randomUUID();
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x40;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}

/**
 * One text for one content: keys sorted, no spaces, letters as they are.
 * @param {unknown} value @returns {string}
 */
export function canonical(value) {
  if (Array.isArray(value)) return `[${value.map(canonical).join(",")}]`;
  if (value !== null && typeof value === "object") {
    const pairs = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)).map(
      ([key, one]) => `${JSON.stringify(key)}:${canonical(one ?? null)}`,
    );
    return `{${pairs.join(",")}}`;
  }
  return JSON.stringify(value);
}

/** Whether the browser lends us its cryptography: only over https or from this machine. */
export function isSecure() {
  return typeof crypto.subtle === "object" && crypto.subtle !== null;
}

/** @param {string} kind @param {Body} body @returns {Promise<string>} */
export async function fingerprint(kind, body) {
  const bytes = new TextEncoder().encode(`${kind}\n${canonical(body)}`);
  if (!isSecure()) return sha256(bytes);
  const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(sum, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

// Counts on across page loads without keeping anything: nobody records more than one a second.
let counter = Math.floor(Date.now() / 1000) - 1_600_000_000;

/**
 * @param {string} kind @param {Body} body
 * @param {string} heardAt when this tablet was last told the state, by the server's clock
 * @returns {Command}
 */
export function makeCommand(kind, body, heardAt = "") {
  counter += 1;
  return { id: newId(), kind, counter, at: new Date().toISOString(), heard_at: heardAt, sha256: "", body };
}
