import { liveFrame, type BoothView, type LiveFrame } from "@boothward/shared-types";
import { onTestFinished } from "vitest";
import { WebSocket } from "ws";
import type { DashboardApi } from "../../seeds/dashboardApi.ts";
import { until } from "./until.ts";

/** An open page, as far as the live socket knows of it. */
export type APage = {
  /** Everything the dashboard sent, in order. */
  readonly frames: readonly LiveFrame[];
  /** The booth as the last frame about it shows it; throws when none did. */
  booth(boothId: string): BoothView;
  closed(): Promise<number>;
};

/** Opens the live socket of a signed-in person and waits for its first frame. */
export async function aPage(api: DashboardApi): Promise<APage> {
  const headers = { cookie: api.cookie(), origin: api.origin };
  const socket = new WebSocket(`${api.origin.replace("http", "ws")}/live`, { headers });
  onTestFinished(() => socket.terminate());
  const frames: LiveFrame[] = [];
  const booths = new Map<string, BoothView>();
  let code: number | null = null;
  socket.on("message", (text: Buffer) => {
    const frame = liveFrame.parse(JSON.parse(text.toString("utf8")));
    frames.push(frame);
    if (frame.kind === "all") for (const booth of frame.booths) booths.set(booth.boothId, booth);
    if (frame.kind === "booth") booths.set(frame.booth.boothId, frame.booth);
  });
  socket.on("close", (closeCode) => (code = closeCode));
  await until(() => frames.length > 0, "the first frame of the live socket");
  return {
    frames,
    booth(boothId) {
      const booth = booths.get(boothId);
      if (booth === undefined) throw new Error(`the page knows no booth ${boothId}`);
      return booth;
    },
    async closed() {
      await until(() => code !== null, "the live socket to be closed");
      return code ?? 0;
    },
  };
}
