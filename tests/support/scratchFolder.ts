import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { onTestFinished } from "vitest";

/** An empty folder that is removed when the test has finished. */
export function scratchFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "boothward-test-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}
