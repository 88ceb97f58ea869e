import { dashboardFrame, protocolVersion, type AnyItem, type DashboardFrame } from "@boothward/shared-types";
import { onTestFinished } from "vitest";
import { WebSocket } from "ws";
import { until } from "./until.ts";

type FrameOf<Kind extends DashboardFrame["kind"]> = Extract<DashboardFrame, { kind: Kind }>;

/** A bare agent's end of the link, that says whatever a test wants it to say. */
export type ALinkClient = {
  /** Everything the dashboard said, in order. */
  readonly frames: readonly DashboardFrame[];
  /** The close code; null while it is open. */
  closedWith(): number | null;
  send(frame: unknown): void;
  sendRaw(data: string | Buffer): void;
  greet(over?: Record<string, unknown>): void;
  batch(bootId: string, afterSeq: number, items: readonly unknown[]): void;
  /** The next frame of this kind that was not taken yet. */
  next<Kind extends DashboardFrame["kind"]>(kind: Kind): Promise<FrameOf<Kind>>;
  closed(): Promise<number>;
  /** Ends it without a word. */
  cut(): void;
};

/** Opens a link with a token, or rejects with the status it was refused with. */
export async function aLinkClient(url: string, token: string | null): Promise<ALinkClient> {
  const headers = token === null ? {} : { authorization: `Bearer ${token}` };
  const socket = new WebSocket(`${url.replace("http", "ws")}/link`, { headers });
  onTestFinished(() => socket.terminate());
  const frames: DashboardFrame[] = [];
  const taken = new Set<DashboardFrame>();
  let code: number | null = null;
  socket.on("message", (text: Buffer) => {
    frames.push(dashboardFrame.parse(JSON.parse(text.toString("utf8"))));
  });
  socket.on("close", (closeCode) => (code = closeCode));
  await opened(socket);

  const send = (frame: unknown) => socket.send(JSON.stringify(frame));
  return {
    frames,
    send,
    closedWith: () => code,
    sendRaw: (data) => socket.send(data),
    greet: (over = {}) => send({ ...greeting, ...over }),
    batch: (bootId, afterSeq, items) => send({ kind: "batch", bootId, afterSeq, items }),
    async next(kind) {
      const find = () => frames.find((frame) => frame.kind === kind && !taken.has(frame));
      await until(() => find() !== undefined, `a frame of the kind ${kind}`);
      const frame = find();
      if (frame === undefined) throw new Error("the frame has gone");
      taken.add(frame);
      return frame as FrameOf<typeof kind>;
    },
    async closed() {
      await until(() => code !== null, "the link to be closed");
      return code ?? 0;
    },
    cut: () => socket.terminate(),
  };
}

/** Opens a link, greets and is welcomed. */
export async function aGreetedLink(
  url: string,
  token: string,
  over: Record<string, unknown> = {},
): Promise<ALinkClient> {
  const link = await aLinkClient(url, token);
  link.greet(over);
  await link.next("welcome");
  return link;
}

const greeting = {
  ...{ kind: "greet", protocol: protocolVersion, agentId: "agent-1", bootId: "boot-1" },
  ...{ lastSeq: 0, version: "0.1.0", scenario: null, t1MonoMs: 0 },
};

function opened(socket: WebSocket): Promise<void> {
  return new Promise((resolve, reject) => {
    socket.once("open", resolve);
    socket.once("unexpected-response", (_request, response) => {
      reject(new Error(`refused with ${response.statusCode ?? 0}`));
      response.resume();
    });
    socket.on("error", reject);
  });
}

/** A session as an agent sends it. */
export function sentSession(seq: number, over: Partial<AnyItem> = {}): AnyItem {
  return {
    ...{ class: "fact", kind: "session", seq, source: "folder", sessionId: `session-${seq}` },
    ...{ atMs: Date.UTC(2026, 5, 20, 18), monoMs: seq * 1_000 },
    ...{ durationMs: null, layouts: 1, shots: 3, basis: "layouts" },
    ...over,
  };
}

/** A temperature as an agent sends it. */
export function sentWarmth(seq: number, insideC: number, over: Partial<AnyItem> = {}): AnyItem {
  return {
    ...{ class: "reading", kind: "inside", seq, source: "thermometers", sensor: "case" },
    ...{ atMs: Date.UTC(2026, 5, 20, 18), monoMs: seq * 1_000, insideC, humidityPct: null },
    ...over,
  };
}
