import { access, readdir } from "node:fs/promises";
import { connect } from "node:net";
import { join } from "node:path";
import { readText } from "../sysfs.ts";
import type { PeerConfig } from "./peersSourceConfig.ts";
import { hostOf, portOf } from "./peersSourceConfig.ts";

/** Names and numbers of the devices that are plugged in, as the computer lists them; rejects where it does not say. */
export type ListDevices = () => Promise<readonly string[]>;

/** Whether a peer is there now; a look that finds nothing, or takes longer than the signal lets it, says no. */
export async function isPeerThere(
  peer: PeerConfig,
  listDevices: ListDevices,
  signal: AbortSignal,
): Promise<boolean> {
  if (peer.tcp !== undefined) return await answersTcp(hostOf(peer.tcp), portOf(peer.tcp), signal);
  if (peer.http !== undefined) return await answersHttp(peer.http, signal);
  if (peer.path !== undefined) return await isPresent(peer.path);
  return isListed(await listDevices(), peer.usb ?? "");
}

/** A host that refuses has answered: it is there. */
export async function answersTcp(host: string, port: number, signal: AbortSignal): Promise<boolean> {
  return await new Promise((resolve) => {
    const socket = connect({ host, port, signal });
    const end = (isThere: boolean) => {
      socket.destroy();
      resolve(isThere);
    };
    socket.once("connect", () => end(true));
    socket.once("error", (error: NodeJS.ErrnoException) => end(error.code === "ECONNREFUSED"));
  });
}

/** Over https the certificate shows who answers; without it a sign-in page may, and sends elsewhere. */
export async function answersHttp(url: string, signal: AbortSignal): Promise<boolean> {
  try {
    const response = await fetch(url, { method: "HEAD", redirect: "manual", signal });
    await response.body?.cancel();
    return new URL(url).protocol === "https:" || response.ok;
  } catch {
    return false;
  }
}

async function isPresent(path: string): Promise<boolean> {
  return await access(path).then(
    () => true,
    () => false,
  );
}

/** Names know no upper and lower case. */
export function isListed(devices: readonly string[], name: string): boolean {
  return devices.some((device) => device.toLowerCase().includes(name.toLowerCase()));
}

/**
 * The USB devices of Linux, each as "1209:0001 Maker Product".
 *
 * **Source:** Linux kernel documentation, ABI sysfs-bus-usb. Rejects where there is no such tree.
 */
export async function usbDevices(root: string): Promise<readonly string[]> {
  const base = join(root, "bus", "usb", "devices");
  const names = await readdir(base);
  const described = await Promise.all(
    names.map(async (name) => {
      const read = (field: string) => readText(join(base, name, field));
      const [vendor, product] = [await read("idVendor"), await read("idProduct")];
      if (vendor === null || product === null) return [];
      return [[`${vendor}:${product}`, await read("manufacturer"), await read("product")].join(" ").trim()];
    }),
  );
  return described.flat();
}
