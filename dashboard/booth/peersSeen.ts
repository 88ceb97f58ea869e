import type { PeerPart, StoredItem } from "@boothward/shared-types";
import { withEntry } from "./keyed.ts";

/** What stands beside the booth's computer, as it was last said. */
export type PeerSeen = {
  readonly part: PeerPart;
  readonly name: string | null;
  readonly isThere: boolean;
  /** Since when it is there, or gone. */
  readonly sinceAtMs: number;
  /** Whether that began before it was first looked at. */
  readonly isAtLatest: boolean;
  readonly source: string;
  readonly saidAtMs: number;
};

type PeerItem = Extract<StoredItem, { kind: "peer" }>;

/** Takes in that something beside the computer is there, or gone. */
export function foldPeer(peers: readonly PeerSeen[], item: PeerItem): readonly PeerSeen[] {
  const { part, name, isThere, source, atMs } = item;
  const before = peers.find((each) => keyOf(each) === keyOf(item));
  const goesOn = before?.isThere === isThere;
  const entry = {
    ...{ part, name, isThere, source, saidAtMs: atMs },
    sinceAtMs: goesOn ? before.sinceAtMs : atMs,
    isAtLatest: goesOn ? before.isAtLatest : before === undefined,
  };
  return withEntry(peers, keyOf, entry);
}

function keyOf({ part, name }: Pick<PeerSeen, "part" | "name">): string {
  return `${part} ${name ?? ""}`;
}
