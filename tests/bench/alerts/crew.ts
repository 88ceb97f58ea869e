import type { Alert } from "../../../dashboard/alerts/alert.ts";
import { answerAlert } from "../../../dashboard/alerts/answerAlert.ts";
import type { AlertNotice } from "../../../dashboard/alerts/stepBooth.ts";
import type { DayBooth } from "../../../seeds/day.ts";
import { between, type Dice } from "../../../seeds/dice.ts";
import { sheetsLeft } from "../../../seeds/printing.ts";
import { at, inOrder } from "./troubles.ts";
import type { Happening } from "./happening.ts";
import type { Evening } from "./evening.ts";

/**
 * Who works at the booth: of seven notices they take six, a few minutes later, and do what is said where it can be
 * done. How quick and how willing is our own guess.
 */
export type Crew = {
  /** Notes what was sent, and gives what they change at the booth; null: nothing. */
  readonly hear: (notices: readonly AlertNotice[], happening: Happening, atMin: number) => Change | null;
  /** What they say by the buttons until then. */
  readonly answer: (alerts: readonly Alert[], atMs: number) => readonly Alert[];
};

export type Change = { readonly booth: DayBooth } | { readonly overlay: Evening["overlays"][number] };

const willing = 0.85;
const takesMin = [0.5, 3] as const;
const changesMin = [4, 15] as const;
const changeMin = 2;
const standsByMin = 20;

export function openCrew(dice: Dice, by: string): Crew {
  const takes: { alertId: string; atMs: number }[] = [];
  return {
    hear(notices, happening, atMin) {
      let change: Change | null = null;
      for (const { alert, toRole, why } of notices) {
        if (toRole !== "attendant" || why === "repeat" || dice() > willing) continue;
        takes.push({ alertId: alert.alertId, atMs: alert.raisedAtMs! + between(dice, ...takesMin) * 60_000 });
        change ??= changeAt(
          alert,
          happening,
          Math.max(atMin, latestMin(alert, atMin)) + between(dice, ...changesMin),
        );
      }
      return change;
    },
    answer(alerts, atMs) {
      const due = takes.filter((take) => take.atMs <= atMs);
      if (due.length === 0) return alerts;
      due.forEach((take) => takes.splice(takes.indexOf(take), 1));
      return alerts.map((alert) => {
        if (!due.some(({ alertId }) => alertId === alert.alertId)) return alert;
        return answerAlert(alert, { answer: "take", by, atMs, untilAtMs: null }, null).alert;
      });
    },
  };
}

/** A roll is changed towards the latest moment that was named, and not hours before. */
function latestMin({ byAtMs, raisedAtMs, matter }: Alert, atMin: number): number {
  if (matter !== "mediaLow" || byAtMs === null || raisedAtMs === null) return atMin;
  return atMin + (byAtMs - raisedAtMs) / 60_000 - standsByMin;
}

function changeAt({ matter }: Alert, { booth, printing }: Happening, atMin: number): Change | null {
  const incidents = (incident: DayBooth["incidents"][number]) => ({
    booth: { ...booth, incidents: [...booth.incidents, incident] },
  });
  const fitted = printing.fitted.filter((each) => each.atMin <= atMin).length;
  if (matter === "mediaLow" && fitted < booth.booking.spareRolls && atMin < booth.booking.closeMin - 10)
    return incidents({ kind: "rollChange", atMin, forMin: changeMin });
  if (matter === "tooHot") return incidents({ kind: "shade", atMin, keepsOut: 0.6 });
  if (matter !== "countDoubtful") return null;
  const left = Math.max(0, sheetsLeft(booth.booking.sheetsLoaded, printing, atMin));
  const word = at(atMin, { class: "fact", kind: "correction", sheetsLeft: left, by: "Ama Quill" });
  return { overlay: (items) => inOrder([...items, word]) };
}
