import { resolve } from "node:path";
import { defineConfig } from "vitest/config";

export default defineConfig({
  root: resolve(import.meta.dirname, ".."),
  resolve: { conditions: ["source"] },
  ssr: { resolve: { conditions: ["source"] } },
  oxc: { jsx: { importSource: "preact" } },
  test: {
    include: ["tests/**/*.test.{ts,tsx}"],
    testTimeout: 30_000,
    hookTimeout: 60_000,
    // Vitest leaves one core to itself by default, which of two is half. Half of what tests do is to wait.
    maxWorkers: "100%",
    // Loading our rooms and their packages anew for each file takes longer than most files' tests. So what a file
    // changes in a module or in the process, it sets back.
    isolate: false,
    // Real browsers, print servers and killed processes now and then outlast a limit on a busy CI machine. What
    // passes only the second time is listed by name in the summary, and is a bug to look at.
    retry: process.env["CI"] === undefined ? 0 : 2,
  },
});
