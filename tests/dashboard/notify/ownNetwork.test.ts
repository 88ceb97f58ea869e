import { describe, expect, it } from "vitest";
import { openCallOut } from "../../../dashboard/notify/callOut.ts";
import { ownNetwork } from "../../../dashboard/notify/ownNetwork.ts";
import { nearby } from "../../support/aDashboard.ts";
import { aReceiver } from "../../support/aReceiver.ts";

describe("an address that leads home", () => {
  const isOwn = ownNetwork(() => ["93.184.216.34", "2606:2800:220:1::5"]);

  // Source: IANA IPv4 and IPv6 Special-Purpose Address Registries (RFC 6890).
  it.each([
    ...["0.0.0.0", "10.1.2.3", "100.64.0.1", "127.0.0.1", "127.255.255.254", "169.254.169.254"],
    ...["172.16.0.1", "172.31.255.255", "192.168.1.1", "198.18.0.1", "224.0.0.1", "255.255.255.255"],
    ...[
      "::",
      "::1",
      "fe80::1",
      "fe80::1%eth0",
      "fc00::1",
      "fd12::1",
      "ff02::1",
      "2001:db8::1",
      "2002:7f00:1::",
    ],
    ...["::ffff:127.0.0.1", "::ffff:192.168.0.1", "::ffff:a00:1", "64:ff9b::10.0.0.1", "[::1]"],
    ...["93.184.216.34", "2606:2800:220:1::5", "localhost", ""],
  ])("%s does", (address) => {
    expect(isOwn(address)).toBe(true);
  });

  it.each([
    ...["8.8.8.8", "172.32.0.1", "100.128.0.1", "192.169.0.1", "93.184.216.35", "11.0.0.1"],
    ...["2606:4700::1111", "::ffff:8.8.8.8", "64:ff9b::8.8.8.8", "2a00:1450::1"],
  ])("%s does not", (address) => {
    expect(isOwn(address)).toBe(false);
  });
});

describe("calls to the outside", () => {
  it("never reach this machine, by number or by name, unless that is allowed", async () => {
    const receiver = await aReceiver(200);
    const { port } = new URL(receiver.url);
    const callOut = openCallOut({ ...nearby, mayCallOwnNetwork: false });
    const call = (url: string) => callOut({ method: "GET", url, headers: {}, body: null });
    for (const host of ["127.0.0.1", "localhost", "[::1]", "2130706433", "0x7f.1", "[::ffff:127.0.0.1]"])
      expect([host, await call(`http://${host}:${port}/`)]).toEqual([host, { fault: "ownNetwork" }]);
    expect(receiver.calls).toEqual([]);
    const allowed = openCallOut(nearby);
    const url = `http://localhost:${port}/`;
    expect(await allowed({ method: "GET", url, headers: {}, body: null })).toMatchObject({ status: 200 });
  });

  it("follow no redirect", async () => {
    const home = await aReceiver(200);
    const away = await aReceiver({ status: 302, headers: { location: home.url } });
    const called = await openCallOut(nearby)({ method: "GET", url: away.url, headers: {}, body: null });
    expect(called).toMatchObject({ status: 302 });
    expect(home.calls).toEqual([]);
  });
});
