import { dashboardFrame, protocolVersion, type AnyItem, type DashboardFrame } from "@boothward/shared-types";
import { WebSocket } from "ws";

/** An agent's end of a link that sends as fast as it is acknowledged. */
export type AgentEnd = {
  /** Sends the items in batches, some in flight at once; resolves with each batch's time to its ack, ms. */
  sendAll(items: readonly AnyItem[], batchSize: number): Promise<number[]>;
  close(): void;
};

/** As the agent itself keeps: more in flight would only measure the queue. */
const mostInFlight = 8;

/** Opens a link and waits for its welcome; a line without one (the bare line) says so with `isBare`. */
export async function openAgentEnd(
  url: string,
  token: string,
  agentId: string,
  isBare = false,
): Promise<AgentEnd> {
  const socket = new WebSocket(url, { headers: { authorization: `Bearer ${token}` } });
  const listeners = new Set<(frame: DashboardFrame) => void>();
  socket.on("message", (text: Buffer) => {
    const frame = dashboardFrame.parse(JSON.parse(text.toString("utf8")));
    for (const listener of listeners) listener(frame);
  });
  await new Promise((resolve, reject) => {
    socket.once("open", resolve);
    socket.once("error", reject);
  });
  const bootId = `bench-${agentId}`;
  const greeting = {
    kind: "greet",
    protocol: protocolVersion,
    agentId,
    bootId,
    lastSeq: 0,
    version: "bench",
  };
  if (!isBare) {
    const welcomed = new Promise<void>((resolve) => {
      const listener = (frame: DashboardFrame) => {
        if (frame.kind === "welcome") resolve();
      };
      listeners.add(listener);
    });
    socket.send(JSON.stringify({ ...greeting, scenario: null, t1MonoMs: 0 }));
    await welcomed;
  }

  const sendAll = (items: readonly AnyItem[], batchSize: number): Promise<number[]> =>
    new Promise((resolve) => {
      const tookMs: number[] = [];
      const sentAtMs = new Map<number, number>();
      let next = 0;
      const fill = () => {
        while (sentAtMs.size < mostInFlight && next < items.length) {
          const batch = items.slice(next, next + batchSize);
          next += batch.length;
          sentAtMs.set(batch.at(-1)?.seq ?? 0, performance.now());
          const afterSeq = (batch[0]?.seq ?? 1) - 1;
          socket.send(JSON.stringify({ kind: "batch", bootId, afterSeq, items: batch }));
        }
      };
      const listener = (frame: DashboardFrame) => {
        if (frame.kind !== "ack") return;
        const sent = sentAtMs.get(frame.throughSeq);
        if (sent === undefined) return;
        sentAtMs.delete(frame.throughSeq);
        tookMs.push(performance.now() - sent);
        fill();
        if (sentAtMs.size > 0 || next < items.length) return;
        listeners.delete(listener);
        resolve(tookMs);
      };
      listeners.add(listener);
      fill();
    });
  return { sendAll, close: () => socket.terminate() };
}

/** Readings of one boot, numbered from `fromSeq`, a second apart and all in the past. */
export function someReadings(fromSeq: number, count: number, beganAtMs: number): AnyItem[] {
  return Array.from({ length: count }, (_, at): AnyItem => {
    const seq = fromSeq + at;
    return {
      ...{ seq, class: "reading", kind: "inside", source: "thermometers", sensor: "case" },
      ...{ atMs: beganAtMs + seq * 1_000, monoMs: seq * 1_000 },
      ...{ insideC: 30 + (seq % 50) / 10, humidityPct: null },
    };
  });
}
