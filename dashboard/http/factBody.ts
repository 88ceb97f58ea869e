import { pitchBasis, readiness, sessionBasis } from "@boothward/shared-types";
import * as z from "zod";

/** What a person may state of a booth; who said it is not asked but known. */

const sheets = z.int().max(5_000);
/** When it was so, where that was not just now. */
const atMs = z.int().optional();

export const factBody = z.discriminatedUnion("kind", [
  z.object({ kind: z.literal("rollFitted"), sheets: sheets.min(1), atMs }),
  z.object({ kind: z.literal("rollTakenOff"), sheetsLeft: sheets.min(0).nullable(), atMs }),
  z.object({ kind: z.literal("rollDenied"), atMs }),
  z.object({ kind: z.literal("correction"), sheetsLeft: sheets.min(0), atMs }),
  z.object({
    ...{ kind: z.literal("waste"), pitches: z.int().min(1).max(1_000), atMs },
    cause: z.enum(["change", "test", "spoilt"]),
  }),
  z.object({
    ...{ kind: z.literal("authority"), sessionsBy: z.enum(sessionBasis.options).nullable() },
    pitchesBy: z.enum(pitchBasis.options).nullable(),
  }),
  z.object({ kind: z.literal("readiness"), to: z.enum(readiness.options), atMs }),
  z.object({ kind: z.literal("extended"), bookingId: z.string().min(1).max(80), closeAtMs: z.int() }),
  z.object({ kind: z.literal("check"), check: z.string().trim().min(1).max(60), isDone: z.boolean(), atMs }),
  z.object({ kind: z.literal("takenBack"), bootId: z.string().min(1).max(80), seq: z.int().min(1) }),
]);
export type FactBody = z.infer<typeof factBody>;
