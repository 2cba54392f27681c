// A double tap is one ball. A finger that touches the place where it has just recorded again, within a third
// of a second of its last touch there, is the same tap: nobody hits a ball between. Elsewhere, or later, it
// is a ball of its own.

const SAME_TAP_MS = 350;
const SAME_PLACE_PX = 40;

/** The time for which the figures are drawn as not yet armed again. */
export const ARMED_AGAIN_MS = SAME_TAP_MS;

export class OneTap {
  /** @type {{at: number, x: number, y: number} | null} */ tap = null;
  /** The tap that recorded, and from there on its echoes. @type {{at: number, x: number, y: number} | null} */ recorded = null;

  /** Whether this tap is one with that which recorded. By the touch's own time: a slow page can't tear them apart. @param {MouseEvent} event */
  isEcho({ timeStamp: at, clientX: x, clientY: y }) {
    const { recorded } = this;
    this.tap = { at, x, y };
    if (!recorded || at - recorded.at >= SAME_TAP_MS || Math.hypot(x - recorded.x, y - recorded.y) > SAME_PLACE_PX) {
      this.recorded = null;
      return false;
    }
    recorded.at = at;
    return true;
  }

  /** Something else was touched meanwhile. */
  wasElsewhere() {
    this.recorded = null;
  }

  hasRecorded() {
    this.recorded = this.tap && { ...this.tap };
  }
}
