import { passMargin, sunRay } from "../../../dashboard/forecast/sun/sunRay.ts";
import type { OpeningView } from "../../../dashboard/forecast/sun/boothFrame.ts";
import { rad, type SkyNow } from "./weather.ts";

/**
 * A building in five nodes: air, inner skin, outer skin, goods on the floor, and the thermometer. Heat by watts and
 * joules, ventilation by wind and buoyancy, the roof radiating to the sky: not the model of the forecast.
 */
export type Building = {
  readonly roofM2: number;
  readonly wallM2: number;
  readonly volumeM3: number;
  /** Bearing of its front. */
  readonly headingDeg: number;
  readonly absorbs: number;
  /** W/(m2 K) between the skins, and kJ/(m2 K) of each. */
  readonly skinU: number;
  readonly skinKj: number;
  readonly goodsKj: number;
  /** Share of level ground's sun that comes through the cover, as in a greenhouse. */
  readonly throughCover: number;
  readonly leakPerHour: number;
  readonly views: readonly OpeningView[];
  /** Share of the beam that a pane or curtain in the openings lets in. */
  readonly pane: number;
  /** How much the sun on the printer lifts the thermometer beside it, K at full beam, and its own lag. */
  readonly litK: number;
  readonly sensorLagMin: number;
};

export type Nodes = { air: number; inner: number; outer: number; goods: number; sensor: number };

/** What people and machines do inside: W into the air, air changes through open doors, W. */
export type Inside = { readonly heatW: number; readonly doorM2: number };

const stepsPerMin = 6;
const airJ = 1200;

/** One minute on, in place. */
export function stepBuilding(nodes: Nodes, building: Building, sky: SkyNow, inside: Inside): void {
  const gains = sunGains(building, sky);
  for (let at = 0; at < stepsPerMin; at += 1) stepTenSeconds(nodes, building, sky, inside, gains);
}

function stepTenSeconds(
  nodes: Nodes,
  building: Building,
  sky: SkyNow,
  { heatW, doorM2 }: Inside,
  { outerW, airW, goodsW, litShare }: SunGains,
): void {
  const seconds = 60 / stepsPerMin;
  const { roofM2, wallM2, volumeM3, skinU, skinKj } = building;
  const area = roofM2 + wallM2;
  const innerW = 5 * Math.abs(nodes.air - nodes.inner) ** 0.2 * area * (nodes.inner - nodes.air);
  const goodsW2 = 4 * roofM2 * (nodes.goods - nodes.air);
  const throughW = skinU * area * (nodes.outer - nodes.inner);
  const outW = (6 + 3.5 * sky.windMs ** 0.7) * area * (sky.outsideC - nodes.outer);
  const toSkyW = 5.67e-8 * 0.9 * roofM2 * ((nodes.outer + 273) ** 4 - (sky.outsideC + 273 - 14) ** 4);
  // Air through leaks and doors: by wind and by buoyancy, the larger rules.
  const across = Math.abs(nodes.air - sky.outsideC);
  const flow =
    (building.leakPerHour * volumeM3 * (0.4 + 0.15 * sky.windMs + 0.03 * across)) / 3600 +
    doorM2 * Math.max(0.05 * sky.windMs, 0.09 * Math.sqrt(across));
  const airedW = flow * airJ * (sky.outsideC - nodes.air);
  const own = volumeM3 * airJ * 4;
  nodes.air += (seconds * (innerW + goodsW2 + airedW + airW + heatW)) / own;
  nodes.inner += (seconds * (throughW - innerW)) / (skinKj * 1000 * area);
  nodes.outer += (seconds * (outW + outerW - throughW - toSkyW)) / (skinKj * 1000 * area);
  nodes.goods += (seconds * (goodsW - goodsW2)) / (building.goodsKj * 1000);
  const besideC = 0.8 * nodes.air + 0.2 * nodes.inner + building.litK * litShare;
  nodes.sensor += ((seconds / 60) * (besideC - nodes.sensor)) / building.sensorLagMin;
}

type SunGains = {
  readonly outerW: number;
  readonly airW: number;
  readonly goodsW: number;
  readonly litShare: number;
};

function sunGains(building: Building, sky: SkyNow): SunGains {
  const { roofM2, wallM2, absorbs, throughCover, views, pane } = building;
  const levelWm2 = sky.beamWm2 * Math.max(0, Math.sin(rad(sky.elevationDeg))) + sky.diffuseWm2;
  const walls = [0, 90, 180, 270].map((turn) => Math.max(0, sunRay(sky, building.headingDeg + turn).out));
  const onWallsW =
    (wallM2 / 4) * walls.reduce((sum, share) => sum + share * sky.beamWm2 + 0.4 * sky.diffuseWm2, 0);
  const coverW = throughCover * levelWm2 * roofM2;
  const beamW = views.reduce(
    (sum, view) =>
      sum + pane * sky.beamWm2 * view.widthM * view.heightM * Math.max(0, sunRay(sky, view.bearingDeg).out),
    0,
  );
  const lit = views.some((view) => passMargin(view, sunRay(sky, view.bearingDeg)) > 0);
  return {
    outerW: absorbs * (levelWm2 * roofM2 + onWallsW),
    airW: 0.35 * (coverW + beamW),
    goodsW: 0.45 * (coverW + beamW),
    litShare: lit ? (pane * sky.beamWm2) / 900 : 0,
  };
}
