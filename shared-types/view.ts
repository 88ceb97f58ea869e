import * as z from "zod/mini";
import { changeAdvice, rationing, rollsToClose, waits } from "./advice.ts";
import { boothBox, heatAhead, standing, sunStretch } from "./site.ts";
import {
  alertState,
  faultWord,
  health,
  matter,
  mediaFigure,
  pitchBasis,
  printerStateWord,
  printSize,
  sessionBasis,
  severity,
  suppression,
} from "./words.ts";

/**
 * What the page shows of a booth, and the frames of its live socket. Numbers and words of code only:
 * the sentences are made in the page, in the reader's language and the venue's time zone.
 */

const band = z.object({ p10: z.number(), p50: z.number(), p90: z.number() });
const bandOrNull = z.object({
  p10: z.nullable(z.number()),
  p50: z.nullable(z.number()),
  p90: z.nullable(z.number()),
});

/** Sheets left at a later instant, 80 % band. */
export const fanPoint = z.object({ atMs: z.number(), p10: z.number(), p50: z.number(), p90: z.number() });
export type FanPoint = z.infer<typeof fanPoint>;

/** A spell in which the booth could work and nobody came. */
export const idleSpell = z.object({
  sinceAtMs: z.number(),
  /** Sessions that were to be expected in it, by what was known when it began. */
  sessionsExpected: z.number(),
  /** Chance that nobody at all came in it, by the same. */
  noneChance: z.number(),
  basis: z.enum(["learned", "planned", "blind"]),
});
export type IdleSpell = z.infer<typeof idleSpell>;

/** The printer's own pace, and what letting it cool would cost. */
export const printerAhead = z.object({
  /** Seconds a sheet took before and takes lately; null: it does not slow down, or that cannot be seen. */
  slowing: z.nullable(z.object({ isByHeat: z.boolean(), usualS: z.number(), lateS: z.number() })),
  pause: z.object({
    pauseMinutes: z.number(),
    /** Groups that would wait, on average, and when after the pause their line is gone; null: it would stay. */
    cost: z.nullable(z.object({ guestsDelayed: z.number(), clearsInMinutes: z.number() })),
  }),
});
export type PrinterAhead = z.infer<typeof printerAhead>;

/** All forecasts of a booth at one moment. */
export const outlook = z.object({
  atMs: z.number(),
  /** null: no booking, or nothing known of the media. */
  media: z.nullable(
    z.object({
      /** Sheets an hour, lately. */
      sheetsPerHour: z.number(),
      /** Sheets left from now to the close. */
      fan: z.array(fanPoint),
      /** When the loaded roll is empty; null: not before the close. */
      emptyAtMs: bandOrNull,
      /** Sheets left at the close; below 0 it falls short by that much. */
      leftAtClose: band,
      /** Chance that the loaded roll lasts to the close. */
      lastsChance: z.number(),
      /** What it was made from: this evening and earlier ones of its kind, this evening's plan, or neither. */
      basis: z.enum(["learned", "planned", "blind"]),
      /** null: the roll lasts, so nothing is to be weighed. */
      change: z.nullable(changeAdvice),
      /** null: paper lasts without it, or sessions take one print already. */
      rationing: z.nullable(rationing),
      rolls: rollsToClose,
      waits: z.nullable(waits),
    }),
  ),
  /** One for each thermometer that is heard, the one that threatens most first. */
  heat: z.array(heatAhead),
  /** Sun on the printer this booking's day; null: it is not known how the booth stands. */
  sun: z.nullable(z.array(sunStretch)),
  /** How unusual it is that nobody comes; null: somebody came lately, or nothing was to be expected. */
  idle: z._default(z.nullable(idleSpell), null),
  /** null: not open, or nothing known of the media. */
  printer: z._default(z.nullable(printerAhead), null),
});
export type Outlook = z.infer<typeof outlook>;

