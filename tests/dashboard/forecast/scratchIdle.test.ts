import { it } from "vitest";
import { idleAhead } from "../../../dashboard/forecast/idleAhead.ts";
import { simulateFamily } from "../../bench/forecast/simulateEvening.ts";
import { familyNames } from "../../bench/forecast/families.ts";
it("scratch", () => {
  let all = 0,
    none = 0;
  for (const family of familyNames) {
    let alarms = 0,
      soft = 0;
    const n = 20;
    const longest: number[] = [];
    for (const e of simulateFamily(family, "judge", n)) {
      const past = e.past.map((p) => ({
        eventKind: p.pattern ?? "",
        openAtMs: Date.parse(p.start),
        closeAtMs: Date.parse(p.end),
        guests: p.guests,
        sessions: p.sessions,
        sheets: p.sheets,
        sheetsPer15Min: p.bins15,
      }));
      const input = {
        plan: {
          key: family,
          openAtMs: e.startAtMs,
          closeAtMs: e.endAtMs,
          guests: e.plan.guests,
          eventKind: e.plan.pattern,
          sheetsPerSession: e.plan.sheetsPerSession,
          sheetsLoaded: e.plan.sheetsLoaded,
        },
        past,
        sessions: e.sessions,
        stops: e.toldStops,
      };
      let hit = false,
        near = false;
      let run = null;
      let worst = 0;
      for (let at = e.startAtMs + 60_000; at < e.endAtMs; at += 120_000) {
        const known = {
          ...input,
          stops: e.toldStops
            .filter((s) => s.fromAtMs <= at)
            .map((s) => ({ fromAtMs: s.fromAtMs, toAtMs: s.toAtMs <= at ? s.toAtMs : null })),
        };
        const r = idleAhead(known, [], at, run);
        run = r.run;
        if (!r.idle || r.idle.basis === "blind") continue;
        worst = Math.max(worst, (at - r.idle.sinceAtMs) / 60000);
        const long = at - r.idle.sinceAtMs >= 30 * 60_000 && r.idle.sessionsExpected >= 6;
        if (long && r.idle.noneChance <= 0.002) hit = true;
        if (long && r.idle.noneChance <= 0.01) near = true;
      }
      longest.push(worst);
      if (hit) alarms++;
      if (near) soft++;
    }
    all += n;
    none += alarms;
    console.log(
      family.padEnd(32),
      "raised",
      alarms,
      "of",
      n,
      " at 0.01:",
      soft,
      " longest spell",
      Math.max(...longest).toFixed(0),
    );
  }
  console.log("all", none, "of", all);
}, 600000);
