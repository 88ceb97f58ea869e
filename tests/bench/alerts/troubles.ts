import type { NewItem } from "@boothward/shared-types";
import type { DayBooth } from "../../../seeds/day.ts";
import { between, type Dice } from "../../../seeds/dice.ts";
import type { ScenarioItem } from "../../../seeds/scenarioLine.ts";
import { heightAt } from "../../../seeds/shape.ts";
import { sunAt } from "../../../dashboard/forecast/sun/sunPosition.ts";
import { trailerAir } from "./drawBooth.ts";
import { minuteMs, overlaps, type Evening, type Overlay, type Span, type Truth } from "./evening.ts";

/** An evening while troubles are being added. */
export type Drawn = Pick<Evening, "booth" | "overlays" | "silences" | "truths"> & {
  readonly headingDeg: number;
};

/** One thing that goes wrong, somewhere in its hour. */
export type Trouble = {
  readonly where: "anywhere" | Evening["kind"];
  readonly happens: (drawn: Drawn, slot: Span, dice: Dice) => Drawn;
};

/** Everything that may go wrong, by name. */
export const troubles: Readonly<Record<string, Trouble>> = {
  jam: anywhere((drawn, slot, dice) => stopped(drawn, slot, between(dice, 4, 12), dice)),
  "door left open": anywhere((drawn, slot, dice) => {
    const lengthMin = between(dice, 5, 10);
    return withOverlay(
      stopped(drawn, slot, lengthMin, dice),
      reworded(slot, "stopped", ["cover-open-warning"]),
    );
  }),
  "silent driver": anywhere((drawn, slot, dice) =>
    withOverlay(stopped(drawn, slot, between(dice, 6, 12), dice), reworded(slot, "processing", [])),
  ),
  "printer out of sight": anywhere((drawn, slot, dice) => {
    const span = within(slot, between(dice, 4, 15), dice);
    return withTruth(withOverlay(drawn, outOfSight(span)), {
      ...span,
      matter: "printerUnseen",
      severity: "actNow",
    });
  }),
  "on battery": anywhere((drawn, slot, dice) => {
    const span = within(slot, between(dice, 20, 45), dice);
    const [fromPct, perMin] = [between(dice, 60, 98), between(dice, 0.5, 1.3)];
    const overlay = onBattery(span, (min) => Math.max(3, Math.round(fromPct - perMin * min)));
    return withTruth(withOverlay(drawn, overlay), { ...span, matter: "onBattery", severity: "plan" });
  }),
  "camera gone": anywhere((drawn, slot, dice) => {
    const span = within(slot, between(dice, 4, 12), dice);
    const gone = withOverlay(withoutGuests(drawn, span), peerGone("camera", span));
    return withTruth(gone, { ...span, matter: "cameraGone", severity: "actNow" });
  }),
  "tablet gone": anywhere((drawn, slot, dice) => {
    const span = within(slot, between(dice, 10, 30), dice);
    return withTruth(withOverlay(drawn, peerGone("tablet", span)), {
      ...span,
      matter: "tabletGone",
      severity: "plan",
    });
  }),
  // The agent goes on over a telephone's hotspot; what is behind the router is gone with it.
  "router gone": anywhere((drawn, slot, dice) => {
    const span = within(slot, between(dice, 8, 20), dice);
    const behind = { fromMin: span.fromMin + 0.3, toMin: span.toMin + 0.5 };
    const overlays = [peerGone("router", span), peerGone("tablet", behind), peerGone("uplink", behind)];
    const gone = overlays.reduce(withOverlay, drawn);
    return withTruth(gone, { ...span, matter: "routerGone", severity: "plan" });
  }),
  "agent silent": anywhere((drawn, slot, dice) => {
    const span = within(slot, between(dice, 7, 25), dice);
    const silent = { ...drawn, silences: [...drawn.silences, span] };
    return withTruth(silent, { ...span, matter: "agentSilent", severity: "actNow" });
  }),
  "nobody comes": anywhere((drawn, slot, dice) => {
    const span = within(slot, between(dice, 50, 60), dice);
    const isSlight = partiesIn(drawn.booth, span) < manyParties;
    const truth = {
      ...span,
      fromMin: span.fromMin + 30,
      matter: "boothIdle",
      severity: "plan",
      isSlight,
    } as const;
    return withTruth(withoutGuests(drawn, span), truth);
  }),
  // The roll runs out, is changed, and nobody says so.
  "roll not said": {
    where: "indoors",
    happens: (drawn) => ({
      ...drawn,
      booth: {
        ...drawn.booth,
        ...{ meter: null, saysRolls: false },
        booking: { ...drawn.booth.booking, sheetsLoaded: 40 },
      },
    }),
  },
  "too few rolls": anywhere((drawn) => {
    const { booth } = drawn;
    const kitSheets = booth.prints.pitchesACopy === 2 ? 100 : 60;
    return {
      ...drawn,
      booth: { ...booth, kitSheets, booking: { ...booth.booking, sheetsLoaded: kitSheets, spareRolls: 1 } },
    };
  }),
  "hot afternoon": {
    where: "trailer",
    happens: (drawn, _slot, dice) => ({
      ...drawn,
      booth: { ...drawn.booth, air: trailerAir(dice, between(dice, 8, 16)) },
    }),
  },
  // The opening, on the right, looks to where the sun will stand in the middle of the hour.
  "sun on the printer": {
    where: "trailer",
    happens: (drawn, slot, dice) => {
      const atMs = Date.UTC(2026, 5, 20, 12) + ((slot.fromMin + slot.toMin) / 2) * minuteMs;
      const { azimuthDeg } = sunAt({ latitudeDeg: 51.5, longitudeDeg: 0 }, atMs);
      return { ...drawn, headingDeg: (azimuthDeg - 90 + between(dice, -10, 10) + 360) % 360 };
    },
  },
};

