import type { BoothView, Clock, LiveFrame, OwnFrame } from "@boothward/shared-types";
import type { Logger } from "pino";
import type { WebSocket } from "ws";
import { inRunSheetOrder } from "./inRunSheetOrder.ts";

/** Three beats of quiet and a page takes its line for dead. */
const beatEveryMs = 10_000;
/** A page this far behind is on a dead line; it comes back and gets everything. */
const mostWaitingBytes = 1024 * 1024;
/** RFC 6455 section 7.4.1: going away; policy violation. */
const goingAway = 1001;
const signedOut = 1008;

/** Views of booths out to the open pages. */
export type Live = {
  /** Takes in a page's socket: it gets all booths at once, then each as it changes. */
  add(socket: WebSocket, signIn: PageSignIn): void;
  readonly publish: (booth: BoothView) => void;
  /** What is wrong with the dashboard itself. */
  readonly publishOwn: (own: OwnFrame) => void;
  /** Whether somebody who sees not all booths, but this one, has the page open. */
  readonly isAttended: (boothId: string) => boolean;
  readonly isOwnerThere: () => boolean;
  /** Ends the pages of a sign-in that is over. */
  endSignIn(tokenHash: string): void;
  /** Beats, and ends pages that are gone or whose sign-in has expired. */
  tick(): void;
  close(): void;
};

/** `boothIds`: the only ones that the page may see; without them it sees all. */
type PageSignIn = {
  readonly tokenHash: string;
  readonly expiresAtMs: number;
  readonly boothIds?: readonly string[];
};

type Page = PageSignIn & {
  readonly socket: WebSocket;
  isThere: boolean;
};

export function openLive({ clock, log }: { readonly clock: Clock; readonly log: Logger }): Live {
  const booths = new Map<string, BoothView>();
  const pages = new Set<Page>();
  let beatMonoMs = -Infinity;
  let own: OwnFrame = { uplinkDownFromAtMs: null, clockSteppedAtMs: null };

  function send(page: Page, text: string): void {
    if (page.socket.bufferedAmount <= mostWaitingBytes) return page.socket.send(text);
    log.warn("a page that does not read was hung up");
    page.socket.terminate();
  }

  function toAll(frame: LiveFrame): void {
    const text = JSON.stringify(frame);
    for (const page of pages) if (maySee(page, frame)) send(page, text);
  }

  /** What is of one booth goes to those who may see it. */
  function maySee({ boothIds }: Page, frame: LiveFrame): boolean {
    if (boothIds === undefined || (frame.kind !== "booth" && frame.kind !== "gone")) return true;
    return boothIds.includes(frame.kind === "gone" ? frame.boothId : frame.booth.boothId);
  }

  function beat(nowMs: number): void {
    for (const page of pages) {
      if (page.expiresAtMs <= nowMs) page.socket.close(signedOut, "the sign-in has expired");
      else if (!page.isThere) page.socket.terminate();
      page.isThere = false;
      page.socket.ping();
    }
    toAll({ kind: "beat", nowMs });
  }

  return {
    add(socket, signIn) {
      const page: Page = { ...signIn, socket, isThere: true };
      const { boothIds } = signIn;
      pages.add(page);
      socket.on("close", () => pages.delete(page));
      socket.on("error", (error) => log.info({ reason: error.message }, "page broken off"));
      socket.on("pong", () => (page.isThere = true));
      const theirs = [...booths.values()].filter(({ boothId }) => boothIds?.includes(boothId) ?? true);
      const all = inRunSheetOrder(theirs);
      const nowMs = clock().wallMs;
      send(page, JSON.stringify({ kind: "all", nowMs, booths: all } satisfies LiveFrame));
      send(page, JSON.stringify({ kind: "own", nowMs, own } satisfies LiveFrame));
    },
    publish(booth) {
      booths.set(booth.boothId, booth);
      toAll({ kind: "booth", nowMs: clock().wallMs, booth });
    },
    publishOwn(changed) {
      own = changed;
      toAll({ kind: "own", nowMs: clock().wallMs, own });
    },
    isAttended: (boothId) => [...pages].some((page) => page.boothIds?.includes(boothId) ?? false),
    isOwnerThere: () => [...pages].some(({ boothIds }) => boothIds === undefined),
    endSignIn(tokenHash) {
      for (const page of pages) if (page.tokenHash === tokenHash) page.socket.close(signedOut, "signed out");
    },
    tick() {
      const { wallMs, monoMs } = clock();
      if (monoMs - beatMonoMs < beatEveryMs) return;
      beatMonoMs = monoMs;
      beat(wallMs);
    },
    close() {
      for (const { socket } of pages) socket.close(goingAway, "the dashboard stops");
    },
  };
}
