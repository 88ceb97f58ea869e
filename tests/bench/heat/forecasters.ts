import { forecastHeat, type HeatAhead } from "../../../dashboard/forecast/heat/forecastHeat.ts";
import type { HeatDrive } from "../../../dashboard/forecast/heat/heatDrive.ts";
import { heatRunOf, withReading } from "../../../dashboard/forecast/heat/heatRun.ts";
import type { HeatReading, HeatSite } from "../../../dashboard/forecast/heat/heatSite.ts";

/** A forecast that is given reading after reading. */
export type Forecaster = {
  readonly take: (reading: HeatReading) => void;
  readonly ask: (atMs: number) => HeatAhead | null;
};
export type OpenForecaster = (site: HeatSite) => Forecaster;

function forecasterOf(site: HeatSite, drive?: HeatDrive, rescales = true): Forecaster {
  let run = heatRunOf(site, drive);
  return {
    take: (reading) => {
      run = withReading(run, reading);
    },
    ask: (atMs) => forecastHeat(run, atMs, rescales),
  };
}

export const program: OpenForecaster = (site) => forecasterOf(site);

export const constantSun = "the sun a free constant";
/** The sun as a constant that nobody switches off: its gain is as free as the program's. */
const withConstantSun: OpenForecaster = (site) => forecasterOf(site, () => ({ beam: 0, sky: 1 }));

/** The program with one of its parts taken out. */
export const ablations: Readonly<Record<string, OpenForecaster>> = {
  [constantSun]: withConstantSun,
  "no sun": (site) => forecasterOf(site, () => ({ beam: 0, sky: 0 })),
  "no openings": (site) => forecasterOf({ ...site, views: [] }),
  "no printer's place": (site) =>
    forecasterOf({ ...site, views: site.views.map((view) => ({ ...view, printer: null })) }),
  "no rescaling": (site) => forecasterOf(site, undefined, false),
};
