import * as z from "zod/mini";

/**
 * A booth and its site as the sun meets them. One frame per booth: the origin is the rear left corner of the floor,
 * x runs to the right, y forward along the heading, heights from the floor, all in metres.
 */

const lengthM = z.number().check(z.gte(0), z.lte(30));
const placeM = z.number().check(z.gte(-1), z.lte(30));

/** Degrees round the circle; a bearing of 725 is a slip of the hand and no direction. */
const bearingDeg = z.number().check(z.gte(-180), z.lte(360));

export const opening = z.object({
  xM: placeM,
  yM: placeM,
  /** Where it looks, relative to the heading. */
  bearingDeg,
  widthM: lengthM,
  heightM: lengthM,
  sillM: lengthM,
  overhang: z.nullable(z.object({ depthM: lengthM, heightM: lengthM })),
});

/** Without the heading: that belongs to where the booth stands. */
export const boothBox = z.object({
  widthM: lengthM,
  lengthM: lengthM,
  heightM: lengthM,
  openings: z.array(opening).check(z.minLength(1), z.maxLength(12)),
  printer: z.object({ xM: placeM, yM: placeM, heightM: lengthM }),
});
export type BoothBox = z.infer<typeof boothBox>;

/** What stands up around the site: joined by straight lines from azimuth to azimuth. */
export const horizonPoint = z.object({
  azimuthDeg: bearingDeg,
  elevationDeg: z.number().check(z.gte(-10), z.lte(89)),
});

/** How the booth stands at a venue. */
export const standing = z.object({
  /** From true north; null: not known. */
  headingDeg: z.nullable(bearingDeg),
  horizon: z.array(horizonPoint).check(z.maxLength(72)),
  /** The day's high out of doors, as forecast. */
  expectedHighC: z.nullable(
    z
      .number()
      .check(
        z.gte(-40, "is colder than any place for an event"),
        z.lte(55, "is hotter than any place for an event; was it Fahrenheit?"),
      ),
  ),
});
export type Standing = z.infer<typeof standing>;

/** Nothing known of how it stands. */
export const noStanding: Standing = { headingDeg: null, horizon: [], expectedHighC: null };

/** The next hour at one thermometer. */
export const heatAhead = z.object({
  sensor: z.string(),
  /** `notEnoughData`: the band is wide, and no page makes it a forecast. */
  basis: z.enum(["enoughData", "notEnoughData"]),
  /** From now on in steps of five minutes for an hour, C. */
  fan: z.array(z.object({ atMs: z.number(), p10: z.number(), p50: z.number(), p90: z.number() })),
  /** Chance that the printer's limit is passed within the hour. */
  crossChance60: z.number(),
  /** When the middle course passes it; null: not within the hour. */
  crossAtMs: z.nullable(z.number()),
});
export type HeatAhead = z.infer<typeof heatAhead>;

/** Sun on the printer on the event's day, under a clear sky. */
export const sunStretch = z.object({ fromAtMs: z.number(), toAtMs: z.number() });
export type SunStretch = z.infer<typeof sunStretch>;
