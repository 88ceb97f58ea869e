import type { DueDelivery } from "../store/notices.ts";

/** What came of handing a notice to a way: data, never a throw. `gone`: the way itself is no more. */
export type SendResult =
  | { readonly result: "sent" }
  /** `retryInMs`: what the other side asked for; null: it said nothing. */
  | { readonly result: "retryable"; readonly retryInMs: number | null; readonly said: string }
  | { readonly result: "refused"; readonly reason: string }
  | { readonly result: "gone"; readonly reason: string };

/** A notice as it is sent: the same id however often it is tried, so that a repeat can be recognised. */
export type Message = Pick<DueDelivery, "deliveryId" | "notice" | "boothName"> & {
  /** What the device says to tell that it came. */
  readonly secret: string;
  /** "Now", "Soon", "Good to know". */
  readonly title: string;
  /** Where in the pages it leads. */
  readonly path: string;
  /** The same as a whole address. */
  readonly link: string;
};

/** One way of sending; `body` is the reach's own, parsed by the channel. */
export type Channel = {
  send(body: unknown, message: Message, atMs: number): Promise<SendResult>;
};
