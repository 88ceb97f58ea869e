import type { IppClient } from "./ippClient.ts";
import type { IppFault } from "./ippFault.ts";
import { ippStatus } from "./ippFault.ts";
import { cancelSubscription, subscribe, takeEvents } from "./operations.ts";

/**
 * What the printer's events say: nothing happened, something did, some of it was lost (look at everything),
 * or this printer tells no events.
 */
export type FeedWord = "quiet" | "news" | "lost" | "none";

export type EventFeed = {
  /** Asks once; makes the subscription first where there is none. */
  poll(monoMs: number): Promise<{ word: FeedWord } | IppFault>;
  close(): Promise<void>;
};

/** A printer that tells no events is asked again for a subscription after this long. */
const askAgainMs = 60_000;

/** Follows the events of a queue by their sequence numbers. **Source:** RFC 3995, RFC 3996. */
export function eventFeed(client: IppClient): EventFeed {
  let subscriptionId: number | null = null;
  let nextSequence = 1;
  let askFromMonoMs = -Infinity;

  async function begin(monoMs: number): Promise<{ word: FeedWord } | IppFault> {
    if (monoMs < askFromMonoMs) return { word: "none" };
    const made = await subscribe(client);
    if ("subscriptionId" in made) {
      ({ subscriptionId } = made);
      nextSequence = 1;
      return { word: "lost" };
    }
    if (!isRefusal(made)) return made;
    askFromMonoMs = monoMs + askAgainMs;
    return { word: "none" };
  }

  return {
    async poll(monoMs) {
      if (subscriptionId === null) return await begin(monoMs);
      const taken = await takeEvents(client, subscriptionId, nextSequence);
      if ("fault" in taken) {
        if (taken.status !== ippStatus.notFound) return taken;
        // The lease ran out, or the print server was set up anew.
        subscriptionId = null;
        return await begin(monoMs);
      }
      const [first] = taken.sequences;
      if (first === undefined) return { word: "quiet" };
      const word = first > nextSequence ? "lost" : "news";
      nextSequence = Math.max(...taken.sequences) + 1;
      return { word };
    },
    async close() {
      if (subscriptionId !== null) await cancelSubscription(client, subscriptionId);
      subscriptionId = null;
    },
  };
}

/** The printer is there and says no to subscriptions: it may still be read. */
function isRefusal(fault: IppFault): boolean {
  return fault.fault === "unsupported" || fault.fault === "refused";
}
