import { batch, effect } from "@preact/signals";
import type { LiveFrame } from "@boothward/shared-types/view";
import { foldFrame } from "./foldFrame.ts";
import { keepLive } from "./live.ts";
import type { Page } from "./pageContext.ts";
import { routeOf } from "./route.ts";
import {
  booths,
  hasMoved,
  heardAtMs,
  isWide,
  link,
  nowMs,
  path,
  slowMs,
  theme,
  themeChoice,
  units,
} from "./signals.ts";
import { themeOf } from "./theme.ts";

/** The outer world as `main` hands it in. */
export type PageWorld = { window: Window & typeof globalThis; localMs: () => number; random: () => number };

/** Wires the signals to the world: address, clock, theme, live socket. Gives what the screens may do. */
export function startPage(world: PageWorld): Page {
  const { window } = world;
  followAddress(window);
  followChoices(window);
  const clock = followClock(world);
  const page = makePage(world, clock);
  window.document.addEventListener("click", (click) => followLink(click, window, page));
  return page;
}

function makePage(world: PageWorld, clock: { set(trueMs: number): void }): Page {
  const { window } = world;
  let line: ReturnType<typeof keepLive> | null = null;

  const go = (address: string) => {
    if (address !== window.location.pathname) window.history.pushState(null, "", address);
    hasMoved.value = true;
    path.value = window.location.pathname;
    window.scrollTo(0, 0);
  };
  const signedOut = () => {
    line?.close();
    line = null;
    booths.value = [];
    heardAtMs.value = null;
    if (routeOf(path.value).screen !== "firstRun") go("/sign-in");
  };
  // What parses (zod) is fetched beside the first view, while the socket connects.
  // Each is asked for anew where it is used: a file that could not be had is then tried again.
  const openApi = async () => (await import("./api.ts")).makeApi(window.fetch.bind(window), signedOut);
  void Promise.allSettled([import("./api.ts"), import("./readFrame.ts")]);

  const askWho = async () => {
    const { whoAmI } = await import("./api.ts");
    const answer = await (await openApi()).call("GET", "/api/me", whoAmI);
    if (!("value" in answer) || answer.value.signedIn !== null) return;
    signedOut();
    if (answer.value.isFirstRun) go("/first-run");
  };
  const take = (frame: LiveFrame) =>
    batch(() => {
      clock.set(frame.nowMs);
      heardAtMs.value = frame.nowMs;
      booths.value = foldFrame(booths.value, frame);
    });
  const listen = () => {
    line?.close();
    line = keepLive(
      {
        openSocket: () => new window.WebSocket(`${window.location.origin.replace("http", "ws")}/live`),
        read: async (text) => (await import("./readFrame.ts")).readFrame(text),
        random: world.random,
        after: (waitMs, run) => {
          const timer = window.setTimeout(run, waitMs);
          return () => window.clearTimeout(timer);
        },
      },
      {
        frame: take,
        up: () => (link.value = "up"),
        down: () => {
          link.value = "down";
          askWho().catch(() => {});
        },
      },
    );
  };
  window.addEventListener("online", () => line?.wake());
  window.document.addEventListener("visibilitychange", () => {
    if (window.document.visibilityState === "visible" && link.value !== "up") line?.wake();
  });
  return {
    call: async (...request) => (await openApi()).call(...request),
    go,
    listen,
    signedOut,
    takeFragment: () => {
      const fragment = window.location.hash.slice(1);
      window.history.replaceState(null, "", window.location.pathname);
      return fragment;
    },
    keep: (name, choice) => window.localStorage.setItem(name, choice),
    origin: window.location.origin,
  };
}

function followAddress(window: Window): void {
  path.value = window.location.pathname;
  window.addEventListener("popstate", () => {
    hasMoved.value = true;
    path.value = window.location.pathname;
  });
}

/** A plain click on a link to one of our pages changes the page without fetching it anew. */
function followLink(click: MouseEvent, window: Window & typeof globalThis, page: Page): void {
  const isPlain = click.button === 0 && !click.ctrlKey && !click.metaKey && !click.shiftKey && !click.altKey;
  const link = click.target instanceof window.Element ? click.target.closest("a") : null;
  if (!isPlain || link === null || link.origin !== window.location.origin || link.hash !== "") return;
  click.preventDefault();
  page.go(link.pathname);
}

/** Ticks each second; true time is this device's clock plus how far it was off at the last frame. */
function followClock(world: PageWorld): { set(trueMs: number): void } {
  let offMs = 0;
  const tick = () => (nowMs.value = world.localMs() + offMs);
  tick();
  world.window.setInterval(tick, 1000);
  return {
    set: (trueMs) => {
      offMs = trueMs - world.localMs();
      tick();
    },
  };
}

function followChoices(window: Window): void {
  const chosen = window.localStorage.getItem("theme");
  if (chosen === "light" || chosen === "dark") themeChoice.value = chosen;
  const kept = window.localStorage.getItem("units");
  const isUs = kept === null ? window.navigator.language.endsWith("-US") : kept === "us";
  units.value = isUs ? "us" : "metric";

  const dark = window.matchMedia("(prefers-color-scheme: dark)");
  const wide = window.matchMedia("(min-width: 900px)");
  const paint = () => {
    theme.value = themeOf(themeChoice.value, dark.matches, booths.value, slowMs.value);
    window.document.documentElement.dataset["theme"] = theme.value;
  };
  effect(paint);
  dark.addEventListener("change", paint);
  isWide.value = wide.matches;
  wide.addEventListener("change", () => (isWide.value = wide.matches));
}
