import type { BookedTime } from "../booth/bookingWindows.ts";
import type { BoothSettings } from "../booth/boothSettings.ts";
import { sunDrive, type HeatDrive } from "./heat/heatDrive.ts";
import type { KnownSite } from "./heat/sensorHeat.ts";
import { openingViews, type BoothFrame, type SunSite } from "./sun/boothFrame.ts";

type Built = Pick<BoothSettings, "box" | "limitC">;
type Stood = Pick<BookedTime, "latitudeDeg" | "longitudeDeg" | "standing">;

/** The booth as it stands at a booking; null: not measured, or nobody said how it stands. */
export function frameOf({ box }: Built, booking: Stood | null): BoothFrame | null {
  const headingDeg = booking?.standing.headingDeg ?? null;
  return box === null || headingDeg === null ? null : { ...box, headingDeg };
}

/** Where the sun is seen from; null: the place is not known. */
export function sunSiteOf(booking: Stood | null): SunSite | null {
  if (booking === null || booking.latitudeDeg === null || booking.longitudeDeg === null) return null;
  const { latitudeDeg, longitudeDeg, standing } = booking;
  return { latitudeDeg, longitudeDeg, horizon: standing.horizon };
}

const noSun: HeatDrive = () => ({ beam: 0, sky: 0 });

/** What the temperature of a booth is forecast from beside its readings; without a place the sun is left out. */
export function heatSiteOf(settings: Built, booking: Stood | null): KnownSite {
  const place = sunSiteOf(booking);
  const frame = frameOf(settings, booking);
  const { limitC } = settings;
  const expectedHighC = place === null ? null : (booking?.standing.expectedHighC ?? null);
  const key = JSON.stringify([place, frame, limitC, expectedHighC]);
  const views = frame === null ? [] : openingViews(frame);
  const anywhere = { latitudeDeg: 0, longitudeDeg: 0, horizon: [] };
  const site = { ...(place ?? anywhere), views, limitC, expectedHighC };
  return { key, site, drive: place === null ? noSun : sunDrive(site) };
}
