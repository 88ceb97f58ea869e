import { describe, expect, it } from "vitest";
import { isFromOutside, isPublic } from "../../../dashboard/http/abilityRoutes.ts";
import { anyAnswer } from "../../../seeds/dashboardApi.ts";
import { aDashboard, anOwner } from "../../support/aDashboard.ts";
import { request } from "../../support/aRequest.ts";

// Any address that no registry keeps for a special use will do.
const elsewhere = "11.22.33.44";

describe("whether an address can be reached from outside", () => {
  // IANA special-purpose registries (RFC 6890); 100.64.0.0/10 (RFC 6598) is what overlay networks use.
  it.each(["192.168.8.10", "10.0.0.2", "100.64.3.1", "127.0.0.1", "[fd00::2]", "[::1]"])(
    "is no for %s, which belongs to a private network, whoever asks",
    (host) => expect([isPublic(host, false), isPublic(host, true)]).toEqual(["no", "no"]),
  );

  it.each(["localhost", "office-laptop", "booths.local", "booths.home.arpa"])(
    "is no for %s, a name of one network",
    (host) => expect(isPublic(host, false)).toBe("no"),
  );

  it("is not known for another name until somebody came from outside", () => {
    expect(isPublic("booths.example", false)).toBe("unknown");
    expect(isPublic("booths.example", true)).toBe("yes");
    expect(isPublic(elsewhere, true)).toBe("yes");
    expect(isPublic(null, false)).toBe("unknown");
  });

  it("takes nobody of this network for an outsider, with IPv6 neither", () => {
    expect(isFromOutside("192.168.8.33", [])).toBe(false);
    expect(isFromOutside("::ffff:192.168.8.33", [])).toBe(false);
    expect(isFromOutside(null, [])).toBe(false);
    expect(isFromOutside(elsewhere, ["192.168.8.10"])).toBe(true);
    const own = ["2a00:1:2:3::5"];
    expect(isFromOutside("2a00:1:2:3:aaaa::1", own)).toBe(false);
    expect(isFromOutside("2a00:1:2:0003:aaaa:0:0:1", own)).toBe(false);
    expect(isFromOutside("2a00:1:2:4::5", own)).toBe(true);
  });
});

describe("what the owner is told of the dashboard's address", () => {
  it("is the address that was set, and whether this very request came from outside", async () => {
    const unnamed = await aDashboard();
    const api = await anOwner(unnamed);
    await unnamed.close();
    const dashboard = await aDashboard({ dataDir: unnamed.dataDir, origin: "https://booths.example" });
    const headers = { cookie: api.cookie() };
    const asked = (more: Record<string, string>) =>
      request(dashboard.url, "/api/abilities", { headers: { ...headers, ...more } });
    expect((await asked({})).body).toEqual({ origin: "https://booths.example", isPublic: "unknown" });
    // Only a proxy on this computer may say for whom it asks.
    const { body } = await asked({ "x-forwarded-for": elsewhere });
    expect(body).toEqual({ origin: "https://booths.example", isPublic: "yes" });
  });

  it("is without an address of its own the one that was asked", async () => {
    const api = await anOwner(await aDashboard());
    expect(await api.get("/api/abilities", anyAnswer)).toEqual({ origin: null, isPublic: "no" });
  });
});
