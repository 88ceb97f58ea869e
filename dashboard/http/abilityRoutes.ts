import { isIP } from "node:net";
import { ownNetwork } from "../notify/ownNetwork.ts";
import { ownerRoute, type Route } from "./route.ts";
import type { HttpSurroundings } from "./surroundings.ts";

/** Whether an address of the dashboard can be reached from anywhere; a name alone does not tell. */
export type IsPublic = "yes" | "no" | "unknown";

/** What the address that people type allows; what the browser allows there the page sees for itself. */
export function abilityRoutes({ origin, outside }: HttpSurroundings): Route[] {
  return [
    ownerRoute("get", "/api/abilities", "chooseSettings", ({ host, fromAddress }) => {
      const name = origin === null ? host : new URL(origin).hostname;
      const isSeen = isFromOutside(fromAddress, outside.ownAddresses());
      return Promise.resolve({ status: 200, body: { origin, isPublic: isPublic(name, isSeen) } });
    }),
  ];
}

const isSpecial = ownNetwork(() => []);

/** Source: RFC 6761 section 6.3 (localhost), RFC 6762 section 3 (local), RFC 8375 (home.arpa). */
const homeNames = /(^|\.)(localhost|local|home\.arpa)$/;

/** `isSeen`: this very request came from outside. */
export function isPublic(host: string | null, isSeen: boolean): IsPublic {
  if (host === null) return isSeen ? "yes" : "unknown";
  const name = host.replace(/^\[|\]$/g, "").toLowerCase();
  if (isIP(name) !== 0 && isSpecial(name)) return "no";
  if (isIP(name) === 0 && (!name.includes(".") || homeNames.test(name))) return "no";
  return isSeen ? "yes" : "unknown";
}

/** Whether a request came from another network: with IPv6 also a neighbour has a public address. */
export function isFromOutside(address: string | null, own: readonly string[]): boolean {
  if (address === null || isSpecial(address)) return false;
  const network = networkOf(address);
  return network === null || !own.some((each) => networkOf(each) === network);
}

/** The first half of an IPv6 address, by which networks are told apart (RFC 4291 section 2.5.4). */
function networkOf(address: string): string | null {
  const [bare = ""] = address.split("%");
  if (isIP(bare) !== 6) return null;
  const [head = "", tail] = bare.split("::");
  const groups = (part: string) => (part === "" ? [] : part.split(":"));
  const [left, right] = [groups(head), groups(tail ?? "")];
  const zeros = tail === undefined ? 0 : 8 - left.length - right.length;
  const all = [...left, ...Array<string>(Math.max(0, zeros)).fill("0"), ...right];
  return all
    .slice(0, 4)
    .map((group) => group.replace(/^0+(?=.)/, "").toLowerCase())
    .join(":");
}
