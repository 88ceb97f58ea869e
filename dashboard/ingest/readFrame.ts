import {
  agentFrame,
  anyFrame,
  protocolVersion,
  type AgentFrame,
  type CloseWord,
} from "@boothward/shared-types";
import type { RawData } from "ws";
import * as z from "zod";

/** What an agent's message is: a frame, one of a later version's kinds, or a reason to hang up. */
export type FrameRead =
  | { readonly as: "frame"; readonly frame: AgentFrame }
  | { readonly as: "passedOver"; readonly kind: string }
  | {
      readonly as: "refused";
      readonly close: CloseWord;
      readonly reason: string;
      readonly field: string | null;
    };

const knownFrames: ReadonlySet<string> = new Set(agentFrame.options.map((option) => option.shape.kind.value));
const anyGreeting = z.looseObject({ kind: z.literal("greet"), protocol: z.int() });

/** Reads one message of an agent, [F1], [F3], [F4] and [L3] of PROTOCOL.md. */
export function readMessage(message: RawData, isBinary: boolean): FrameRead {
  if (isBinary) return badFrame("frames are text, this one is binary", null);
  return readFrame(textOf(message));
}

export function readFrame(text: string): FrameRead {
  const json = parseJson(text);
  if (json === undefined) return badFrame("the frame is not JSON", null);
  const any = anyFrame.safeParse(json);
  if (!any.success) return badFrame(...issueOf(any.error));
  if (!knownFrames.has(any.data.kind)) return { as: "passedOver", kind: any.data.kind };
  const greeting = anyGreeting.safeParse(json);
  if (greeting.success && greeting.data.protocol !== protocolVersion)
    return wrongProtocol(greeting.data.protocol);
  const frame = agentFrame.safeParse(json);
  if (!frame.success) return badFrame(...issueOf(frame.error));
  return unrisingField(frame.data) ?? { as: "frame", frame: frame.data };
}

function wrongProtocol(theirs: number): FrameRead {
  const reason = `the agent speaks version ${theirs} of the link, this dashboard version ${protocolVersion}`;
  return { as: "refused", close: "wrongProtocol", reason, field: "protocol" };
}

function unrisingField(frame: AgentFrame): FrameRead | null {
  if (frame.kind !== "batch") return null;
  let before = frame.afterSeq;
  for (const [index, { seq }] of frame.items.entries()) {
    if (seq <= before) return badFrame(`number ${seq} does not rise above ${before}`, `items.${index}.seq`);
    before = seq;
  }
  return null;
}

function badFrame(reason: string, field: string | null): FrameRead {
  return { as: "refused", close: "badFrame", reason, field };
}

/** What the first thing wrong is, and the field's path; the value itself is not repeated. */
export function issueOf(error: z.ZodError): [reason: string, field: string | null] {
  const issue = error.issues[0];
  if (issue === undefined) return ["not as the schema says", null];
  return [issue.message, issue.path.length === 0 ? null : issue.path.join(".")];
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function textOf(message: RawData): string {
  if (Array.isArray(message)) return Buffer.concat(message).toString("utf8");
  return Buffer.isBuffer(message) ? message.toString("utf8") : Buffer.from(message).toString("utf8");
}
