import { httpError, pairingAnswer } from "@boothward/shared-types";
import type { Credentials } from "./identity.ts";

export type PairOptions = {
  readonly dashboard: string;
  readonly code: string;
  readonly agentId: string;
  readonly hostName: string;
  readonly fetch: typeof fetch;
};

export type Paired =
  | { readonly kind: "paired"; readonly credentials: Credentials }
  /** What to tell the person who typed the code. */
  | { readonly kind: "refused"; readonly sentence: string };

/** Longest the dashboard may take to answer. */
const patienceMs = 20_000;

/** Trades a pairing code for a token: asks the dashboard once. Never throws for what the other end does. */
export async function pairAgent(options: PairOptions): Promise<Paired> {
  const { dashboard, code, agentId, hostName } = options;
  let status: number;
  let answer: unknown;
  try {
    const response = await options.fetch(new URL("/api/pair", dashboard), {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ code, agentId, hostName }),
      signal: AbortSignal.timeout(patienceMs),
    });
    status = response.status;
    answer = await response.json().catch(() => null);
  } catch (error) {
    const why = reasonOf(error);
    return refused(
      `The dashboard at ${dashboard} cannot be reached (${why}). Is the address right, and is it running?`,
    );
  }
  const no = httpError.safeParse(answer);
  if (no.success) return refused(`${no.data.sentence} (The dashboard at ${dashboard} said so.)`);
  const yes = pairingAnswer.safeParse(answer);
  if (status !== 200 || !yes.success)
    return refused(`What answers at ${dashboard} is not a Boothward dashboard (HTTP status ${status}).`);
  return { kind: "paired", credentials: { agentId, dashboard, ...yes.data } };
}

function refused(sentence: string): Paired {
  return { kind: "refused", sentence };
}

/** fetch hides the network's own error in `cause`. */
function reasonOf(error: unknown): string {
  const cause: unknown = error instanceof Error ? (error.cause ?? error) : error;
  if (!(cause instanceof Error)) return String(cause);
  return ("code" in cause && String(cause.code)) || cause.message;
}
