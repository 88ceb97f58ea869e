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

let opened: Promise<Browser | null> | null = null;

/**
 * The one Chromium of all test files that this process runs. It ends with the process; who opens a context closes
 * that.
 */
export async function sharedChromium(): Promise<Browser> {
  opened ??= openChromium();
  let browser = await opened;
  if (browser?.isConnected() === false) browser = await (opened = openChromium());
  if (browser === null) throw new Error("there is no Chromium: apt-get install chromium");
  return browser;
}
