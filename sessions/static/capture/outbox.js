// What was recorded and not yet acknowledged. First in, first out; a receipt with the same id and
// hash is the only thing that takes an entry away. Nothing is ever dropped in silence.
import { fingerprint } from "./commands.js";

/** @typedef {import("./types.js").Command} Command */
/** @typedef {import("./types.js").Receipt} Receipt */
/** @typedef {"quiet" | "sending" | "no_signal" | "signed_out" | "unknown_visit"} Line */

/**
 * Where entries are kept. This one forgets when the page is closed; one on IndexedDB has the same
 * three methods.
 * @typedef {object} Keeper
 * @property {() => Promise<Command[]>} all
 * @property {(command: Command) => Promise<void>} put
 * @property {(id: string) => Promise<void>} remove
 */

/** @returns {Keeper} */
export function memoryKeeper() {
  /** @type {Map<string, Command>} */
  const kept = new Map();
  return {
    all: async () => [...kept.values()],
    put: async (command) => void kept.set(command.id, command),
    remove: async (id) => void kept.delete(id),
  };
}

const MOST_AT_ONCE = 50;
const ABORT_AFTER_MS = 10_000;
const LONGEST_PAUSE_MS = 60_000;
// One entry that the server can't read at all is asked about alone, then shown to a person.
const UNREADABLE = new Set([400, 413, 415, 422]);

/** How long to wait after the nth failure in a row: doubling, with jitter. @param {number} failures */
export function pauseAfter(failures, random = Math.random) {
  return Math.min(LONGEST_PAUSE_MS, 1000 * 2 ** (failures - 1)) * (0.5 + random() / 2);
}

/** The form's token that Django wants with each post. */
function csrfToken() {
  const found = document.cookie.match(/(?:^|;\s*)(?:__Host-)?csrftoken=([^;]+)/);
  return found?.[1] ?? "";
}

/** This device's name, for the record. */
function deviceName() {
  const fresh = `tablet ${Math.random().toString(36).slice(2, 6)}`;
  try {
    const kept = localStorage.getItem("device") ?? fresh;
    localStorage.setItem("device", kept);
    return kept;
  } catch {
    return fresh;
  }
}

export class Outbox {
  /** @type {Command[]} */ queue = [];
  /** @type {Line} */ line = "quiet";
  /** @type {Date | null} */ lastReceiptAt = null;
  failures = 0;
  /** @type {number | undefined} */ timer;
  isSending = false;
  device = deviceName();
  batchSize = MOST_AT_ONCE;

  /**
   * @param {string} url
   * @param {{onReceipt: (command: Command, receipt: Receipt) => void, onChange: () => void}} told
   * @param {Keeper} keeper
   */
  constructor(url, told, keeper = memoryKeeper()) {
    this.url = url;
    this.told = told;
    this.keeper = keeper;
    const again = () => void this.send();
    addEventListener("online", again);
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") again();
    });
    addEventListener("beforeunload", (event) => {
      if (this.queue.length > 0) event.preventDefault();
    });
  }

  /** Seconds since the oldest entry was recorded, null when all is sent. */
  get oldestAt() {
    return this.queue[0]?.at ?? null;
  }

  /** @param {Command} command */
  add(command) {
    this.queue.push(command);
    void this.keeper.put(command);
    this.told.onChange();
    void this.send();
  }

  /** Send what is waiting, now. One request at a time, so that the order holds. */
  async send() {
    if (this.isSending || this.queue.length === 0) return;
    this.isSending = true;
    clearTimeout(this.timer);
    const batch = this.queue.slice(0, this.batchSize);
    for (const command of batch) {
      // From here on it never changes: a later edit is a new command.
      if (!command.sha256) {
        command.sha256 = await fingerprint(command.kind, command.body);
        Object.freeze(command);
        await this.keeper.put(command);
      }
    }
    const isThrough = await this.post(batch);
    this.isSending = false;
    this.failures = isThrough ? 0 : this.failures + 1;
    if (this.queue.length > 0) {
      const pause = isThrough ? 0 : pauseAfter(this.failures);
      this.timer = setTimeout(() => void this.send(), pause);
    }
    this.told.onChange();
  }

  /** @param {Command[]} batch @returns {Promise<boolean>} whether to go straight on */
  async post(batch) {
    const stop = new AbortController();
    const timeout = setTimeout(() => stop.abort(), ABORT_AFTER_MS);
    try {
      const answer = await fetch(this.url, {
        method: "POST",
        credentials: "same-origin",
        redirect: "manual",
        signal: stop.signal,
        headers: { "Content-Type": "application/json", Accept: "application/json", "X-CSRFToken": csrfToken() },
        body: JSON.stringify({ device: this.device, device_time: new Date().toISOString(), commands: batch }),
      });
      if (answer.ok) return this.accept(batch, (await answer.json()).receipts ?? []);
      return this.refuse(batch, answer);
    } catch {
      this.line = "no_signal"; // refused, cut off or timed out: all the same to the fitter
      return false;
    } finally {
      clearTimeout(timeout);
    }
  }

  /** @param {Command[]} batch @param {Receipt[]} receipts */
  accept(batch, receipts) {
    const byId = new Map(receipts.map((receipt) => [receipt.id, receipt]));
    let taken = 0;
    for (const command of batch) {
      const receipt = byId.get(command.id);
      if (!receipt || receipt.sha256 !== command.sha256) continue;
      taken += 1;
      this.take(command, receipt);
    }
    if (taken > 0) {
      this.lastReceiptAt = new Date();
      this.batchSize = MOST_AT_ONCE;
    }
    this.line = "quiet";
    return taken > 0;
  }

  /** @param {Command[]} batch @param {Response} answer */
  async refuse(batch, answer) {
    if (answer.type === "opaqueredirect" || answer.status === 401 || answer.status === 403) {
      this.line = "signed_out";
    } else if (answer.status === 404) {
      this.line = "unknown_visit";
    } else if (UNREADABLE.has(answer.status)) {
      const [first] = batch;
      if (first && batch.length === 1) this.take(first, await unreadable(first, answer));
      this.batchSize = 1;
      return true;
    } else {
      this.line = "no_signal";
    }
    return false;
  }

  /** @param {Command} command @param {Receipt} receipt */
  take(command, receipt) {
    this.queue = this.queue.filter((kept) => kept.id !== command.id);
    void this.keeper.remove(command.id);
    this.told.onReceipt(command, receipt);
  }
}

/** @param {Command} command @param {Response} answer @returns {Promise<Receipt>} */
async function unreadable(command, answer) {
  const said = await answer.json().catch(() => ({}));
  const sentence = typeof said.detail === "string" ? said.detail : `The server could not read it (${answer.status}).`;
  return {
    id: command.id, outcome: "refused", status: answer.status, sequence: null, version: null,
    sha256: command.sha256, errors: {}, sentence,
  };
}
