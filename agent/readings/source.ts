import type { ClockReading, FaultWord, NewItem } from "@boothward/shared-types";

/**
 * Anything that sees a part of the booth: a print queue, a folder, a thermometer, this computer.
 *
 * A source begins to speak after `start` and says nothing after `close` has resolved. It reports what it
 * saw, or why it has no value; it never throws for what the world does to it.
 */
export type Source = {
  /** Unique within one agent, at most 80 characters; it is the `source` of every item. */
  readonly name: string;
  start(emit: Emit): void | Promise<void>;
  close(): Promise<void>;
};

/**
 * Hands an answer on. Resolves to true once its items are durable in the outbox, and to false if they
 * could not be kept; never rejects. A source that remembers what it has reported waits for true first.
 */
export type Emit = (answer: SourceAnswer) => Promise<boolean>;

/** What a source saw (an empty list means "well, and nothing new"), or why it has no value. */
export type SourceAnswer =
  { readonly items: readonly SourceItem[] } | { readonly fault: FaultWord; readonly detail: string };

export type SourceItem = {
  readonly item: NewItem;
  /** How long before now it happened, ms; 0 when left out. */
  readonly agoMs?: number;
  /** Both clocks at the moment it happened, instead of the agent's own; only a played scenario sets it. */
  readonly clock?: ClockReading;
  /** Source to name instead of the one that says it: one of several sensors, or a part of a played scenario. */
  readonly source?: string;
  /** How far the source has come with this item: kept with it in the outbox, there again after a restart. */
  readonly mark?: string;
};
