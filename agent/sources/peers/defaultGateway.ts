import { join } from "node:path";
import { readText } from "../sysfs.ts";

/**
 * The router through which Linux sends what is for no other network; null: there is none.
 *
 * **Source:** Linux kernel, /proc/net/route: destination, gateway and mask in hexadecimal, the lowest byte first on
 * the computers that booths have.
 */
export async function defaultGateway(root: string): Promise<string | null> {
  const text = await readText(join(root, "net", "route"));
  const rows = (text ?? "").split("\n").slice(1);
  for (const row of rows) {
    const [, destination, gateway] = row.trim().split(/\s+/);
    if (destination !== "00000000" || gateway === undefined || gateway === "00000000") continue;
    const bytes = gateway.match(/../g)?.map((hex) => Number.parseInt(hex, 16)) ?? [];
    return bytes.reverse().join(".");
  }
  return null;
}
