import { numberWord } from "./today.ts";

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** The English texts of the page of all alerts. */
export const alertPage = {
  title: "Alerts",
  asking: "Asking for the alerts.",
  now: (n: number) =>
    n === 1 ? "One alert needs somebody now." : `${capital(numberWord(n))} alerts need somebody now.`,
  nowTaken: (n: number) =>
    n === 1
      ? "One alert is “now”, and somebody is on it."
      : `${capital(numberWord(n))} are “now”, and somebody is on each.`,
  soon: (n: number) =>
    n === 1 ? "One thing is due soon." : `${capital(numberWord(n))} things are due soon.`,
  notes: (n: number) =>
    n === 1
      ? "Nothing needs anybody; one note is open."
      : `Nothing needs anybody; ${numberWord(n)} notes are open.`,
  untaken: (n: number) =>
    n === 1
      ? "Nothing is open; one is over that nobody took."
      : `Nothing is open; ${numberWord(n)} are over that nobody took.`,
  none: "Nothing is open.",
  noneMore: "What needs somebody stands here, with who was told and who took it.",
  cutOff: (length: string) => `No word from the dashboard for ${length}.`,
  cutOffMore: "What stands below is as it was then.",
  more: {
    soon: (n: number) => (n === 1 ? "One is due soon." : `${capital(numberWord(n))} are due soon.`),
    note: (n: number) => (n === 1 ? "A note is open too." : `${capital(numberWord(n))} notes are open too.`),
  },
  since: (at: string) => `since ${at}`,
  by: (at: string) => `Latest moment ${at}.`,
  over: (at: string) => `Over since ${at}; nobody took it.`,
  overWord: "Over",
  silenced: (n: number) => `Silenced (${n})`,
  why: {
    settingUp: "Silenced while the booth is set up.",
    packingDown: "Silenced while the booth is packed down.",
    siteDark: "Silenced: the whole place is cut off, which has an alert of its own.",
    ownTrouble: "Silenced: the dashboard itself was in trouble.",
    switchedOff: "Switched off in Set-up.",
  },
  severity: { actNow: "Now", plan: "Soon", note: "Good to know" },
  closed: "Closed in the last day",
  closedLine: (length: string, by: string | null) =>
    by === null ? `Over after ${length}.` : `${by} took it; over after ${length}.`,
  story: "Who said what, who was told",
  nobodyTold: "Nobody was told of it: it stands on the pages.",
};

/** What a line of an alert's story says; `by`: who did it, null where nobody. */
export const storyWords: Record<string, (by: string) => string> = {
  raised: () => "Raised.",
  worse: () => "Became “now”.",
  reopened: () => "Came back.",
  cleared: () => "Over.",
  closed: () => "Closed.",
  taken: (by) => `${by} is on it.`,
  later: (by) => `${by} put it off.`,
  laterOver: () => "Asked again.",
  done: (by) => `${by} says it is done.`,
  suppressed: () => "Silenced.",
  unsuppressed: () => "No longer silenced.",
  switchedOff: () => "Switched off in Set-up.",
  switchedOn: () => "Switched on in Set-up.",
};

export const toldWords = {
  somebody: "Somebody",
  device: (device: string) => `, ${device}`,
  who: { owner: "the owner", attendant: "the attendant" },
  way: { push: "notice", email: "e-mail", webhook: "webhook", http: "a call" },
  told: (who: string, label: string, way: string, what: string) => `${who}, ${label} (${way}): ${what}`,
  noWay: (who: string, what: string) => `To ${who}: ${what}`,
  arrived: (length: string) => `came after ${length}`,
  state: {
    due: "about to be sent",
    waiting: "being sent",
    gathered: "waits to go out with others",
    taken: "sent; whether it came is not known",
    digested: "went out with others",
    refused: "was refused",
    gone: "the device is gone",
    expired: "was not taken in time",
    over: "not sent, as it was over",
    told: "told",
    nobody: "there was no way to reach anybody",
  } as Record<string, string>,
};
