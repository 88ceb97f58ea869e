import type { BoothEvening } from "@boothward/shared-types";
import { sql, type Kysely } from "kysely";
import { DateTime } from "luxon";
import type { Tables } from "./tables.ts";

type Window = { readonly fromAtMs: number; readonly toAtMs: number };

const quarterMin = 15;

/** Counts over a window of a booth, from its first instant up to but not including its last. */
export function counts(db: Kysely<Tables>) {
  function factsIn(boothId: string, { fromAtMs, toAtMs }: Window) {
    return db
      .selectFrom("fact")
      .where("boothId", "=", boothId)
      .where("atMs", ">=", fromAtMs)
      .where("atMs", "<", toAtMs);
  }

  /** Instants of the sessions and prints that count. */
  async function counted(boothId: string, window: Window): Promise<Counted> {
    const rows = await factsIn(boothId, window)
      .select(["kind", "atMs", "pitches"])
      .where("kind", "in", ["session", "print"])
      .orderBy("atMs")
      .execute();
    const sessions = rows.filter((row) => row.kind === "session");
    const prints = rows.filter((row) => row.kind === "print");
    return { sessions, prints: prints.map(({ atMs, pitches }) => ({ atMs, pitches: pitches ?? 0 })) };
  }

  return {
    /** Sessions and pitches (4x6 lengths) in the window. */
    async ofWindow(boothId: string, window: Window): Promise<{ sessions: number; pitches: number }> {
      const { sessions, prints } = await counted(boothId, window);
      return { sessions: sessions.length, pitches: sumOf(prints) };
    },

    /** The same per quarter-hour by the venue's clock, each from its first instant; quiet ones too. */
    async byQuarter(boothId: string, window: Window, zone: string): Promise<BoothEvening["quarters"]> {
      const { sessions, prints } = await counted(boothId, window);
      return quartersOf(window, zone).map((atMs, index, all) => {
        const toAtMs = all[index + 1] ?? window.toAtMs;
        const isInside = (change: { atMs: number }) => change.atMs >= atMs && change.atMs < toAtMs;
        return {
          atMs,
          sessions: sessions.filter(isInside).length,
          pitches: sumOf(prints.filter(isInside)),
        };
      });
    },

    /** Mean temperature inside per minute, over all of the booth's thermometers. */
    async insideByMinute(boothId: string, { fromAtMs, toAtMs }: Window): Promise<BoothEvening["inside"]> {
      const minute = sql<number>`("atMs" / 60000)`;
      const rows = await db
        .selectFrom("reading")
        .select([minute.as("minute"), sql<number>`avg("insideC")`.as("insideC")])
        .where("boothId", "=", boothId)
        .where("atMs", ">=", fromAtMs)
        .where("atMs", "<", toAtMs)
        .where("insideC", "is not", null)
        .groupBy(minute)
        .orderBy(minute)
        .execute();
      return rows.map((row) => ({ atMs: row.minute * 60_000, insideC: row.insideC }));
    },
  };
}

type Counted = {
  readonly sessions: readonly { readonly atMs: number }[];
  readonly prints: readonly { readonly atMs: number; readonly pitches: number }[];
};

function sumOf(prints: Counted["prints"]): number {
  return prints.reduce((sum, print) => sum + print.pitches, 0);
}

/** First instants of the quarter-hours, by the clock on the venue's wall, that the window touches. */
function quartersOf({ fromAtMs, toAtMs }: Window, zone: string): number[] {
  const first = DateTime.fromMillis(fromAtMs, { zone });
  const begin = first.startOf("minute").minus({ minutes: first.minute % quarterMin });
  const quarters = Math.max(0, Math.ceil((toAtMs - begin.toMillis()) / (quarterMin * 60_000)));
  return Array.from({ length: quarters }, (_, index) =>
    begin.plus({ minutes: index * quarterMin }).toMillis(),
  );
}
