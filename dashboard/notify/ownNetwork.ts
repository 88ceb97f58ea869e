import { BlockList, isIP } from "node:net";

/**
 * Addresses that lead to this machine or to the network it stands in, or nowhere; whoever may name an address to be
 * called must not look around there. `own`: this machine's own addresses, at this moment.
 */
export function ownNetwork(own: () => readonly string[]): (address: string) => boolean {
  const blocked = specialAddresses();
  return (address) => {
    const bare = address.replace(/^\[|\]$/g, "").split("%")[0] ?? "";
    const family = isIP(bare);
    if (family === 0) return true;
    return blocked.check(bare, family === 4 ? "ipv4" : "ipv6") || own().includes(bare);
  };
}

// Source: IANA IPv4 Special-Purpose Address Registry (RFC 6890, RFC 8190), multicast of RFC 5771.
const special4: readonly (readonly [net: string, bits: number])[] = [
  ["0.0.0.0", 8],
  ["10.0.0.0", 8],
  ["100.64.0.0", 10],
  ["127.0.0.0", 8],
  ["169.254.0.0", 16],
  ["172.16.0.0", 12],
  ["192.0.0.0", 24],
  ["192.0.2.0", 24],
  ["192.88.99.0", 24],
  ["192.168.0.0", 16],
  ["198.18.0.0", 15],
  ["198.51.100.0", 24],
  ["203.0.113.0", 24],
  ["224.0.0.0", 4],
  ["240.0.0.0", 4],
];

// Source: IANA IPv6 Special-Purpose Address Registry; 2002::/16 (RFC 3056) and fec0::/10 (RFC 3879) are deprecated.
const special6: readonly (readonly [net: string, bits: number])[] = [
  ["::", 127],
  ["64:ff9b:1::", 48],
  ["100::", 64],
  ["2001::", 32],
  ["2001:db8::", 32],
  ["2002::", 16],
  ["fc00::", 7],
  ["fe80::", 10],
  ["fec0::", 10],
  ["ff00::", 8],
];

/** IPv4 addresses are also met inside IPv6 ones: mapped (RFC 4291 section 2.5.5.2) and by NAT64 (RFC 6052). */
function specialAddresses(): BlockList {
  const list = new BlockList();
  for (const [net, bits] of special4) {
    list.addSubnet(net, bits, "ipv4");
    list.addSubnet(`::ffff:${net}`, 96 + bits, "ipv6");
    list.addSubnet(`64:ff9b::${net}`, 96 + bits, "ipv6");
  }
  for (const [net, bits] of special6) list.addSubnet(net, bits, "ipv6");
  return list;
}