/** One point of the evening: sheets left at this instant. */
export const leftPoint = z.object({ atMs: z.number(), sheetsLeft: z.number() });
export type LeftPoint = z.infer<typeof leftPoint>;

/** "Did you fit a new roll at 19:52?" (`fitted`), or "How many sheets are left?" (`left`). */
export const mediaQuestion = z.object({
  ask: z.enum(["fitted", "left"]),
  /** When the roll may have been fitted, or since when meter and count disagree. */
  atMs: z.number(),
  /** Sheets the roll would have held then; for `left` what the meter says now, null where nothing does. */
  sheets: z.nullable(z.number()),
});
export type MediaQuestion = z.infer<typeof mediaQuestion>;

/** A person's word about the paper. `bootId` and `seq` name the fact, to take it back. */
export const saidFact = z.object({
  bootId: z.string(),
  seq: z.number(),
  kind: z.enum(["rollFitted", "rollTakenOff", "correction", "waste", "rollDenied"]),
  atMs: z.number(),
  /** Sheets fitted, left, or wasted; null where none were said. */
  sheets: z.nullable(z.number()),
  by: z.nullable(z.string()),
  isTakenBack: z.boolean(),
});
export type SaidFact = z.infer<typeof saidFact>;

/** Two sources that disagree by more than they may. */
export const countDifference = z.object({
  quantity: z.enum(["sessions", "pitches"]),
  counted: z.number(),
  other: z.number(),
  otherBy: z.string(),
  sinceAtMs: z.number(),
});
export type CountDifference = z.infer<typeof countDifference>;

/** What was counted, each by the best source there is. */
export const tally = z.object({
  sessions: z.number(),
  pitches: z.number(),
  /** What each was counted by; null: nothing counts it. */
  sessionsBy: z.nullable(sessionBasis),
  pitchesBy: z.nullable(pitchBasis),
  /** Prints of no session: in open hours reprints, outside them tests. */
  reprints: z.number(),
  testPitches: z.number(),
  /** Sessions without a print. */
  digitalOnly: z.number(),
  /** null: the sources agree. */
  difference: z.nullable(countDifference),
});
export type Tally = z.infer<typeof tally>;

/** A figure of an alert: null where unknown or beside the matter, and in alerts of before it was known. */
const figure = z._default(z.nullable(z.number()), null);
const word = z._default(z.nullable(z.string()), null);

/**
 * Whatever figures an alert's sentence needs, a line each: rules fill them in, alerts carry them, the store keeps
 * them, pages show them, all from this list.
 */
export const alertFigures = {
  /** Latest moment to act. */
  byAtMs: figure,
  /** printerStopped: IPP keywords without suffix, worst first. */
  reasons: z._default(z.array(z.string()), []),
  sheetsLeft: figure,
  emptyAtMs: figure,
  spareRolls: figure,
  queuedJobs: figure,
  insideC: figure,
  limitC: figure,
  /** sparesShort: whole rolls needed beside the loaded one. */
  rollsNeeded: figure,
  /** countDoubtful: what to ask at the booth. */
  question: z._default(z.nullable(mediaQuestion), null),
  /** countsDiffer: what two sources say. */
  difference: z._default(z.nullable(countDifference), null),
  /** tooHot: chance of passing the limit within the hour. sunComing: until when the sun stays on the printer. */
  crossChance60: figure,
  untilAtMs: figure,
  /** printerUnseen: why its source has no value; null: it says nothing at all. */
  fault: z._default(z.nullable(faultWord), null),
  /** What is gone, as it is called at the booth. */
  partName: word,
  /** condensation: the case and the air's dew point; how long to wait, null: it does not dry in this air. */
  caseC: figure,
  dewPointC: figure,
  waitMin: figure,
  /** heatForGuests: in the shade, and with what full sun may add; null: no sun falls in. */
  heatIndexC: figure,
  feelsC: figure,
  /** onBattery; minutes null: not known yet. */
  batteryPct: figure,
  batteryMin: figure,
  /** diskShort: free, and what the rest of the night may need. */
  diskFreeMb: figure,
  diskNeededMb: figure,
  /** clockOff: positive when the clock is behind; null: it cannot be told by how much. */
  clockOffMs: figure,
  /** boothIdle: sessions expected since, by the evening so far. overrun: sessions since the close. */
  sessionsExpected: figure,
  sessionsCounted: figure,
  /** wrongPrintSize: what comes out, and what was booked. */
  printSize: word,
  printSizes: z._default(z.array(printSize), []),
  /** sleepOn */
  sleepsAfterMin: figure,
};

