import type { Clock, NewItem } from "@boothward/shared-types";
import type { StateFile } from "../stateFile.ts";
import { shortHash } from "../stateFile.ts";
import { pageSize, pitchesPerPage } from "../pitches.ts";
import type { HookCall } from "./hookCalls.ts";
import type { HookMemory, HookMoment, PrintKnown, SessionKnown } from "./hookMemory.ts";
import { emptyHookMemory, findSession, forgetOld, ownId, withPrint, withSession } from "./hookMemory.ts";

/** What became of a call: it is kept (now, or was before), or it could not be and should be made again. */
export type HookResult =
  | { readonly isKept: true; readonly counted: boolean; readonly ids: Readonly<Record<string, string>> }
  | { readonly isKept: false; readonly why: string };

export type HookBookOptions = {
  readonly file: StateFile<HookMemory>;
  readonly clock: Clock;
  readonly sameIdMs: number;
  readonly pitchesPerCopy: number;
  /** Resolves to true when the fact is durable. */
  readonly keep: (item: NewItem) => Promise<boolean>;
};

/** One call's way: the fact it makes (null: it was counted before), and what is known when that is kept. */
type Entry = {
  readonly item: NewItem | null;
  readonly intended: HookMemory;
  readonly done: HookMemory;
  readonly ids: Readonly<Record<string, string>>;
};

type Call<What extends HookCall["what"]> = Extract<HookCall, { what: What }>;

/** Keeps calls, one after the other and each id once; a call's promise resolves when its fact is durable. */
export function hookBook(options: HookBookOptions): { enter(call: HookCall): Promise<HookResult> } {
  const { file, clock, sameIdMs, keep } = options;
  const start = clock();
  const run = shortHash(`${start.wallMs} ${start.monoMs}`);
  let memory: HookMemory | null = null;
  let madeIds = 0;
  let last: Promise<unknown> = Promise.resolve();

  function nextId(): string {
    return `${run}-${(madeIds += 1)}`;
  }

  async function enter(call: HookCall): Promise<HookResult> {
    const now = { ...clock(), run };
    memory ??= (await file.load()) ?? emptyHookMemory;
    const known = forgetOld(memory, now.wallMs, sameIdMs);
    const { item, intended, done, ids } = entryOf(call, known, now);
    if (item === null) return { isKept: true, counted: false, ids };
    await file.save(intended);
    memory = intended;
    if (!(await keep(item))) return { isKept: false, why: "the outbox could not keep it" };
    memory = done;
    // The fact is safe already; without this line a repeated call is told again, under the same id.
    await file.save(done).catch(() => undefined);
    return { isKept: true, counted: true, ids };
  }

  function entryOf(call: HookCall, known: HookMemory, now: HookMoment): Entry {
    switch (call.what) {
      case "begun":
        return begunEntry(call, known, now);
      case "finished":
        return finishedEntry(call, known, now);
      case "print":
        return printEntry(call, known, now);
    }
  }

  function begunEntry(call: Call<"begun">, known: HookMemory, now: HookMoment): Entry {
    const found = call.sessionId === undefined ? undefined : findSession(known, call.sessionId, now.wallMs);
    const session = { ...(found ?? newSession(call.sessionId, now)), begun: found?.begun ?? now };
    const { sessionId } = session;
    const isTold = session.isBegunKept || session.isFinishedKept;
    return {
      item: isTold ? null : { class: "fact", kind: "sessionBegun", sessionId },
      intended: withSession(known, session),
      done: withSession(known, { ...session, isBegunKept: true }),
      ids: { sessionId: session.givenId },
    };
  }

  function finishedEntry(call: Call<"finished">, known: HookMemory, now: HookMoment): Entry {
    const session = findSession(known, call.sessionId, now.wallMs) ?? newSession(call.sessionId, now);
    const durationMs = call.durationMs ?? (session.begun && lengthMs(session.begun, now));
    const seen = { durationMs, layouts: null, shots: null, basis: "hook" } as const;
    const { sessionId, isFinishedKept } = session;
    return {
      item: isFinishedKept ? null : { class: "fact", kind: "session", sessionId, ...seen },
      intended: withSession(known, session),
      done: withSession(known, { ...session, isFinishedKept: true }),
      ids: { sessionId: session.givenId },
    };
  }

  function printEntry(call: Call<"print">, known: HookMemory, now: HookMoment): Entry {
    const print =
      known.prints.findLast(({ givenId }) => givenId === call.printId) ?? newPrint(call.printId, now);
    // A print may name a session that nobody began: reserving its id lets "finished" name the same one later.
    const session =
      call.sessionId === undefined
        ? null
        : (findSession(known, call.sessionId, now.wallMs) ?? newSession(call.sessionId, now));
    const withIts = session ? withSession(known, session) : known;
    const copies = call.copies ?? 1;
    const pitches = call.pitches ?? pitchesOf(copies, call.size, options.pitchesPerCopy);
    const seen = {
      copies,
      pitches,
      queue: null,
      basis: "hook",
      sessionId: session?.sessionId ?? null,
      size: call.size === undefined ? null : pageSize([call.size.toLowerCase()]),
    } as const;
    return {
      item: print.isKept ? null : { class: "fact", kind: "print", printId: print.printId, ...seen },
      intended: withPrint(withIts, print),
      done: withPrint(withIts, { ...print, isKept: true }),
      ids: { printId: print.givenId, ...(session ? { sessionId: session.givenId } : {}) },
    };
  }

  function newSession(given: string | undefined, { wallMs }: HookMoment): SessionKnown {
    const givenId = given ?? nextId();
    const isNameless = given === undefined;
    const sessionId = isNameless ? givenId : ownId(givenId, wallMs);
    const nothing = { begun: null, isBegunKept: false, isFinishedKept: false };
    return { givenId, sessionId, firstAtMs: wallMs, isNameless, ...nothing };
  }

  function newPrint(given: string | undefined, { wallMs }: HookMoment): PrintKnown {
    const givenId = given ?? nextId();
    const printId = given === undefined ? givenId : ownId(givenId, wallMs);
    return { givenId, printId, firstAtMs: wallMs, isKept: false };
  }

  return {
    enter(call) {
      const result = last.then(() => enter(call)).catch(notKept);
      last = result;
      return result;
    },
  };
}

/** 4x6 lengths of so many copies of this size; two strips of 2x6 are cut from one. */
export function pitchesOf(copies: number, size: string | undefined, pitchesPerCopy: number): number {
  if (size === undefined) return copies * pitchesPerCopy;
  const isStrip = Math.min(...size.toLowerCase().split("x").map(Number)) <= stripIn;
  return isStrip ? Math.ceil(copies / 2) : copies * pitchesPerPage([size.toLowerCase()]);
}

/** Strips are two inches wide, a little more where they are borderless. **Source:** common practice, no source. */
const stripIn = 2.2;

function lengthMs(from: HookMoment, to: HookMoment): number {
  const steadyMs = from.run === to.run ? to.monoMs - from.monoMs : to.wallMs - from.wallMs;
  return Math.max(0, Math.round(steadyMs));
}

function notKept(error: unknown): HookResult {
  return { isKept: false, why: error instanceof Error ? error.message : String(error) };
}
