import { liveFrame, type BoothView } from "@boothward/shared-types/view";
import { WebSocket } from "ws";
import type { DashboardApi } from "../../seeds/dashboardApi.ts";

/** Every booth as the pages are shown it now: opens the live socket and takes its first frame. */
export function seeBooths(api: DashboardApi): Promise<BoothView[]> {
  const url = new URL("/live", api.origin);
  url.protocol = "ws:";
  const socket = new WebSocket(url, { headers: { cookie: api.cookie(), origin: api.origin } });
  return new Promise<BoothView[]>((resolve, reject) => {
    socket.on("message", (text: Buffer) => {
      const frame = liveFrame.parse(JSON.parse(text.toString("utf8")));
      if (frame.kind === "all") resolve(frame.booths);
    });
    socket.on("error", reject);
    socket.on("close", (code) => {
      reject(new Error(`the live socket closed (${String(code)}) before its first frame`));
    });
  }).finally(() => {
    socket.terminate();
  });
}
