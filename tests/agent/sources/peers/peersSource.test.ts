import { once } from "node:events";
import { mkdir, rm, writeFile } from "node:fs/promises";
import { createServer as createHttpServer } from "node:http";
import type { Server } from "node:net";
import { createServer } from "node:net";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { describe, expect, onTestFinished, test } from "vitest";
import { defaultGateway } from "../../../../agent/sources/peers/defaultGateway.ts";
import { answersHttp, answersTcp, isListed, usbDevices } from "../../../../agent/sources/peers/peerLooks.ts";
import type { Devices } from "../../../../agent/sources/peers/peersSource.ts";
import { looksInVain, peersSource } from "../../../../agent/sources/peers/peersSource.ts";
import { peersSourceConfig } from "../../../../agent/sources/peers/peersSourceConfig.ts";
import { aHandClock } from "../../../support/aHandClock.ts";
import { freePort } from "../../../support/freePort.ts";
import { scratchFolder } from "../../../support/scratchFolder.ts";
import { until } from "../../../support/until.ts";
import { watchSource } from "../../../support/watchSource.ts";

const never = new AbortController().signal;

async function listening(server: Server): Promise<number> {
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
  onTestFinished(() => void server.close());
  return (server.address() as AddressInfo).port;
}

/** A source that looks at one camera among devices that the test changes, each look when the test lets it. */
async function aCamera(isKept: () => boolean = () => true) {
  let names: readonly string[] | Error = ["1209:0001 Maker Camera"];
  let looks = 0;
  const devices: Devices = {
    list() {
      looks += 1;
      return names instanceof Error ? Promise.reject(names) : Promise.resolve(names);
    },
    close: () => Promise.resolve(),
  };
  const peers = [{ part: "camera", name: "the camera", usb: "maker camera" }];
  const config = { ...peersSourceConfig.parse({ kind: "peers", peers }), everyMs: 5 };
  const surroundings = { clock: aHandClock().clock, stateFolder: scratchFolder() };
  const watched = await watchSource(peersSource(config, surroundings, devices), isKept);
  onTestFinished(() => watched.close());
  return {
    watched,
    show: (shown: readonly string[] | Error) => void (names = shown),
    looked: (times: number) => {
      const from = looks;
      return until(() => looks >= from + times, `${times} looks more`);
    },
    told: () => watched.items("peer").map(({ isThere }) => isThere),
  };
}

describe("what is told of a peer", () => {
  test("that it is there, once; that it is gone after three looks in vain; that it is back at once", async () => {
    const { watched, show, looked, told } = await aCamera();
    await looked(4);
    expect(watched.items("peer")).toEqual([
      { class: "fact", kind: "peer", part: "camera", isThere: true, name: "the camera" },
    ]);
    show([]);
    await until(() => told().length === 2, "it is gone");
    show(["1209:0001 Maker Camera"]);
    await until(() => told().length === 3, "it is back");
    await looked(3);
    expect(told()).toEqual([true, false, true]);
  });

  test("nothing when one look, or two, were in vain", async () => {
    let looks = 0;
    // Two of three looks find nothing, for ever.
    const devices: Devices = {
      list: () => Promise.resolve(looks++ % looksInVain === 0 ? ["Maker Camera"] : []),
      close: () => Promise.resolve(),
    };
    const peers = [{ part: "camera", usb: "Maker" }];
    const config = { ...peersSourceConfig.parse({ kind: "peers", peers }), everyMs: 2 };
    const watched = await watchSource(
      peersSource(config, { clock: aHandClock().clock, stateFolder: scratchFolder() }, devices),
    );
    onTestFinished(() => watched.close());
    await until(() => looks > 20, "20 looks");
    expect(watched.items("peer").map(({ isThere }) => isThere)).toEqual([true]);
  });

  test("again until the outbox could keep it", async () => {
    let isKept = false;
    const { watched, told } = await aCamera(() => isKept);
    await until(() => watched.refused.length >= 2, "it was refused twice");
    expect(told()).toEqual([]);
    isKept = true;
    await until(() => told().length === 1, "it was kept");
  });

  test("no value at all while the computer does not list its devices", async () => {
    const { watched, show, told } = await aCamera();
    await until(() => told().length === 1, "it is there");
    show(new Error("no list"));
    await until(() => watched.fault() === "unreadable", "the source has no value");
    expect(told()).toEqual([true]);
  });
});

