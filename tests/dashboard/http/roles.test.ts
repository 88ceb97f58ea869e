import { role } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import { hasBooth, mayAct, mayDo, type Action, type Signed } from "../../../dashboard/http/roles.ts";
import { signedRoute } from "../../../dashboard/http/route.ts";

const owner: Signed = { role: "owner", tokenHash: "t", accountId: "a", name: "Ama", expiresAtMs: 1 };
const attendant: Signed = {
  ...{ role: "attendant", tokenHash: "t", passId: "p", name: "Bo", expiresAtMs: 1 },
  ...{ bookingIds: ["booking-1"], boothIds: ["juniper"] },
};

/** The table once more, written down apart from the code: owner, attendant. */
const cells: Record<Action, readonly [boolean, boolean]> = {
  seeBooths: [true, true],
  stateFacts: [true, true],
  answerAlerts: [true, true],
  seeAlerts: [true, true],
  chooseReach: [true, true],
  tryAlert: [true, true],
  tickChecks: [true, true],
  changeBooths: [true, false],
  pairAgents: [true, false],
  planEvents: [true, false],
  makePasses: [true, false],
  makeSignIns: [true, false],
  chooseSettings: [true, false],
  seeReports: [true, false],
  shareReports: [true, false],
  keepStock: [true, false],
};

describe("who may do what", () => {
  it("has a cell for each role and each action", () => {
    expect(Object.keys(cells).sort()).toEqual(Object.keys(mayDo).sort());
    expect(role.options).toEqual(["owner", "attendant"]);
  });

  it.each(Object.entries(cells))("%s: owner and attendant", async (action, [ofOwner, ofAttendant]) => {
    const route = signedRoute("get", "/", action as Action, () => Promise.resolve({ status: 200, body: {} }));
    const asked = {
      params: {},
      query: {},
      body: {},
      device: "a device",
      host: null,
      fromAddress: null,
      atMs: 0,
    };
    expect(mayAct(owner, action as Action)).toBe(ofOwner);
    expect(mayAct(attendant, action as Action)).toBe(ofAttendant);
    expect((await route.handle({ ...asked, signed: null })).status).toBe(401);
    expect((await route.handle({ ...asked, signed: owner })).status).toBe(ofOwner ? 200 : 403);
    expect((await route.handle({ ...asked, signed: attendant })).status).toBe(ofAttendant ? 200 : 403);
  });

  it("an attendant at the booths of the pass only", () => {
    expect(hasBooth(attendant, "juniper")).toBe(true);
    expect(hasBooth(attendant, "sorrel")).toBe(false);
    expect(hasBooth(owner, "sorrel")).toBe(true);
  });
});
