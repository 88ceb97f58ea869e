// Bundles agent, dashboard, seeds and the test programs with esbuild, and the pages with vite, into dist folders.
import { existsSync } from "node:fs";
import { join, resolve } from "node:path";
import { build } from "esbuild";

const top = resolve(import.meta.dirname, "..");

/** @type {[string, string][]} entry and bundle */
const programs = [
  ["agent/main.ts", "agent/dist/agent.mjs"],
  ["dashboard/main.ts", "dashboard/dist/dashboard.mjs"],
  ["dashboard/replay/main.ts", "dashboard/dist/replay.mjs"],
  ["seeds/play.ts", "seeds/dist/play.mjs"],
  ["tests/faults/main.ts", "tests/dist/faults.mjs"],
  ["tests/shots/main.ts", "tests/dist/shots.mjs"],
  ["tests/bench/main.ts", "tests/dist/bench.mjs"],
];

for (const [entry, outfile] of programs) {
  await build({
    absWorkingDir: top,
    entryPoints: [entry],
    outfile,
    bundle: true,
    platform: "node",
    format: "esm",
    target: "node20",
    conditions: ["source"],
    sourcemap: true,
    logLevel: "warning",
    // Native parts, and packages that read their own files at run time, stay outside the bundle.
    external: ["better-sqlite3", "pdfkit", "playwright-core", "vitest", "esbuild", "vite"],
    // Packages still in CommonJS call require for Node's own modules.
    banner: {
      js: 'import { createRequire as __cr } from "node:module"; const require = __cr(import.meta.url);',
    },
  });
}

const pages = join(top, "dashboard/web/vite.config.ts");
if (existsSync(pages)) {
  const { build: buildPages } = await import("vite");
  await buildPages({ configFile: pages, logLevel: "warn" });
}
