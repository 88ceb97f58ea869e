import { booths, hasMoved, heardAtMs, me, path } from "./signals.ts";
import { followChoices } from "./followChoices.ts";
import { followClock } from "./followClock.ts";
import { listenLive } from "./listenLive.ts";
import type { Page } from "./pageContext.ts";
import type { PageWorld } from "./pageWorld.ts";
import { routeOf } from "./route.ts";

/** Wires the signals to the world: address, clock, theme, live socket. Gives what the screens may do. */
export function startPage(world: PageWorld): Page {
  const { window } = world;
  followAddress(window);
  followChoices(window);
  const clock = followClock(world);
  const page = makePage(world, clock.set);
  window.document.addEventListener("click", (click) => followLink(click, window, page));
  return page;
}

function makePage(world: PageWorld, setClock: (trueMs: number) => void): Page {
  const { window } = world;

  const go = (address: string) => {
    if (address !== window.location.pathname) window.history.pushState(null, "", address);
    hasMoved.value = true;
    path.value = window.location.pathname;
    window.scrollTo(0, 0);
  };
  const signedOut = () => {
    line.stop();
    booths.value = [];
    heardAtMs.value = null;
    if (routeOf(path.value).screen !== "firstRun") go("/sign-in");
  };
  // Asked for anew where it is used: a file that could not be had is then tried again.
  const openApi = async () => (await import("./api.ts")).makeApi(window.fetch.bind(window), signedOut);
  const askWho = async () => {
    const { whoAmI } = await import("./api.ts");
    const answer = await (await openApi()).call("GET", "/api/me", whoAmI);
    if (!("value" in answer)) return;
    const { signedIn, isFirstRun } = answer.value;
    if (signedIn !== null) {
      me.value = signedIn;
      return page.keep("role", signedIn.role);
    }
    signedOut();
    if (isFirstRun) go("/first-run");
  };
  const line = listenLive(world, setClock, askWho);
  const page: Page = {
    call: async (...request) => (await openApi()).call(...request),
    go,
    listen: () => {
      line.start();
      void askWho();
    },
    signedOut,
    takeFragment: () => {
      const fragment = window.location.hash.slice(1);
      window.history.replaceState(null, "", window.location.pathname);
      return fragment;
    },
    keep: (name, choice) => window.localStorage.setItem(name, choice),
    origin: window.location.origin,
  };
  return page;
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
  // A file is the browser's to save.
  if (link.hasAttribute("download")) return;
  click.preventDefault();
  page.go(link.pathname);
}
