import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import { builtPages } from "../../support/aChromiumPage.ts";

const chunk = z.object({
  file: z.string(),
  /** A chunk that several entries share has no key of its own source, only its name. */
  name: z.string().optional(),
  imports: z.array(z.string()).default([]),
  dynamicImports: z.array(z.string()).default([]),
});
const manifestFile = join(builtPages, ".vite/manifest.json");

const isBuilt = existsSync(manifestFile);

describe.skipIf(!isBuilt)("the weight of the built pages, gzipped script", () => {
  const manifest = isBuilt
    ? z.record(z.string(), chunk).parse(JSON.parse(readFileSync(manifestFile, "utf8")))
    : {};

  /** The scripts that come with these entries: their own files and what those import at once. */
  function scriptsOf(...entries: string[]): Set<string> {
    const files = new Set<string>();
    const visit = (key: string): void => {
      const found = manifest[key] ?? Object.values(manifest).find((each) => each.name === key);
      if (found === undefined) throw new Error(`no ${key} in ${Object.keys(manifest).join(", ")}`);
      if (files.has(found.file)) return;
      files.add(found.file);
      found.imports.forEach(visit);
    };
    entries.forEach(visit);
    return files;
  }

  function kilobytes(files: ReadonlySet<string>): number {
    const bytes = [...files].map(
      (file) => gzipSync(readFileSync(join(builtPages, file)), { level: 9 }).length,
    );
    return bytes.reduce((sum, each) => sum + each, 0) / 1000;
  }

  const reading = ["readFrame", "api"];
  const today = ["index.html", ...reading, "screens/Today.tsx"];
  const withCharts = [...today, "screens/Booth.tsx", "charts/charts.ts"];

  it("is at most 20 kB for the first view, the frame and its headline", () => {
    const weight = kilobytes(scriptsOf("index.html"));
    console.info(
      `first view ${weight.toFixed(1)} kB; Today with all its booths ${kilobytes(scriptsOf(...today)).toFixed(1)} kB`,
    );
    expect(weight).toBeLessThanOrEqual(20);
  });

  it("is at most 95 kB for Today and Booth with their charts", () => {
    const weight = kilobytes(scriptsOf(...withCharts));
    console.info(`Today and Booth with charts ${weight.toFixed(1)} kB`);
    expect(weight).toBeLessThanOrEqual(95);
  });

  it.each(["plan/PlanFields.tsx", "plan/PlanOfBooking.tsx"])(
    "is at most 30 kB more than the run sheet for %s",
    (part) => {
      const sheet = [...today, "screens/RunSheet.tsx"];
      const more = kilobytes(scriptsOf(...sheet, part)) - kilobytes(scriptsOf(...sheet));
      console.info(`${part} ${more.toFixed(1)} kB more`);
      expect(more).toBeLessThanOrEqual(30);
    },
  );

  it.each(["desk/desk.ts", "sun/SunPlan.tsx", "replay/Replay.tsx"])(
    "is at most 30 kB more than Booth and charts for %s",
    (part) => {
      const more = kilobytes(scriptsOf(...withCharts, part)) - kilobytes(scriptsOf(...withCharts));
      console.info(`${part} ${more.toFixed(1)} kB more`);
      expect(more).toBeLessThanOrEqual(30);
    },
  );

  it("is at most 30 kB more for Set-up with what it fetches, and for the code of a link", () => {
    const screen = scriptsOf(...today, "screens/SetUp.tsx");
    const more =
      kilobytes(scriptsOf(...today, "screens/SetUp.tsx", "setUp/setUpMore.ts")) - kilobytes(screen);
    expect(more).toBeLessThanOrEqual(30);
    const code = kilobytes(scriptsOf("setUp/QrCode.tsx")) - kilobytes(scriptsOf("index.html"));
    console.info(`Set-up's people ${more.toFixed(1)} kB more, the code of a link ${code.toFixed(1)} kB`);
    expect(code).toBeLessThanOrEqual(15);
  });

  it("is at most 30 kB more for the attendant's page with paper and ways to be reached", () => {
    const parts = ["screens/Attend.tsx", "reach/HowReached.tsx", "desk/desk.ts"];
    const more = kilobytes(scriptsOf(...today, ...parts)) - kilobytes(scriptsOf(...today));
    console.info(`the attendant's page ${more.toFixed(1)} kB more`);
    expect(more).toBeLessThanOrEqual(30);
  });

  const screens = [
    ...["Alerts", "Join", "Heard", "RunSheet", "SetUp", "SignIn", "FirstRun"],
    ...["Checks", "LoadOut", "DoorSign", "Stock", "Reports", "Report", "SharedReport"],
  ];

  it.each([...screens.map((name) => `screens/${name}.tsx`), "parts/PlanFiles.tsx"])(
    "is at most 30 kB more for %s",
    (screen) => {
      const more = kilobytes(scriptsOf(...today, screen)) - kilobytes(scriptsOf(...today));
      expect(more).toBeLessThanOrEqual(30);
    },
  );

  it("keeps Chart.js out of all that comes before a booth's page", () => {
    const hasChartJs = (file: string) => readFileSync(join(builtPages, file), "utf8").includes("chartArea");
    const early = scriptsOf(...today, "screens/Booth.tsx", "screens/RunSheet.tsx", "screens/SetUp.tsx");
    expect([...early].filter(hasChartJs)).toEqual([]);
    expect([...scriptsOf("charts/charts.ts")].filter(hasChartJs).length).toBeGreaterThan(0);
  });
});