/** An open alert as the page shows it; the words are made from `matter` and the figures. */
export const alertView = z.object({
  alertId: z.string(),
  boothId: z.string(),
  matter,
  severity,
  /** When the matter itself began (from state), not when it was noticed. */
  sinceAtMs: z.number(),
  ...alertFigures,
  state: alertState,
  /** Who said "I'm on it", and when; null: nobody has. */
  taken: z.nullable(z.object({ by: z.string(), atMs: z.number() })),
  /** "Later": asked again then. */
  laterUntilAtMs: z.nullable(z.number()),
  /** When "Done" was said of what is not seen to be over yet. */
  doneAtMs: z.nullable(z.number()),
  /** suppressed: why. */
  suppressedBy: z.nullable(suppression),
  /** returnedUnacknowledged: since when the matter is over. */
  overAtMs: z.nullable(z.number()),
});
export type AlertView = z.infer<typeof alertView>;

export const boothView = z.object({
  boothId: z.string(),
  name: z.string(),
  /** A trailer stands outside, in the sun. */
  isTrailer: z.boolean(),
  /** Sheets in a full kit of the one media the business uses. */
  kitSheets: z.number(),
  limitC: z.number(),
  /** null: nobody measured it. */
  box: z.nullable(boothBox),
  /** Name of the invented event day it plays; null on a real booth. Shown wherever it is not null. */
  scenario: z.nullable(z.string()),
  health,
  /** True time of the last frame from the agent; null: never heard. */
  heardAtMs: z.nullable(z.number()),
  isLinked: z.boolean(),
  booking: z.nullable(
    z.object({
      bookingId: z.string(),
      client: z.string(),
      place: z.string(),
      eventKind: z.string(),
      zone: z.string(),
      openAtMs: z.number(),
      closeAtMs: z.number(),
      guests: z.nullable(z.number()),
      latitudeDeg: z.nullable(z.number()),
      longitudeDeg: z.nullable(z.number()),
      standing,
      spareRolls: z.number(),
      attendant: z.nullable(z.string()),
      /** Sunset at the venue on the event's day; null: place unknown, or no sunset there. */
      sunsetAtMs: z.nullable(z.number()),
    }),
  ),
  media: z.nullable(
    z.object({
      sheetsLeft: z.number(),
      /** The range the figure may lie in; both the figure itself when meter and count agree. */
      lowSheets: z.number(),
      highSheets: z.number(),
      figure: mediaFigure,
      /** Who confirmed it; null where nobody did. */
      confirmedBy: z.nullable(z.string()),
      /** When the figure was last seen or counted. */
      atMs: z.number(),
      rollFittedAtMs: z.nullable(z.number()),
      /** Spares aboard: the plan's, less the rolls fitted; null without a booking. */
      spareRolls: z.nullable(z.number()),
      /** Sheets on each roll that came off before its end and is still aboard, newest first. */
      partialRolls: z.array(z.number()),
      /** The one thing to ask the attendant when meter and count disagree; null: nothing. */
      question: z.nullable(mediaQuestion),
      /** What people said about the paper this booking, newest first, at most ten; each can be taken back. */
      said: z.array(saidFact),
    }),
  ),
  printer: z.nullable(
    z.object({
      state: z.nullable(printerStateWord),
      /** Keywords as sent, suffix kept. */
      reasons: z.array(z.string()),
      sinceAtMs: z.number(),
      queuedJobs: z.nullable(z.number()),
      /** Jobs wait and no sheet was finished since then, though the printer does not say it stopped; null: not so. */
      stalledSinceAtMs: z.nullable(z.number()),
    }),
  ),
  inside: z.nullable(
    z.object({
      insideC: z.number(),
      atMs: z.number(),
      /** Change over the last quarter of an hour; null: not seen so long. */
      per15MinC: z.nullable(z.number()),
      outsideC: z.nullable(z.number()),
      humidityPct: z.nullable(z.number()),
    }),
  ),
  power: z.nullable(
    z.object({ isOnMains: z.boolean(), batteryPct: z.nullable(z.number()), sinceAtMs: z.number() }),
  ),
  /** Of the present booking. */
  counts: tally,
  /** Sheets left so far this booking, thinned for drawing; roll changes are steps up. */
  past: z.array(leftPoint),
  rollChangesAtMs: z.array(z.number()),
  outlook,
  alerts: z.array(alertView),
  /** Sources that have no value, and why. */
  faults: z.array(
    z.object({
      source: z.string(),
      fault: faultWord,
      detail: z.nullable(z.string()),
      sinceAtMs: z.number(),
    }),
  ),
  /** How far the booth computer's wall clock is from true time, ms (positive: it is behind); null unknown. */
  clockOffMs: z.nullable(z.number()),
  /** Items from this booth that could not be read and were kept aside. */
  keptAside: z.number(),
});
export type BoothView = z.infer<typeof boothView>;

