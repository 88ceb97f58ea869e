import { liveFrame, type BoothView } from "@boothward/shared-types/view";
import { WebSocket } from "ws";
import type { DashboardApi } from "../../seeds/dashboardApi.ts";

/** A page's end of the live socket. */
export type LivePage = {
  /** Resolves with the time (performance.now) at which a view of this booth came that is so. */
  seen(boothId: string, isSo: (view: BoothView) => boolean): Promise<number>;
  /** The booth as last shown. */
  view(boothId: string): BoothView | undefined;
  close(): void;
};

export async function openLivePage(api: DashboardApi): Promise<LivePage> {
  const url = new URL("/live", api.origin);
  url.protocol = "ws:";
  const socket = new WebSocket(url, { headers: { cookie: api.cookie(), origin: api.origin } });
  const views = new Map<string, BoothView>();
  const watchers = new Set<() => void>();
  socket.on("message", (text: Buffer) => {
    const frame = liveFrame.parse(JSON.parse(text.toString("utf8")));
    if (frame.kind === "all") for (const booth of frame.booths) views.set(booth.boothId, booth);
    if (frame.kind === "booth") views.set(frame.booth.boothId, frame.booth);
    for (const watcher of watchers) watcher();
  });
  await new Promise((resolve, reject) => {
    socket.once("open", resolve);
    socket.once("error", reject);
  });
  return {
    view: (boothId) => views.get(boothId),
    seen: (boothId, isSo) =>
      new Promise((resolve) => {
        const look = () => {
          const view = views.get(boothId);
          if (view === undefined || !isSo(view)) return;
          watchers.delete(look);
          resolve(performance.now());
        };
        watchers.add(look);
        look();
      }),
    close: () => socket.terminate(),
  };
}
