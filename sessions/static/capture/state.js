// The visit as this tablet knows it: the server's last word, and on top of it what was recorded here.
import { applied } from "./apply.js";
import { makeCommand } from "./commands.js";
import { Outbox } from "./outbox.js";

/** @typedef {import("./types.js").VisitState} VisitState */
/** @typedef {import("./types.js").Command} Command */
/** @typedef {import("./types.js").Receipt} Receipt */
/** @typedef {import("./types.js").Refusal} Refusal */
/** @typedef {import("./types.js").Body} Body */

const LOOK_AGAIN_MS = 30_000;

/**
 * What an entry is about, so that recording it anew settles an earlier refusal.
 * @param {Command} command
 */
export function subjectOf({ kind, body }) {
  const about = { "interview.answer": body.question, "bag.club": body.club_id }[kind];
  // The air has no name of its own: the next reading takes the refused one's place.
  if (kind === "conditions.record") return `${kind} `;
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
  isLoading = false;
  isLoadWanted = false;

  /** @param {string} visitId */
  constructor(visitId) {
    this.visitId = visitId;
    this.api = `/api/v1/visits/${visitId}`;
    this.outbox = new Outbox(`${this.api}/commands`, {
      onReceipt: (command, receipt) => this.take(command, receipt),
      onChange: () => this.changed(),
    });
    setInterval(() => {
      if (document.visibilityState === "visible") void this.load();
    }, LOOK_AGAIN_MS);
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
    await this.read();
    this.isLoading = false;
    this.changed();
    if (this.isLoadWanted) void this.load();
  }

  async read() {
    try {
      const answer = await fetch(`${this.api}/state`, {
        credentials: "same-origin", redirect: "manual", headers: { Accept: "application/json" },
        signal: AbortSignal.timeout(10_000),
      });
      if (answer.type === "opaqueredirect" || answer.status === 401 || answer.status === 403) this.phase = "signed_out";
      else if (answer.status === 404) this.phase = "not_found";
      else if (!answer.ok) this.phase = "no_signal";
      else this.arrived(/** @type {VisitState} */ (await answer.json()));
    } catch {
      this.phase = "no_signal";
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
    const command = makeCommand(kind, body);
    const subject = subjectOf(command);
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
