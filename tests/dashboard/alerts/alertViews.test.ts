import { alertView as alertViewSchema } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import type { Alert } from "../../../dashboard/alerts/alert.ts";
import { alertViews } from "../../../dashboard/alerts/alertViews.ts";
import { anAlert } from "../../support/anAlert.ts";

describe("what people see", () => {
  const base = anAlert({ matter: "tooHot", severity: "plan" });
  const alerts: Alert[] = [
    { ...base, alertId: "holding", phase: "holding" },
    { ...base, alertId: "soon", sinceAtMs: 1 },
    { ...base, alertId: "now-later", severity: "actNow", sinceAtMs: 9, phase: "clearing" },
    { ...base, alertId: "now", severity: "actNow", sinceAtMs: 2 },
    { ...base, alertId: "silence", matter: "agentSilent", sinceAtMs: 3 },
    { ...base, alertId: "test", matter: "testNotReceived", sinceAtMs: 4 },
    { ...base, alertId: "over", phase: "over", clearedAtMs: 90 },
  ];

  it("is what is open, the most pressing first", () => {
    expect(alertViews(alerts, true, 100).map(({ alertId }) => alertId)).toEqual([
      "now",
      "now-later",
      "soon",
      ...["silence", "test"],
    ]);
  });

  it("is, of a booth that is not heard, only what needs no word from it", () => {
    expect(alertViews(alerts, false, 100).map(({ alertId }) => alertId)).toEqual(["silence", "test"]);
  });

  it("has the shape the page parses, and no more", () => {
    for (const view of alertViews(alerts, true, 100)) {
      expect(Object.keys(view).sort()).toEqual(Object.keys(alertViewSchema.shape).sort());
      expect(alertViewSchema.parse(view)).toEqual(view);
    }
  });
});