describe("a look", () => {
  test("by TCP finds what takes the call and what refuses it, and not what is silent", async () => {
    const port = await listening(createServer((socket) => void socket.end()));
    expect(await answersTcp("127.0.0.1", port, never)).toBe(true);
    expect(await answersTcp("127.0.0.1", await freePort(), never)).toBe(true);
    const over = new AbortController();
    over.abort();
    expect(await answersTcp("127.0.0.1", port, over.signal)).toBe(false);
    expect(await answersTcp("no-such-host.invalid", 80, never)).toBe(false);
  });

  test("by http wants a good answer, as a sign-in page answers with another", async () => {
    const server = createHttpServer((request, response) => {
      response.writeHead(request.url === "/away" ? 302 : 204, { location: "/sign-in" }).end();
    });
    const port = await listening(server);
    expect(await answersHttp(`http://127.0.0.1:${port}/`, never)).toBe(true);
    expect(await answersHttp(`http://127.0.0.1:${port}/away`, never)).toBe(false);
    expect(await answersHttp(`http://127.0.0.1:${await freePort()}/`, never)).toBe(false);
  });

  test("at USB reads the kernel's ABI sysfs-bus-usb, by name or number in any case", async () => {
    const root = scratchFolder();
    const put = async (device: string, fields: Record<string, string>) => {
      const folder = join(root, "bus", "usb", "devices", device);
      await mkdir(folder, { recursive: true });
      for (const [name, text] of Object.entries(fields)) await writeFile(join(folder, name), `${text}\n`);
    };
    await put("1-2", {
      idVendor: "1209",
      idProduct: "0001",
      manufacturer: "Maker Inc.",
      product: "Digital Camera",
    });
    await put("1-2:1.0", { bInterfaceClass: "06" });
    await put("usb1", { idVendor: "1d6b", idProduct: "0002", product: "xHCI Host Controller" });
    const devices = await usbDevices(root);
    expect(devices.toSorted()).toEqual([
      "1209:0001 Maker Inc. Digital Camera",
      "1d6b:0002  xHCI Host Controller",
    ]);
    expect(isListed(devices, "digital camera")).toBe(true);
    expect(isListed(devices, "1209:0001")).toBe(true);
    expect(isListed(devices, "other camera")).toBe(false);
    await rm(join(root, "bus"), { recursive: true });
    await expect(usbDevices(root)).rejects.toThrow("ENOENT");
  });
});

describe("settings", () => {
  const read = (peer: object) =>
    peersSourceConfig.safeParse({ kind: "peers", peers: [{ part: "router", ...peer }] });

  test.each([
    { tcp: "192.168.8.1:80" },
    { tcp: "[fe80::1]:80" },
    { http: "https://dashboard.example/" },
    { usb: "1209:0001" },
    { path: "/dev/video0" },
  ])("take %o", (peer) => expect(read(peer).success).toBe(true));

  test.each([
    {},
    { tcp: "192.168.8.1" },
    { tcp: "192.168.8.1:0" },
    { tcp: "fe80::1:80" },
    { http: "ftp://files.example/" },
    { tcp: "192.168.8.1:80", usb: "camera" },
  ])("refuse %o", (peer) => expect(read(peer).success).toBe(false));
});

test("the router is read from /proc/net/route, whose figures begin with the lowest byte", async () => {
  const root = scratchFolder();
  await mkdir(join(root, "net"), { recursive: true });
  const route = [
    "Iface\tDestination\tGateway \tFlags\tRefCnt\tUse\tMetric\tMask\t\tMTU\tWindow\tIRTT",
    "wlan0\t0008A8C0\t00000000\t0001\t0\t0\t600\t00FFFFFF\t0\t0\t0",
    "wlan0\t00000000\t0108A8C0\t0003\t0\t0\t600\t00000000\t0\t0\t0",
  ];
  await writeFile(join(root, "net", "route"), `${route.join("\n")}\n`);
  expect(await defaultGateway(root)).toBe("192.168.8.1");
  expect(await defaultGateway(scratchFolder())).toBeNull();
});
