import * as z from "zod";

/** A moment by both clocks; the steady one means something only within one run of the agent. */
const moment = z.object({ wallMs: z.number(), monoMs: z.number(), run: z.string() });
export type HookMoment = z.infer<typeof moment>;

const sessionKnown = z.object({
  /** As the booth program calls it. */
  givenId: z.string(),
  /** As it is told; another one when the same given id means another session. */
  sessionId: z.string(),
  firstAtMs: z.number(),
  isNameless: z.boolean(),
  begun: moment.nullable(),
  isBegunKept: z.boolean(),
  isFinishedKept: z.boolean(),
});
export type SessionKnown = z.infer<typeof sessionKnown>;

const printKnown = z.object({
  givenId: z.string(),
  printId: z.string(),
  firstAtMs: z.number(),
  isKept: z.boolean(),
});
export type PrintKnown = z.infer<typeof printKnown>;

/**
 * Ids that were called lately. Written before a fact is: a call that is made again after a power cut then gives
 * the same fact the same id, and is counted once by whoever gets it twice.
 */
export const hookMemory = z.object({ sessions: z.array(sessionKnown), prints: z.array(printKnown) });
export type HookMemory = z.infer<typeof hookMemory>;

export const emptyHookMemory: HookMemory = { sessions: [], prints: [] };

/** A full evening at twenty seconds a session, twice over. */
const mostKnown = 2_000;
/** A session that was begun longer ago than this and never finished was given up. */
const mostSessionMs = 30 * 60_000;

/** The memory without what is too old to be meant. */
export function forgetOld({ sessions, prints }: HookMemory, wallMs: number, sameIdMs: number): HookMemory {
  const isRecent = (known: { readonly firstAtMs: number }): boolean => wallMs - known.firstAtMs <= sameIdMs;
  return {
    sessions: sessions.filter(isRecent).slice(-mostKnown),
    prints: prints.filter(isRecent).slice(-mostKnown),
  };
}

/** The session of this id; without an id, the last one that was begun without one and is still under way. */
export function findSession(
  { sessions }: HookMemory,
  givenId: string | undefined,
  wallMs: number,
): SessionKnown | undefined {
  if (givenId !== undefined) return sessions.findLast((known) => known.givenId === givenId);
  return sessions.findLast(
    ({ isNameless, isFinishedKept, firstAtMs }) =>
      isNameless && !isFinishedKept && wallMs - firstAtMs <= mostSessionMs,
  );
}

/** The memory with this session as it is now. */
export function withSession(memory: HookMemory, session: SessionKnown): HookMemory {
  const others = memory.sessions.filter((known) => known.sessionId !== session.sessionId);
  return { ...memory, sessions: [...others, session] };
}

/** The memory with this print as it is now. */
export function withPrint(memory: HookMemory, print: PrintKnown): HookMemory {
  const others = memory.prints.filter((known) => known.printId !== print.printId);
  return { ...memory, prints: [...others, print] };
}

/** An id of its own for what a program calls by the same id at every event. */
export function ownId(givenId: string, wallMs: number): string {
  return `${givenId}@${Math.max(0, Math.round(wallMs)).toString(36)}`;
}
