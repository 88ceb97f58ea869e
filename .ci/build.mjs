// Bundles agent, dashboard, seeds and the test programs with esbuild, and the pages with vite, into dist folders.
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync } from "node:fs";
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
  await buildWorker(join(top, "dashboard/dist/web"));
}

/**
 * The pages' service worker, beside them: it knows the files of its build by name, and a build that differs in a
 * byte makes another worker.
 */
async function buildWorker(/** @type {string} */ webDir) {
  const assets = readdirSync(join(webDir, "assets")).map((name) => `/assets/${name}`);
  const files = ["/", ...assets.sort(), "/icon.svg", "/icon-192.png", "/manifest.webmanifest"];
  const version = createHash("sha256")
    .update(readFileSync(join(webDir, "index.html")))
    .update(files.join())
    .digest("hex")
    .slice(0, 12);
  await build({
    absWorkingDir: top,
    entryPoints: ["dashboard/web/worker/worker.ts"],
    outfile: join(webDir, "sw.js"),
    bundle: true,
    minify: true,
    format: "iife",
    target: "es2022",
    conditions: ["source"],
    define: { builtFiles: JSON.stringify(files), builtVersion: JSON.stringify(version) },
    logLevel: "warning",
  });
}
