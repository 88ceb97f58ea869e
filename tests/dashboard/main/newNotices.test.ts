import { describe, expect, it } from "vitest";
import { newNotices } from "../../../dashboard/newNotices.ts";
import { aBooking } from "../../support/aBooking.ts";
import { sixAtMs } from "../../support/aStoredItem.ts";
import { anAlert } from "../../support/anAlert.ts";

const settings = {
  ...{ boothId: "sorrel", name: "Sorrel", isTrailer: false },
  ...{ kitSheets: 400, limitC: 40, box: null },
};
const plan = aBooking({ zone: "America/New_York" });
const booking = { ...plan, fromAtMs: plan.openAtMs, toAtMs: plan.closeAtMs };

function textIn(units: "metric" | "us"): string {
  const alert = anAlert({ matter: "mediaLow", severity: "actNow", emptyAtMs: sixAtMs + 1_200_000 });
  const due = { alert, key: "raised", why: "raised", toRole: "owner" } as const;
  const [notice] = newNotices([due], { settings, booking, units, atMs: sixAtMs, newId: () => "n-1" });
  return (notice?.text ?? "").replaceAll(/[\u00a0\u202f]/g, " ");
}

describe("a notice's words", () => {
  it("are in the units that the business chose, by the venue's clock", () => {
    expect(textIn("metric")).toContain("14:20");
    expect(textIn("us")).toContain("2:20 PM");
  });
});
