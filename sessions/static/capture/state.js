// The visit as this tablet knows it: the server's last word, and on top of it what was recorded here.
import { applied } from "./apply.js";
import { makeCommand } from "./commands.js";
import { Outbox } from "./outbox.js";

/** @typedef {import("./types.js").VisitState} VisitState */
/** @typedef {import("./types.js").Command} Command */
/** @typedef {import("./types.js").Receipt} Receipt */
/** @typedef {import("./types.js").Refusal} Refusal */
/** @typedef {import("./types.js").Body} Body */

// Whoever stands in the bay must hear of a withdrawn head within seconds. Nearly every look is a 304.
const LOOK_AGAIN_MS = 5_000;
const LONGEST_PAUSE_MS = 60_000;

/** How long until the next look, after so many that failed in a row. @param {number} failures */
export function pauseUntilLook(failures) {
  return Math.min(LONGEST_PAUSE_MS, LOOK_AGAIN_MS * 2 ** failures);
}

/**
 * What an entry is about, so that recording it anew settles an earlier refusal.
 * @param {Command} command
 */
export function subjectOf({ kind, body }) {
  const about = { "interview.answer": body.question, "bag.club": body.club_id }[kind];
  // Neither the air nor the hand has a name of its own: the next one takes the refused one's place.
  if (kind === "conditions.record" || kind === "trial.start") return `${kind} `;
  return about ? `${kind} ${about}` : `${kind} ${body.id ?? ""}`;
}

export class VisitStore {
  /** @type {VisitState | null} */ server = null;
  /** @type {VisitState | null} */ view = null;
  /** What a person has to look at. @type {Refusal[]} */ refused = [];
  /** Acknowledged, but not yet in the state that was read. @type {{command: Command, version: number}[]} */
  acknowledged = [];
  /** @type {"loading" | "ready" | "no_signal" | "signed_out" | "not_found"} */ phase = "loading";
  /** Counts the receipts: what comes from the server is worth another look. */ receipts = 0;
  /** @type {Set<() => void>} */ listeners = new Set();
  /** What was shown behind a number, by comparison and number. @type {Map<string, string>} */ shown = new Map();
  /** The last hand-over that was recorded here, by its command. */ handedOver = "";
  isLoading = false;
  isLoadWanted = false;
  /** The ETag of what is held. */ tag = "";
  /** When the server last told the state, or that it is unchanged, by its own clock. */ heardAt = "";
  failures = 0;
  /** @type {number | undefined} */ timer;

  /** @param {string} visitId */
  constructor(visitId) {
    this.visitId = visitId;
    this.api = `/api/v1/visits/${visitId}`;
    this.outbox = new Outbox(`${this.api}/commands`, {
      onReceipt: (command, receipt) => this.take(command, receipt),
      onChange: () => this.changed(),
    });
    addEventListener("online", () => void this.load());
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") void this.load();
    });
  }

  /** @param {() => void} listener */
  subscribe(listener) {
    this.listeners.add(listener);
    return () => void this.listeners.delete(listener);
  }

  changed() {
    if (this.server) {
      const since = this.acknowledged.map((one) => one.command);
      this.view = applied(this.server, [...since, ...this.outbox.queue]);
    }
    for (const listener of this.listeners) listener();
  }

  /** Read the state; one request at a time, and once more if it was wanted meanwhile. */
  async load() {
    if (this.isLoading) {
      this.isLoadWanted = true;
      return;
    }
    this.isLoading = true;
    this.isLoadWanted = false;
    clearTimeout(this.timer);
    const before = this.phase;
    const isNew = await this.read();
    this.isLoading = false;
    // What is unchanged is not drawn again: nobody's typing is touched.
    if (isNew || this.phase !== before) this.changed();
    if (this.isLoadWanted) void this.load();
    else this.lookLater();
  }

  /** Nobody looks at a hidden page: it is read again as soon as it is shown. */
  lookLater() {
    if (document.visibilityState !== "visible" || this.phase === "not_found") return;
    this.timer = setTimeout(() => void this.load(), pauseUntilLook(this.failures));
  }

  /** @returns {Promise<boolean>} whether another state came than the one that is held */
  async read() {
    try {
      const answer = await fetch(`${this.api}/state`, {
        credentials: "same-origin", redirect: "manual",
        headers: { Accept: "application/json", ...(this.tag && { "If-None-Match": this.tag }) },
        signal: AbortSignal.timeout(10_000),
      });
      const isHeard = answer.ok || answer.status === 304;
      // The line is back: what is kept here needn't wait for its own next try.
      if (isHeard && this.failures > 0) void this.outbox.send();
      this.failures = isHeard ? 0 : this.failures + 1;
      if (isHeard) {
        this.heardAt = answer.headers.get("X-Told-At") ?? "";
        this.tag = answer.headers.get("ETag") ?? "";
      }
      if (answer.status === 304) {
        this.phase = "ready";
        return false;
      }
      if (answer.type === "opaqueredirect" || answer.status === 401 || answer.status === 403) this.phase = "signed_out";
      else if (answer.status === 404) this.phase = "not_found";
      else if (!answer.ok) this.phase = "no_signal";
      else this.arrived(/** @type {VisitState} */ (await answer.json()));
      return answer.ok;
    } catch {
      this.failures += 1;
      this.phase = "no_signal";
      return false;
    }
  }

  /** @param {VisitState} state */
  arrived(state) {
    this.server = state;
    this.phase = "ready";
    this.acknowledged = this.acknowledged.filter((one) => one.version > state.visit.sequence);
  }

  /** Record one fact: shown at once, sent as soon as there is a line. @param {string} kind @param {Body} body */
  record(kind, body) {
    const command = makeCommand(kind, body, this.heardAt);
    const subject = subjectOf(command);
    if (kind === "trial.start") this.handedOver = command.id;
    this.refused = this.refused.filter((one) => subjectOf(one.command) !== subject);
    this.outbox.add(command);
    return command;
  }

  /** @param {Command} command @param {Receipt} receipt */
  take(command, receipt) {
    this.receipts += 1;
    if (receipt.outcome === "stored") {
      const version = receipt.version ?? receipt.sequence ?? 0;
      this.acknowledged.push({ command, version });
      if (receipt.shown) this.shown.set(`${command.body.comparison_id} ${command.body.code}`, receipt.shown);
    } else {
      this.refused.push({ command, errors: receipt.errors ?? {}, sentence: receipt.sentence ?? "" });
    }
    void this.load();
  }

  /** A person has looked at it and lets it go. @param {string} commandId */
  dismiss(commandId) {
    this.refused = this.refused.filter((one) => one.command.id !== commandId);
    this.changed();
  }

  /** The refusal of the last entry about a subject. @param {string} kind @param {string} about */
  refusalOf(kind, about) {
    return this.refused.find((one) => subjectOf(one.command) === `${kind} ${about}`) ?? null;
  }
}
