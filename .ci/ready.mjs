// Makes a fresh clone ready: installs what the lockfile names and builds the bundles, each only when its
// inputs changed since the last time. Plain JavaScript, nothing but Node.
//
// Usage: node .ci/ready.mjs run|test
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";

const top = resolve(import.meta.dirname, "..");
const cache = join(top, ".cache");
const wanted = [20, 19];

const say = (/** @type {string} */ line) => process.stderr.write(`ready: ${line}\n`);

function refuse(/** @type {string} */ line) {
  say(line);
  process.exit(1);
}

function checkNode() {
  const [major = 0, minor = 0] = process.versions.node.split(".").map(Number);
  if (major < wanted[0] || (major === wanted[0] && minor < wanted[1]))
    refuse(`Node ${process.versions.node} is too old: install Node ${wanted.join(".")} or later.`);
}

/** A stamp of the names, sizes and contents below the given places. */
function stampOf(/** @type {string[]} */ places) {
  const hash = createHash("sha256");
  const visit = (/** @type {string} */ path) => {
    if (!existsSync(path)) return;
    if (statSync(path).isDirectory()) {
      for (const name of readdirSync(path).sort())
        if (!["node_modules", "dist", ".cache"].includes(name)) visit(join(path, name));
    } else hash.update(path.slice(top.length)).update(readFileSync(path));
  };
  for (const place of places) visit(join(top, place));
  return hash.update(process.versions.modules).digest("hex");
}

/** Runs the step unless its inputs are as they were and its outputs are there. */
function step(
  /** @type {string} */ name,
  /** @type {string[]} */ inputs,
  /** @type {string[]} */ outputs,
  /** @type {() => void} */ run,
) {
  const stampFile = join(cache, `${name}.stamp`);
  const stamp = stampOf(inputs);
  const isThere = outputs.every((path) => existsSync(join(top, path)));
  if (isThere && existsSync(stampFile) && readFileSync(stampFile, "utf8") === stamp) return;
  run();
  mkdirSync(cache, { recursive: true });
  writeFileSync(stampFile, stamp);
}

function call(/** @type {string} */ command, /** @type {string[]} */ args) {
  // npm is a script on Windows, which only a shell starts.
  const shell = process.platform === "win32";
  const result = spawnSync(command, args, { cwd: top, stdio: ["ignore", 2, 2], shell });
  return result.status === 0;
}

function has(/** @type {string} */ command) {
  return spawnSync(command, ["--version"], { stdio: "ignore" }).status === 0;
}

function install() {
  say("installing the packages of the lockfile (about a minute the first time)");
  if (!call("npm", ["ci", "--no-audit", "--no-fund"])) {
    const missing = ["python3", "make", "g++"].find((tool) => !has(tool));
    refuse(
      missing === undefined
        ? "npm ci failed; its own words are above."
        : "npm ci failed. No ready-made SQLite module could be fetched for this computer, and building one " +
            `needs ${missing}: on Debian or Ubuntu, apt-get install python3 make g++.`,
    );
  }
}

function build() {
  say("building agent, dashboard and pages");
  if (!call(process.execPath, [".ci/build.mjs"])) refuse("the build failed; its own words are above.");
}

checkNode();
step(
  "install",
  ["package-lock.json"],
  ["node_modules/better-sqlite3/build/Release/better_sqlite3.node"],
  install,
);
step(
  "build",
  ["package-lock.json", ".ci/build.mjs", "shared-types", "agent", "dashboard", "seeds", "tests"],
  [
    "agent/dist/agent.mjs",
    "dashboard/dist/dashboard.mjs",
    "dashboard/dist/replay.mjs",
    "seeds/dist/play.mjs",
    "dashboard/dist/web/index.html",
  ],
  build,
);
