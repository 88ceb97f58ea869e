import * as z from "zod";
import type { OpeningView } from "../forecast/sun/boothFrame.ts";
import type { WhyNot } from "../forecast/sun/whyNot.ts";
import { whyNotSite, whyNotViews } from "../forecast/sun/whyNotSite.ts";
import { instant, readLine, type ReadLine } from "./lineReader.ts";

const maybeDegC = z
  .number()
  .nullish()
  .transform((given) => given ?? null);

const opening = z.object({
  bearingDeg: z.number(),
  widthM: z.number(),
  heightM: z.number(),
  sillM: z.number(),
});
const printerPlace = z.object({ depthM: z.number(), rightM: z.number(), heightM: z.number() });

const site = z
  .object({
    kind: z.literal("site"),
    lat: z.number().min(-90).max(90),
    lon: z.number().min(-180).max(180),
    limitC: maybeDegC,
    openings: z.array(opening).default([]),
    /** From the first opening. */
    printer: printerPlace.nullish(),
    /** The day's high out of doors, for when it is not measured. */
    expectedHighC: maybeDegC,
  })
  .transform((line, context) => {
    const views = line.openings.map((each, index): OpeningView => ({
      ...each,
      overhang: null,
      printer: index === 0 ? (line.printer ?? null) : null,
    }));
    const place = { latitudeDeg: line.lat, longitudeDeg: line.lon, horizon: [] };
    const whyNot = whyNotSite(place) ?? whyNotViews(views);
    if (whyNot !== null) context.addIssue({ code: "custom", ...refused(whyNot) });
    const { limitC, expectedHighC } = line;
    return { kind: line.kind, site: { ...place, views, limitC, expectedHighC } };
  });

const lineSchemas = {
  site,
  temp: z.object({
    kind: z.literal("temp"),
    at: instant,
    /** Null: the thermometer gave nothing. */
    insideC: z.number().nullable(),
    outsideC: maybeDegC,
  }),
  ask: z.object({ kind: z.literal("ask"), at: instant }),
};

/** One line of an afternoon that is played again. */
export type HeatLine = z.infer<(typeof lineSchemas)[keyof typeof lineSchemas]>;

/** Reads one line of NDJSON. */
export function readHeatLine(text: string): ReadLine<HeatLine> {
  return readLine<HeatLine>(text, lineSchemas, "site");
}

/** `openings[0].printer.depthM` as the path within the line. */
function refused({ field, why, limit }: WhyNot): { path: (string | number)[]; message: string } {
  const within = field.replace(/^openings\[\d+\]\.printer/, "printer");
  const path = within.split(/[.[\]]+/).filter((part) => part !== "");
  return {
    path: path.map((part) => (/^\d+$/.test(part) ? Number(part) : part)),
    message: limit === null ? why : `${why} (limit ${String(limit)})`,
  };
}
