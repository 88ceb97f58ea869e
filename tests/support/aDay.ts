import { noStanding } from "@boothward/shared-types";
import type { Day, DayBooth } from "../../seeds/day.ts";

/** A quiet booth of an invented day; parts that a test is about are given. */
export function aDayBooth(parts: Partial<DayBooth> = {}): DayBooth {
  return {
    name: "Fern",
    isTrailer: false,
    kitSheets: 400,
    limitC: 40,
    box: null,
    booking: aDayBooking(),
    guests: { perHour: [[-120, 30]], poseS: [40, 60], turnS: 20 },
    prints: { perSheetS: 12, copies: [[2, 1]], pitchesACopy: 1, queue: "fern-prints" },
    meter: { kind: "sheets" },
    air: {
      sensor: "inside",
      startC: 22,
      outsideC: [[0, 20]],
      ownHeatC: 6,
      sunC: [[0, 0]],
      settleMin: 30,
      isOutsideRead: false,
    },
    saysRolls: true,
    incidents: [],
    ...parts,
  };
}

export function aDayBooking(parts: Partial<DayBooth["booking"]> = {}): DayBooth["booking"] {
  return {
    client: "Somebody",
    place: "Somewhere",
    eventKind: "party",
    guests: 100,
    attendant: "Ama Quill",
    openMin: -120,
    closeMin: 120,
    sheetsLoaded: 400,
    spareRolls: 1,
    standing: noStanding,
    ...parts,
  };
}

export function aDay(booths: readonly DayBooth[] = [aDayBooth()]): Day {
  return { name: "An invented day", startMin: -150, atOnce: [], booths: [...booths] };
}
