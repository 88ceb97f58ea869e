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
  },
});
