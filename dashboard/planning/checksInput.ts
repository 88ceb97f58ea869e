import type { BoothView, BookingInput } from "@boothward/shared-types";
import type { SetUpFacts } from "./setUpFacts.ts";

/** What the checks of a booth before its doors are made from. */
export type ChecksInput = {
  readonly booking: Pick<
    BookingInput,
    "openAtMs" | "closeAtMs" | "guests" | "spareRolls" | "printSizes" | "power"
  >;
  /** The booth as its page shows it at `atMs`. */
  readonly view: BoothView;
  readonly facts: SetUpFacts;
  /** Room on the booth computer's disk, lately; null: not known. */
  readonly diskFreeMb: number | null;
  readonly atMs: number;
};
