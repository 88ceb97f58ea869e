import type { Clock, OwnFrame } from "@boothward/shared-types";
import { noTrouble, stepOwnTrouble, type OwnProbes, type OwnTrouble } from "./alerts/ownTrouble.ts";
import { ownNotice } from "./notify/ownNotice.ts";
import type { NewNotice } from "./store/notices.ts";

export type OwnWatchOptions = {
  readonly clock: Clock;
  readonly makeId: () => string;
  readonly lateCalls: () => OwnProbes["calls"];
  /** When each agent that is not on this computer was last heard. */
  readonly heardFromElsewhereAtMs: () => readonly (number | null)[];
  readonly publish: (own: OwnFrame) => void;
  /** Resolves when the notices are queued. */
  readonly queue: (notices: readonly NewNotice[]) => Promise<void>;
};

/** Watches over the dashboard itself, so that it says what is wrong with it and does not blame the booths. */
export type OwnWatch = { readonly now: () => OwnTrouble; tick(): Promise<void> };

export function openOwnWatch(options: OwnWatchOptions): OwnWatch {
  const { clock, makeId } = options;
  let trouble = noTrouble;
  let before: OwnProbes["before"] = null;
  return {
    now: () => trouble,
    async tick() {
      const { wallMs, monoMs } = clock();
      const last = trouble;
      const calls = options.lateCalls();
      const outsideHeardAtMs = options.heardFromElsewhereAtMs();
      trouble = stepOwnTrouble(last, { wallMs, monoMs, before, calls, outsideHeardAtMs });
      before = { wallMs, monoMs };
      if (trouble.uplink === last.uplink && trouble.clock === last.clock) return;
      options.publish(ownFrameOf(trouble));
      const notices = noticesOf(last, trouble, wallMs, makeId);
      if (notices.length > 0) await options.queue(notices);
    },
  };
}

function ownFrameOf({ uplink, uplinkFromAtMs, clock, clockSteppedAtMs }: OwnTrouble): OwnFrame {
  return {
    uplinkDownFromAtMs: uplink === "down" ? uplinkFromAtMs : null,
    clockSteppedAtMs: clock === "stepped" ? clockSteppedAtMs : null,
  };
}

/** What leaves the house: a network that is down is told of when it is back. */
function noticesOf(last: OwnTrouble, now: OwnTrouble, atMs: number, makeId: () => string): NewNotice[] {
  const notices: NewNotice[] = [];
  if (last.uplink === "down" && now.uplink === "ok" && last.uplinkFromAtMs !== null) {
    const minutes = Math.max(1, Math.round((atMs - last.uplinkFromAtMs) / 60_000));
    const text = `The dashboard had no network for ${minutes} min; what happened meanwhile is coming in now.`;
    notices.push(ownNotice(makeId(), `uplink:${last.uplinkFromAtMs}`, text, atMs));
  }
  if (last.clock === "ok" && now.clock === "stepped") {
    const text = "The clock of the dashboard's computer jumped. See that it is set by the network.";
    notices.push(ownNotice(makeId(), `clock:${now.clockSteppedAtMs}`, text, atMs));
  }
  return notices;
}
