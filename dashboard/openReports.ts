import {
  report,
  reportCorrection,
  reportRow,
  businessSettings,
  type Booking,
  type BusinessSettings,
  type Clock,
  type Report,
  type ReportCorrection,
  type ReportHistory,
  type ReportRow,
} from "@boothward/shared-types";
import type { Logger } from "pino";
import * as z from "zod";
import { setImmediate as everythingElse } from "node:timers/promises";
import { besides, stretchOf } from "./pastEvenings.ts";
import { alertsMet, type AlertKept } from "./reports/alertsMet.ts";
import { eventReport } from "./reports/eventReport.ts";
import { reportRowOf, seasonTotals } from "./reports/seasonTotals.ts";
import type { Stretch } from "./reports/stretches.ts";
import { withCorrectedRow, withMore } from "./reports/withMore.ts";
import { alertOf } from "./storedAlert.ts";
import type { Booth } from "./store/booths.ts";
import type { Store } from "./store/openStore.ts";
import { remembered } from "./store/remembered.ts";
import type { ReportCorrectionRow } from "./store/tables.ts";

/** The reports of all bookings, counted when they are asked for, and kept once the evening is over. */
export type Reports = {
  of(bookingId: string, nowMs: number): Promise<Report | "noSuchBooking" | "nothingYet">;
  /** Evenings that opened within a stretch and are over, the latest first. */
  history(
    opened: { readonly fromAtMs: number; readonly toAtMs: number },
    nowMs: number,
  ): Promise<ReportHistory>;
  business(): Promise<BusinessSettings>;
  /** Counts evenings that have closed since it last looked, so that their reports are made before they are asked for. */
  tick(): Promise<void>;
  /** Resolves when nothing is being counted in the background. */
  settled(): Promise<void>;
  close(): Promise<void>;
};

/** Raised when the same facts give other figures: kept reports of before are counted anew. */
const countedAs = 1;

/** By then nothing of the report depends on the present any more. */
const settledAfterMs = 10 * 60_000;

/** So often evenings that have closed are looked for. */
const lookEveryMs = 60_000;

/** Several seasons' worth. */
const mostRead = 5_000;

/** So many are counted before an answer; more of them in the background. */
const countedAtOnce = 3;

const emptyBusiness: BusinessSettings = {
  ...{ name: "", logo: null, paper: "a4", pricePerRoll: null, currency: "EUR" },
};

const summaryBody = z.nullable(reportRow);
const reportBody = z.nullable(report);

/** A booking with what its report is made of beside its facts. */
type Asked = { readonly booking: Booking; readonly near: readonly Booking[]; readonly booth: Booth };

