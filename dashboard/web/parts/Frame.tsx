import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { routeOf } from "../state/route.ts";
import { standing } from "../state/boothLook.ts";
import {
  booths,
  formatOf,
  hasMoved,
  heardAtMs,
  isWide,
  link,
  me,
  nowMs,
  own,
  path,
} from "../state/signals.ts";
import { link as words, tabs } from "../words/en/frame.ts";
import { Icon } from "./Icon.tsx";

type Tab = { screen: "today" | "alerts" | "runSheet" | "stock" | "reports" | "setUp"; address: string };

/** What an evening needs. */
const often: readonly Tab[] = [
  { screen: "today", address: "/" },
  { screen: "alerts", address: "/alerts" },
  { screen: "runSheet", address: "/run-sheet" },
];
/** What is for the days before and after; on a phone behind one more tab. */
const rarer: readonly Tab[] = [
  { screen: "stock", address: "/stock" },
  { screen: "reports", address: "/reports" },
  { screen: "setUp", address: "/set-up" },
];

type FrameProps = {
  /** Names the browser's tab. */
  title?: string;
  bar: ComponentChildren;
  children: ComponentChildren;
  /** Without tabs and the line on a lost dashboard: before a sign-in, and for one thing at a time. */
  isBare?: boolean;
  /** With that line all the same. */
  isLinkTold?: boolean;
};

/** What stands around every page: its bar, the line on a lost dashboard, the tabs. */
export function Frame({ title, bar, children, isBare = false, isLinkTold = !isBare }: FrameProps) {
  const main = useRef<HTMLElement>(null);
  useEffect(() => {
    document.title = title === undefined ? "Boothward" : `${title} · Boothward`;
  }, [title]);
  useEffect(() => {
    // After a change of page a reader begins at the page's own heading.
    if (hasMoved.value) main.current?.querySelector("h1")?.focus();
  }, []);
  return (
    <>
      <div class="page">
        <header class="bar">{bar}</header>
        {isLinkTold && <LinkLine />}
        {!isBare && <OwnLine />}
        <main ref={main}>{children}</main>
      </div>
      {!isBare && me.value.role === "owner" && <Tabs />}
    </>
  );
}

export function Mark() {
  return (
    <a class="mark" href="/">
      Boothward
    </a>
  );
}

/** How old what is shown is, while the dashboard cannot be reached; a line that comes back at once gets no word. */
function LinkLine() {
  if (link.value !== "down") return null;
  const age = heardAtMs.value === null ? null : nowMs.value - heardAtMs.value;
  if (age !== null && age < 3000) return null;
  return (
    <p class="notice" role="status">
      <Icon name="silent" />
      <span>{age === null ? words.downEmpty : words.down(formatOf(null).age(age))}</span>
    </p>
  );
}

/** What is wrong with the dashboard itself: then silent booths are not to blame. */
function OwnLine() {
  const { uplinkDownFromAtMs, clockSteppedAtMs } = own.value;
  const format = formatOf(null);
  const lines = [
    ...(uplinkDownFromAtMs === null ? [] : [words.noUplink(format.clock(uplinkDownFromAtMs))]),
    ...(clockSteppedAtMs === null ? [] : [words.clockStepped(format.clock(clockSteppedAtMs))]),
  ];
  return lines.map((line) => (
    <p class="notice" role="status" key={line}>
      <Icon name="silent" />
      <span>{line}</span>
    </p>
  ));
}

function Tabs() {
  const { screen } = routeOf(path.value);
  const isBehind = rarer.some((tab) => isShown(tab, screen));
  return (
    <nav class="tabs" aria-label={tabs.pages}>
      {often.map((tab) => (
        <TabLink key={tab.screen} tab={tab} shown={screen} />
      ))}
      {isWide.value ? (
        rarer.map((tab) => <TabLink key={tab.screen} tab={tab} shown={screen} />)
      ) : (
        <details class={isBehind ? "here" : ""}>
          <summary>
            <Icon name="more" size={20} />
            {tabs.more}
          </summary>
          <div>
            {rarer.map((tab) => (
              <TabLink key={tab.screen} tab={tab} shown={screen} />
            ))}
          </div>
        </details>
      )}
    </nav>
  );
}

function TabLink({ tab, shown }: { tab: Tab; shown: string }) {
  return (
    <a href={tab.address} aria-current={isShown(tab, shown) ? "page" : undefined}>
      <Icon name={tab.screen} size={20} />
      <span>
        {tabs[tab.screen]} {tab.screen === "alerts" && <Calling />}
      </span>
    </a>
  );
}

/** How many are "now" and taken by nobody. */
function Calling() {
  const calling = booths.value
    .flatMap((booth) => standing(booth.alerts))
    .filter((alert) => alert.severity === "actNow" && alert.taken === null).length;
  return calling > 0 ? <b>{calling}</b> : null;
}

/** The report of one evening is in the history. */
function isShown(tab: Tab, screen: string): boolean {
  return tab.screen === screen || (tab.screen === "reports" && screen === "report");
}
