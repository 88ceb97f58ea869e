import { noFigures, type Judged } from "./alert.ts";
import { hearingOf, phaseOf, type Scene } from "./scene.ts";

/**
 * A venue's network drops for a minute or two all evening long, and the page shows it; after so much it is no longer
 * that. Chosen on simulated evenings.
 */
const afterMs = { plan: 3 * 60_000, actNow: 5 * 60_000 };

/** Whether a booth that should be heard is not. A booth packed away may be silent, one never heard is unknown. */
export function judgeSilence(scene: Scene): Judged {
  const { heardAtMs, booking, atMs } = scene;
  const matter = "agentSilent";
  const phase = phaseOf(scene);
  const hearing = hearingOf(scene);
  if (hearing === "waiting") return { matter, stands: "unseen" };
  if (heardAtMs === null || hearing !== "silent" || phase === "away") return { matter, stands: "clear" };
  const silentMs = atMs - heardAtMs;
  return {
    ...noFigures,
    ...{ matter, stands: silentMs >= afterMs.plan ? "holds" : "lingers" },
    severity: phase === "open" && silentMs >= afterMs.actNow ? "actNow" : "plan",
    since: { atMs: heardAtMs, isAtLatest: false },
    spareRolls: booking?.spareRolls ?? null,
  };
}