/** What the paper would do if the close moved, or each session took one print from now on. */
export const whatIf = z.object({
  /** Minutes past the booked close: 0, 15, ... 120. */
  extraMin: z.number(),
  isOnePrint: z.boolean(),
  lastsChance: z.number(),
  emptyAtMs: bandOrNull,
  leftAtClose: band,
  rolls: rollsToClose,
  /** Whole sheets, at most 40 points. */
  fan: z.array(fanPoint),
});
export type WhatIf = z.infer<typeof whatIf>;

/** More of one booth, fetched when its page is opened and again as it changes. */
export const boothEvening = z.object({
  boothId: z.string(),
  fromAtMs: z.number(),
  toAtMs: z.number(),
  /** One-minute means. */
  inside: z.array(z.object({ atMs: z.number(), insideC: z.number() })),
  /** Local quarter-hours of the venue, whole evening; only those that have begun. */
  quarters: z.array(z.object({ atMs: z.number(), sessions: z.number(), pitches: z.number() })),
  /** Stretches in which the printer could not print. */
  stops: z.array(z.object({ fromAtMs: z.number(), toAtMs: z.nullable(z.number()), reason: z.string() })),
  /** The same evening an hour longer, or with one print a session; empty: nothing can be forecast. */
  whatIfs: z.array(whatIf),
});
export type BoothEvening = z.infer<typeof boothEvening>;

/** What is wrong with the dashboard itself, and since when; null: nothing. */
export const ownFrame = z.object({
  uplinkDownFromAtMs: z.nullable(z.number()),
  clockSteppedAtMs: z.nullable(z.number()),
});
export type OwnFrame = z.infer<typeof ownFrame>;

/**
 * From dashboard to page. `nowMs` lets the page set its clock by the dashboard's. A `beat` says only that
 * the dashboard is there, so that a page can tell a quiet evening from a dead line.
 */
export const liveFrame = z.discriminatedUnion("kind", [
  z.object({ kind: z.literal("all"), nowMs: z.number(), booths: z.array(boothView) }),
  z.object({ kind: z.literal("booth"), nowMs: z.number(), booth: boothView }),
  z.object({ kind: z.literal("gone"), nowMs: z.number(), boothId: z.string() }),
  z.object({ kind: z.literal("beat"), nowMs: z.number() }),
  z.object({ kind: z.literal("own"), nowMs: z.number(), own: ownFrame }),
]);
export type LiveFrame = z.infer<typeof liveFrame>;
