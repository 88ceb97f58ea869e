import { mkdirSync } from "node:fs";
import { join, resolve } from "node:path";
import { takeShots } from "./takeShots.ts";

// Bundled into tests/dist, two folders below the top; run from there by `npm run shots`.
const top = resolve(import.meta.dirname, "../..");
const folder = join(top, "shots");
mkdirSync(folder, { recursive: true });
const only = process.argv[2] ?? "";
const count = await takeShots({ webDir: join(top, "dashboard/dist/web"), folder, only });
console.log(`${count} pictures in ${folder}`);
