import type { PitchBasis, Readiness, SessionBasis } from "@boothward/shared-types/words";
import * as z from "zod/mini";
import { usePage } from "../state/pageContext.ts";
import { useSend } from "../state/useSend.ts";

/** What a person may say of a booth; the dashboard adds who and when. */
export type PersonWord =
  | { kind: "rollFitted"; sheets: number; atMs?: number }
  | { kind: "rollTakenOff"; sheetsLeft: number | null; atMs?: number }
  | { kind: "rollDenied"; atMs?: number }
  | { kind: "correction"; sheetsLeft: number }
  | { kind: "waste"; pitches: number; cause: WasteCause }
  | { kind: "readiness"; to: Readiness }
  | { kind: "check"; check: string; isDone: boolean }
  | { kind: "takenBack"; bootId: string; seq: number }
  | { kind: "authority"; sessionsBy: SessionBasis | null; pitchesBy: PitchBasis | null }
  | { kind: "extended"; bookingId: string; closeAtMs: number };

export type WasteCause = "change" | "test" | "spoilt";

/** Names the fact that was made of the word, and the moment it is of. */
const madeFact = z.object({ bootId: z.string(), seq: z.number(), atMs: z.number() });

/** Says something of a booth to the dashboard; `say` gives null when it was refused. */
export function useSay(boothId: string) {
  const page = usePage();
  const { refusal, isBusy, send } = useSend();
  const address = `/api/booths/${encodeURIComponent(boothId)}/facts`;
  const say = (word: PersonWord) => send(() => page.call("POST", address, madeFact, word));
  return { refusal, isBusy, say };
}
