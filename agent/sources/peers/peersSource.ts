import type { NewItem } from "@boothward/shared-types";
import { pollingSource } from "../../readings/pollingSource.ts";
import type { Source } from "../../readings/source.ts";
import type { Surroundings } from "../surroundings.ts";
import type { ListDevices } from "./peerLooks.ts";
import { isPeerThere, usbDevices } from "./peerLooks.ts";
import type { PeerConfig, PeersSourceConfig } from "./peersSourceConfig.ts";
import { windowsDevices } from "./windowsDevices.ts";

type PeerItem = Extract<NewItem, { kind: "peer" }>;

/** Where devices are listed, for as long as the source lives. */
export type Devices = { readonly list: ListDevices; close(): Promise<void> };

/** Gone only after so many looks in vain, one after the other: one lost packet is not a lost router. */
export const looksInVain = 3;

/**
 * What stands beside the booth's computer: a `peer` fact for each when it is first known, and whenever it comes or
 * goes. Where devices are looked for and the computer does not list them, the whole source has no value: give a camera
 * a source of its own.
 */
export function peersSource(
  config: PeersSourceConfig,
  { clock }: Surroundings,
  devices: Devices = devicesHere(config, clock),
): Source {
  const { peers, timeoutMs } = config;
  const inVain = peers.map(() => 0);
  const told = peers.map((): boolean | null => null);
  let due: readonly (boolean | null)[] = [];

  return pollingSource({
    name: config.name,
    everyMs: config.everyMs,
    // Each look has its own time, at the end of which it says no.
    timeoutMs: timeoutMs + 5_000,
    async read() {
      const signal = AbortSignal.timeout(timeoutMs);
      const looks = await Promise.all(peers.map((peer) => isPeerThere(peer, devices.list, signal)));
      looks.forEach((isThere, at) => (inVain[at] = isThere ? 0 : (inVain[at] ?? 0) + 1));
      due = looks.map((isThere, at) => {
        const isKnown = isThere || (inVain[at] ?? 0) >= looksInVain;
        return isKnown && told[at] !== isThere ? isThere : null;
      });
      const items = due.flatMap((isThere, at) => {
        const peer = peers[at];
        return isThere === null || peer === undefined ? [] : [{ item: peerItem(peer, isThere) }];
      });
      return { items };
    },
    kept() {
      due.forEach((isThere, at) => {
        if (isThere !== null) told[at] = isThere;
      });
      return Promise.resolve();
    },
    close: () => devices.close(),
  });
}

function peerItem(peer: PeerConfig, isThere: boolean): PeerItem {
  const { part } = peer;
  const name = peer.name ?? peer.tcp ?? peer.http ?? peer.usb ?? peer.path ?? null;
  return { class: "fact", kind: "peer", part, isThere, name: name?.slice(0, 200) ?? null };
}

/** A PowerShell is started only where a device is looked for. */
function devicesHere({ peers, everyMs }: PeersSourceConfig, clock: Surroundings["clock"]): Devices {
  const isAsked = peers.some(({ usb }) => usb !== undefined);
  if (isAsked && process.platform === "win32") return windowsDevices(everyMs, clock);
  return { list: () => usbDevices("/sys"), close: () => Promise.resolve() };
}