function anywhere(happens: Trouble["happens"]): Trouble {
  return { where: "anywhere", happens };
}

/** A stretch of this length somewhere in the hour. */
function within({ fromMin, toMin }: Span, lengthMin: number, dice: Dice): Span {
  const from = between(dice, fromMin, Math.max(fromMin, toMin - lengthMin));
  return { fromMin: from, toMin: from + lengthMin };
}

/** The printer stops while its next sheet is fed; the simulation of the printer says when that is. */
function stopped(drawn: Drawn, { fromMin, toMin }: Span, forMin: number, dice: Dice): Drawn {
  const atMin = between(dice, fromMin, Math.max(fromMin, toMin - forMin - 10));
  return withIncident(drawn, { kind: "jam", atMin, forMin });
}

export function withIncident(drawn: Drawn, incident: DayBooth["incidents"][number]): Drawn {
  return { ...drawn, booth: { ...drawn.booth, incidents: [...drawn.booth.incidents, incident] } };
}

export function withOverlay(drawn: Drawn, overlay: Overlay): Drawn {
  return { ...drawn, overlays: [...drawn.overlays, overlay] };
}

export function withTruth(drawn: Drawn, truth: Truth): Drawn {
  return { ...drawn, truths: [...drawn.truths, truth] };
}

/** Fewer than these nobody misses for an hour. */
const manyParties = 12;

function partiesIn({ guests }: DayBooth, { fromMin, toMin }: Span): number {
  return (heightAt(guests.perHour, (fromMin + toMin) / 2) * (toMin - fromMin)) / 60;
}

function withoutGuests(drawn: Drawn, { fromMin, toMin }: Span): Drawn {
  const { guests } = drawn.booth;
  const heightNear = (atMin: number) => heightAt(guests.perHour, atMin);
  const outside = guests.perHour.filter(([min]) => min < fromMin || min > toMin);
  const edges = [
    ...([
      [fromMin, heightNear(fromMin)],
      [fromMin + 0.1, 0],
      [toMin - 0.1, 0],
      [toMin, heightNear(toMin)],
    ] as const),
  ];
  const perHour = [...outside, ...edges.map(([min, high]) => [min, high] as [number, number])].sort(
    (a, b) => a[0] - b[0],
  );
  return { ...drawn, booth: { ...drawn.booth, guests: { ...guests, perHour } } };
}

/** The simulation's jams of an hour, in other words of the printer's. */
export function reworded(slot: Span, state: "stopped" | "processing", reasons: string[]): Overlay {
  return (items) =>
    items.map((line) => {
      const { atMs, item } = line;
      if (item.kind !== "printerState" || !isIn(slot, atMs) || !item.reasons.includes("media-jam-error"))
        return line;
      return { atMs, item: { ...item, state, reasons, message: null } };
    });
}

function isIn({ fromMin, toMin }: Span, atMs: number): boolean {
  return atMs >= fromMin * minuteMs && atMs < toMin * minuteMs;
}

/** The printer's source has no value for a while; what was printed meanwhile is seen when it has one again. */
export function outOfSight(span: Span): Overlay {
  const kinds: ReadonlySet<string> = new Set(["printerState", "queue", "media", "print"]);
  return (items) => {
    const hidden = items.filter(({ atMs, item }) => kinds.has(item.kind) && isIn(span, atMs));
    const shown = items.filter((line) => !hidden.includes(line));
    const lastOf = (kind: string) => hidden.findLast(({ item }) => item.kind === kind)?.item;
    const told = [
      ...hidden.filter(({ item }) => item.kind === "print").map(({ item }) => item),
      ...["printerState", "queue", "media"].flatMap((kind) => lastOf(kind) ?? []),
    ];
    return inOrder([
      ...shown,
      at(span.fromMin, { class: "fact", kind: "sourceState", fault: "unreachable", detail: null }),
      at(span.toMin, { class: "fact", kind: "sourceState", fault: null, detail: null }),
      ...told.map((item) => at(span.toMin, item)),
    ]);
  };
}

export function onBattery(span: Span, pctAt: (min: number) => number): Overlay {
  const power = (isOnMains: boolean, min: number): NewItem => ({
    ...{ class: "fact", kind: "power", isOnMains, batteryPct: pctAt(min) },
  });
  return (items) =>
    inOrder([
      ...items.map((line) => {
        const { atMs, item } = line;
        if (item.kind !== "host" || !isIn(span, atMs)) return line;
        return { atMs, item: { ...item, batteryPct: pctAt(atMs / minuteMs - span.fromMin) } };
      }),
      at(span.fromMin, power(false, 0)),
      at(span.toMin, power(true, span.toMin - span.fromMin)),
    ]);
}

type Part = Extract<NewItem, { kind: "peer" }>["part"];

export function peerGone(part: Part, span: Span): Overlay {
  const peer = (isThere: boolean): NewItem => ({ class: "fact", kind: "peer", part, isThere, name: part });
  return (items) => inOrder([...items, at(span.fromMin, peer(false)), at(span.toMin, peer(true))]);
}

export function at(min: number, item: NewItem): ScenarioItem {
  return { atMs: Math.round(min * minuteMs), item };
}

/** By time; of one moment in the order told. */
export function inOrder(items: readonly ScenarioItem[]): ScenarioItem[] {
  return [...items].sort((a, b) => a.atMs - b.atMs);
}

/** Whether a stretch touches an hour that has its trouble. */
export function isFree(span: Span, taken: readonly Span[]): boolean {
  return taken.every((slot) => !overlaps(slot, span));
}
