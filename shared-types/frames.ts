import * as z from "zod";
import { anyItem } from "./item.ts";

/**
 * The frames of the link between agent and dashboard; the numbered rules are in PROTOCOL.md.
 *
 * Frames are JSON text on one WebSocket. Both ends parse every frame with these schemas.
 */

/** Version of the link's rules; both ends say it in their greeting. */
export const protocolVersion = 1;

/** Largest frame either end accepts, bytes. A batch of 500 fat items is about 150 kB. */
export const maxFrameBytes = 1024 * 1024;

/** Most items in one batch. */
export const maxBatchItems = 500;

/** Time between an agent's beats, ms; three missed beats and the other end hangs up. */
export const beatEveryMs = 10_000;

/** Why a link is closed, as WebSocket close codes in the private range (RFC 6455 section 7.4.2). */
export const closeCodes = {
  badFrame: 4400,
  notPaired: 4401,
  revoked: 4403,
  replaced: 4409,
  tooLarge: 4413,
  wrongProtocol: 4426,
  silent: 4408,
} as const;
export type CloseWord = keyof typeof closeCodes;

const id = z.string().min(1).max(80);
const seq = z.int().min(0);

/** The four timestamps of one exchange: mono at the agent, true time at the dashboard (RFC 5905 section 8). */
export const clockSample = z.object({
  t1MonoMs: z.number(),
  t2Ms: z.number(),
  t3Ms: z.number(),
  t4MonoMs: z.number(),
  /** The agent's wall clock at t4, so that a wrong wall clock can be said. */
  t4WallMs: z.number(),
});
export type ClockSample = z.infer<typeof clockSample>;

export const greetFrame = z.object({
  kind: z.literal("greet"),
  protocol: z.int(),
  agentId: id,
  bootId: id,
  /** Highest sequence number made in this boot so far; 0 before the first. */
  lastSeq: seq,
  version: z.string().max(40),
  /** Name of the invented event day this agent plays; null on a real booth. */
  scenario: z.string().max(200).nullable(),
  t1MonoMs: z.number(),
});

export const batchFrame = z.object({
  kind: z.literal("batch"),
  bootId: id,
  /** Sequence number that this batch follows: what lies between it and the first item was thinned. */
  afterSeq: seq,
  items: z.array(anyItem).min(1).max(maxBatchItems),
});
export type BatchFrame = z.infer<typeof batchFrame>;

export const agentBeatFrame = z.object({
  kind: z.literal("beat"),
  t1MonoMs: z.number(),
  /** The exchange before this one, complete; null until there is one. */
  sample: clockSample.nullable(),
});

export const agentFrame = z.discriminatedUnion("kind", [greetFrame, batchFrame, agentBeatFrame]);
export type AgentFrame = z.infer<typeof agentFrame>;

export const welcomeFrame = z.object({
  kind: z.literal("welcome"),
  protocol: z.int(),
  boothId: id,
  boothName: z.string(),
  /** Highest sequence stored without a hole for each boot of this agent that the dashboard knows. */
  stored: z.array(z.object({ bootId: id, throughSeq: seq })),
  t1MonoMs: z.number(),
  t2Ms: z.number(),
  t3Ms: z.number(),
});

export const ackFrame = z.object({ kind: z.literal("ack"), bootId: id, throughSeq: seq });

/** The batch did not follow what is stored: send again from here. */
export const resendFrame = z.object({ kind: z.literal("resend"), bootId: id, afterSeq: seq });

export const dashboardBeatFrame = z.object({
  kind: z.literal("beat"),
  t1MonoMs: z.number(),
  t2Ms: z.number(),
  t3Ms: z.number(),
});

/** Said once before the dashboard closes the link; `field` names what was wrong in the frame. */
export const refusedFrame = z.object({
  kind: z.literal("refused"),
  reason: z.string(),
  field: z.string().nullable(),
});

export const dashboardFrame = z.discriminatedUnion("kind", [
  welcomeFrame,
  ackFrame,
  resendFrame,
  dashboardBeatFrame,
  refusedFrame,
]);
export type DashboardFrame = z.infer<typeof dashboardFrame>;

/** A frame of a kind this version does not know: passed over with a log line, so that versions can differ. */
export const anyFrame = z.looseObject({ kind: z.string().min(1).max(60) });