export function openReports(options: {
  readonly store: Store;
  readonly clock: Clock;
  readonly log: Logger;
}): Reports {
  const { store, clock, log } = options;
  /** Lines of the history by their text, parsed once. */
  const summaries = remembered((text) => summaryBody.parse(JSON.parse(text)), mostRead);
  let waiting: Asked[] = [];
  let counting: Promise<void> | null = null;
  let isClosed = false;
  let lookedMonoMs = -Infinity;

  /** Counts an evening from its facts, and keeps it if it is over. */
  async function count(asked: Asked, nowMs: number): Promise<Report | null> {
    const { booking, near, booth } = asked;
    const { bookingId, boothId } = booking;
    const stretch = stretchOf(booking);
    const mark = await store.reports.mark(boothId, stretch);
    const counted = eventReport({
      ...{ bookingId, near, settings: booth, nowMs },
      facts: await store.reports.facts(boothId, stretch),
      heard: await store.reports.heard(boothId, stretch),
      inside: await store.reports.insideMinutes(boothId, stretch),
    });
    const closedAtMs = counted?.client.closeAtMs ?? booking.closeAtMs;
    if (nowMs >= closedAtMs + settledAfterMs) {
      const summary = JSON.stringify(counted && reportRowOf(counted));
      const made = { madeOf: madeOf(asked), summary, body: JSON.stringify(counted) };
      await store.reports.keep({ bookingId, boothId, ...stretch, ...made }, mark);
    }
    return counted;
  }

  async function keptOrCounted(asked: Asked, nowMs: number): Promise<Report | null> {
    const kept = await store.reports.kept(asked.booking.bookingId);
    if (kept?.madeOf === madeOf(asked)) return reportBody.parse(JSON.parse(kept.body));
    return count(asked, nowMs);
  }

  async function business(): Promise<BusinessSettings> {
    return (await store.settings.get("business", businessSettings)) ?? emptyBusiness;
  }

  /** Bookings whose report changes no more by itself. */
  async function overAt(nowMs: number): Promise<Asked[]> {
    const all = await askedOf(store);
    return all.filter(({ booking }) => nowMs >= booking.closeAtMs + settledAfterMs);
  }

  /** What of these is kept, and what has to be counted. */
  async function lookUp(all: readonly Asked[]) {
    const kept = new Map((await store.reports.summaries()).map((row) => [row.bookingId, row]));
    const rows: ReportRow[] = [];
    const missing: Asked[] = [];
    for (const asked of all) {
      const found = kept.get(asked.booking.bookingId);
      if (found?.madeOf !== madeOf(asked)) missing.push(asked);
      else rows.push(...someOf(summaries.of(found.summary)));
    }
    return { rows, missing };
  }

  function countInBackground(all: readonly Asked[]): void {
    waiting = [...all];
    if (isClosed) return;
    counting ??= countWaiting()
      .catch((error: unknown) => log.error({ err: error }, "reports could not be counted"))
      .finally(() => (counting = null));
  }

  /** One after the other; between two everything else goes first. */
  async function countWaiting(): Promise<void> {
    for (let asked = waiting.shift(); asked !== undefined && !isClosed; asked = waiting.shift()) {
      await count(asked, clock().wallMs);
      await everythingElse();
    }
  }

  return {
    async of(bookingId, nowMs) {
      const asked = await askedFor(store, bookingId);
      if (asked === null) return "noSuchBooking";
      const counted = await keptOrCounted(asked, nowMs);
      if (counted === null) return "nothingYet";
      const { openAtMs, closeAtMs } = counted.client;
      const around = { fromAtMs: openAtMs - aroundMs, toAtMs: closeAtMs + aroundMs };
      return withMore(counted, {
        corrections: (await store.reports.corrections(bookingId)).map(correctionOf),
        alerts: alertsMet(await alertsAround(asked.booking.boothId, around), around),
        prices: await business(),
      });
    },

    async history({ fromAtMs, toAtMs }, nowMs) {
      const over = (await overAt(nowMs)).filter(
        ({ booking }) => booking.openAtMs >= fromAtMs && booking.openAtMs < toAtMs,
      );
      const { rows, missing } = await lookUp(over);
      for (const asked of missing.slice(0, countedAtOnce)) {
        const counted = await count(asked, nowMs);
        if (counted?.client.isOver === true) rows.push(reportRowOf(counted));
      }
      const later = missing.slice(countedAtOnce);
      if (later.length > 0) countInBackground(later);
      const shown = await corrected(rows);
      shown.sort((a, b) => b.openAtMs - a.openAtMs || (a.boothName < b.boothName ? -1 : 1));
      return { rows: shown, totals: seasonTotals(shown), waiting: later.length };
    },

    business,
    async tick() {
      const { wallMs, monoMs } = clock();
      if (monoMs - lookedMonoMs < lookEveryMs || counting !== null) return;
      lookedMonoMs = monoMs;
      const kept = await store.reports.madeOf();
      const missing = (await overAt(wallMs)).filter(
        (asked) => kept.get(asked.booking.bookingId) !== madeOf(asked),
      );
      if (missing.length > 0) countInBackground(missing);
    },
    async settled() {
      while (counting !== null) await counting;
    },
    async close() {
      isClosed = true;
      await counting;
    },
  };

  /** Alerts with their history and with who was told. */
  async function alertsAround(boothId: string, around: Stretch): Promise<AlertKept[]> {
    const alerts = (await store.reports.alertsRaised(boothId, around)).map(alertOf);
    const ids = alerts.map(({ alertId }) => alertId);
    const [steps, told] = [await store.alerts.stepsOf(ids), await store.notices.ofAlerts(ids)];
    const isOf = (alertId: string) => (each: { readonly alertId: string | null }) => each.alertId === alertId;
    return alerts.map((alert) => {
      const isIts = isOf(alert.alertId);
      return { ...alert, steps: steps.filter(isIts), told: told.filter(isIts) };
    });
  }

  async function corrected(rows: readonly ReportRow[]): Promise<ReportRow[]> {
    const byBooking = new Map<string, ReportCorrection[]>();
    for (const row of await store.reports.corrections(null))
      byBooking.set(row.bookingId, [...(byBooking.get(row.bookingId) ?? []), correctionOf(row)]);
    return rows.map((row) => withCorrectedRow(row, byBooking.get(row.bookingId) ?? []));
  }
}

/** Alerts of setting up and packing down belong to the evening. */
const aroundMs = 2 * 3_600_000;

async function askedFor(store: Store, bookingId: string): Promise<Asked | null> {
  const booking = await store.bookings.byId(bookingId);
  const booth = booking === null ? null : await store.booths.byId(booking.boothId);
  if (booking === null || booth === null) return null;
  return { booking, booth, near: besides(booking, await store.bookings.ofBooth(booking.boothId)) };
}

/** All bookings, each with its booth and its neighbours there. */
async function askedOf(store: Store): Promise<Asked[]> {
  const booths = new Map((await store.booths.all()).map((booth) => [booth.boothId, booth]));
  const byBooth = new Map<string, Booking[]>();
  for (const booking of await store.bookings.all()) {
    const own = byBooth.get(booking.boothId) ?? [];
    own.push(booking);
    byBooth.set(booking.boothId, own);
  }
  return [...byBooth].flatMap(([boothId, own]) => {
    const booth = booths.get(boothId);
    if (booth === undefined) return [];
    return own.map((booking, at) => ({ booking, booth, near: own.slice(Math.max(0, at - 1), at + 2) }));
  });
}

function madeOf({ near, booth }: Asked): string {
  return JSON.stringify([countedAs, near, booth.name, booth.kitSheets, booth.limitC]);
}

function correctionOf({ field, was, is, why, by, atMs }: ReportCorrectionRow): ReportCorrection {
  return reportCorrection.parse({ field, was, is, why, by, atMs });
}

function someOf<T>(found: T | null): T[] {
  return found === null ? [] : [found];
}
