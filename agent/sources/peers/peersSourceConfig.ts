import { peerPart } from "@boothward/shared-types";
import * as z from "zod";

const ways = ["tcp", "http", "usb", "path"] as const;

const peer = z
  .strictObject({
    part: peerPart,
    /** What the booth calls it; left out: its address. */
    name: z.string().min(1).max(100).optional(),
    /** "host:port". A port that refuses is an answer too: any port of a tablet or router will do. */
    tcp: z
      .string()
      .regex(/^(\[[0-9a-fA-F:.]+\]|[^\s:/[\]]+):\d{1,5}$/, "must be host:port, such as 192.168.8.1:80")
      .refine(
        (address) => portOf(address) >= 1 && portOf(address) <= 65_535,
        "must have a port of 1 to 65535",
      )
      .optional(),
    /** Asked with HEAD. Of https any answer counts; of http only a good one, as hotels' sign-in pages answer too. */
    http: z.url({ protocol: /^https?$/, error: "must be an http or https address" }).optional(),
    /** A part of the device's name, or its number such as 1209:0001, as the computer lists it. */
    usb: z.string().min(2).max(200).optional(),
    /** A file or device that is there with it, such as /dev/video0. */
    path: z.string().min(1).max(500).optional(),
  })
  .refine((settings) => ways.filter((way) => settings[way] !== undefined).length === 1, {
    error: `must have exactly one of ${ways.join(", ")}`,
  });
export type PeerConfig = z.infer<typeof peer>;

/** Settings of what stands beside the booth's computer and can be gone. */
export const peersSourceConfig = z.strictObject({
  kind: z.literal("peers"),
  name: z.string().min(1).max(80).default("peers"),
  peers: z.array(peer).min(1).max(20),
  /** A look costs next to nothing; a camera that is gone costs a session each minute. */
  everyMs: z.int().min(1_000).max(600_000).default(10_000),
  /** A tablet that wakes takes a second or two to answer. */
  timeoutMs: z.int().min(200).max(60_000).default(5_000),
});
export type PeersSourceConfig = z.infer<typeof peersSourceConfig>;

export function portOf(address: string): number {
  return Number(address.slice(address.lastIndexOf(":") + 1));
}

export function hostOf(address: string): string {
  return address.slice(0, address.lastIndexOf(":")).replace(/^\[|\]$/g, "");
}
