import { chromium } from "playwright-core";
import type { Browser } from "playwright-core";
import { findTool } from "./findTool.ts";

/** The system's Chromium without a window; null when there is none. The caller closes it. */
export async function openChromium(more: readonly string[] = []): Promise<Browser | null> {
  const executablePath = findTool("chromium") ?? findTool("chromium-browser");
  if (executablePath === null) return null;
  return await chromium.launch({
    executablePath,
    args: ["--no-sandbox", "--disable-background-networking", "--disable-gpu", ...more],
  });
}
