import type { AnyItem } from "@boothward/shared-types";

type Batch = { readonly bootId: string; readonly afterSeq: number; readonly items: readonly AnyItem[] };
export type Answer = { readonly kind: "ack" | "resend"; readonly bootId: string; readonly seq: number };

/** The storing end of the link, by rules [I3] to [I6], without a socket or a database. */
export class StoringEnd {
  readonly #stored = new Map<string, AnyItem[]>();
  /** Items that were passed over because they were there already. */
  passedOver = 0;

  take({ bootId, afterSeq, items }: Batch): Answer {
    const through = this.throughOf(bootId);
    if (afterSeq > through) return { kind: "resend", bootId, seq: through };
    const fresh = items.filter((item) => item.seq > through);
    this.passedOver += items.length - fresh.length;
    this.#stored.set(bootId, [...this.itemsOf(bootId), ...fresh]);
    return { kind: "ack", bootId, seq: this.throughOf(bootId) };
  }

  throughOf(bootId: string): number {
    return this.itemsOf(bootId).at(-1)?.seq ?? 0;
  }

  itemsOf(bootId: string): readonly AnyItem[] {
    return this.#stored.get(bootId) ?? [];
  }

  boots(): string[] {
    return [...this.#stored.keys()];
  }

  stored(): { bootId: string; throughSeq: number }[] {
    return this.boots().map((bootId) => ({ bootId, throughSeq: this.throughOf(bootId) }));
  }

  /** Goes back to what it was when only so many items of a boot were stored, like a backup that is restored. */
  restore(bootId: string, items: number): void {
    this.#stored.set(bootId, this.itemsOf(bootId).slice(0, items));
  }
}
