import type { BoothBox, Standing } from "@boothward/shared-types/site";
import type { BoothFrame, SunSite } from "../../forecast/sun/boothFrame.ts";

/** What is planned of a booth at a booking, as far as the sun asks for it. */
export type Planned = {
  zone: string;
  latitudeDeg: number | null;
  longitudeDeg: number | null;
  standing: Standing;
  openAtMs: number;
  closeAtMs: number;
};

export type Missing = "booking" | "box" | "heading" | "place";

/** The booth's frame at its site; or all that must be entered before there is one. */
export function sceneOf(
  box: BoothBox | null,
  planned: Planned | null,
): { frame: BoothFrame; site: SunSite; planned: Planned } | { missing: Missing[] } {
  const headingDeg = planned?.standing.headingDeg ?? null;
  const { latitudeDeg = null, longitudeDeg = null } = planned ?? {};
  if (
    planned !== null &&
    box !== null &&
    headingDeg !== null &&
    latitudeDeg !== null &&
    longitudeDeg !== null
  )
    return {
      frame: { ...box, headingDeg },
      site: { latitudeDeg, longitudeDeg, horizon: planned.standing.horizon },
      planned,
    };
  const missing: Missing[] = box === null ? ["box"] : [];
  if (planned === null) return { missing: [...missing, "booking"] };
  if (headingDeg === null) missing.push("heading");
  if (latitudeDeg === null || longitudeDeg === null) missing.push("place");
  return { missing };
}
