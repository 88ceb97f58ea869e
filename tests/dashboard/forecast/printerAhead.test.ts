import { describe, expect, it } from "vitest";
import { noReadings } from "../../../dashboard/booth/readings.ts";
import { printerAhead } from "../../../dashboard/forecast/printerAhead.ts";
import { aBooking } from "../../support/aBooking.ts";

const hourMs = 3_600_000;
const plan = aBooking({});
const booking = { ...plan, fromAtMs: plan.openAtMs, toAtMs: plan.closeAtMs };
const atMs = booking.openAtMs + hourMs;
const rate = { sheetsPerHour: 30, sheetsPerSession: 1 };

/** Sheets of so many seconds each, at such temperatures. */
function pace(
  queue: string,
  ...runs: readonly (readonly [count: number, intervalS: number, insideC: number])[]
) {
  const intervals = runs.flatMap(([count, intervalS, insideC]) =>
    Array.from({ length: count }, (_, at) => ({ atMs: atMs - at, intervalS: intervalS + at / 100, insideC })),
  );
  return { queue, finishedAtMs: atMs, isFollowed: false, intervals };
}

describe("what is seen of the printer's own pace", () => {
  it("is the slowing of the printer that slows most", () => {
    const paces = [pace("dye", [12, 14, 30], [6, 19, 37]), pace("other", [12, 14, 30], [6, 25, 37])];
    const ahead = printerAhead({ readings: { ...noReadings, paces } }, booking, { sessions: [] }, rate, atMs);
    expect(ahead?.slowing).toMatchObject({ isByHeat: true });
    expect(ahead?.slowing?.lateS).toBeCloseTo(25, 0);
  });

  it("is nothing while sheets take as long as before, and before the doors open", () => {
    const readings = { ...noReadings, paces: [pace("dye", [12, 14, 30], [6, 14, 37])] };
    expect(printerAhead({ readings }, booking, { sessions: [] }, rate, atMs)?.slowing).toBeNull();
    expect(printerAhead({ readings }, booking, { sessions: [] }, rate, booking.openAtMs - hourMs)).toBeNull();
  });

  it("weighs a rest by what the booth and its printer can take in an hour", () => {
    const ahead = (perHour: number) =>
      printerAhead(
        { readings: noReadings },
        booking,
        { sessions: [] },
        { ...rate, sheetsPerHour: perHour },
        atMs,
      );
    // 30 groups an hour, and until sessions are seen at most 90, three times the rate: 5 x 90 / 60 = 7.5 wait.
    expect(ahead(30)?.pause.cost?.guestsDelayed).toBeCloseTo(7.5, 5);
    // A printer of 12 s a sheet makes 300 an hour: more than that never clears.
    expect(ahead(400)?.pause.cost).toBeNull();
  });
});
