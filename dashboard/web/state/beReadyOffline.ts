import { effect } from "@preact/signals";
import { hasKeptAnswers } from "../answers/answerQueue.ts";
import { keepLastFrame } from "./keepLastFrame.ts";
import type { Page } from "./pageContext.ts";
import { link } from "./signals.ts";

/**
 * What a page does for bad networks, once its first view stands: it keeps its shell and its last frame, shows
 * that with its age when the dashboard cannot be reached, and sends what was pressed before.
 */
export function beReadyOffline(window: Window & typeof globalThis, page: Page): void {
  keepLastFrame(window.localStorage, (waitMs, run) => window.setTimeout(run, waitMs));
  // Only secure addresses have workers.
  if ("serviceWorker" in window.navigator) window.navigator.serviceWorker.register("/sw.js").catch(() => {});
  const stop = effect(() => {
    if (link.value !== "up" || !hasKeptAnswers(window.localStorage)) return;
    void import("../answers/queueOf.ts").then((file) => file.queueOf(page));
    queueMicrotask(() => stop());
  });
}
