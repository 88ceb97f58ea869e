import type { Matter, PeerPart, Severity } from "@boothward/shared-types";
import type { PeerSeen } from "../booth/peersSeen.ts";
import { isLookedAt } from "../booth/printerNow.ts";
import { noFigures, type Judged } from "./alert.ts";
import { phaseOf, type Scene } from "./scene.ts";

type PeerMatter = Extract<Matter, "cameraGone" | "tabletGone" | "routerGone" | "uplinkLost">;

const matterOf: Readonly<Record<PeerPart, PeerMatter>> = {
  camera: "cameraGone",
  tablet: "tabletGone",
  router: "routerGone",
  uplink: "uplinkLost",
};

/** Without what else this cannot be there: the other's own alert says it. */
const behind: Readonly<Partial<Record<PeerPart, PeerPart>>> = { tablet: "router", uplink: "router" };

/** Without a camera there is no session; the others are missed by guests, and the booth goes on. */
const whenOpen: Readonly<Record<PeerPart, Severity>> = {
  camera: "actNow",
  tablet: "plan",
  router: "plan",
  uplink: "plan",
};

/** Whether something beside the booth's computer is gone. With the booth packed away it may be. */
export function judgePeer(part: PeerPart): (scene: Scene) => Judged {
  const matter = matterOf[part];
  return (scene) => {
    const phase = phaseOf(scene);
    if (phase === "away") return { matter, stands: "clear" };
    const seen = lookedAt(scene, part);
    if (seen.length === 0) return { matter, stands: isLost(scene, part) ? "unseen" : "clear" };
    const gone = seen.filter(({ isThere }) => !isThere);
    const [first] = gone.sort((a, b) => a.sinceAtMs - b.sinceAtMs);
    if (first === undefined) return { matter, stands: "clear" };
    return {
      ...noFigures,
      ...{ matter, stands: isBehind(scene, part) ? "lingers" : "holds" },
      severity: phase === "open" ? whenOpen[part] : "plan",
      since: { atMs: first.sinceAtMs, isAtLatest: first.isAtLatest },
      partName: first.name,
    };
  };
}

/** Those that the agent still looks at, and has a value for. */
function lookedAt({ state, atMs }: Scene, part: PeerPart): PeerSeen[] {
  return state.peers.filter(
    (peer) => peer.part === part && isLookedAt(peer, state, atMs) && !isFaulty(state, peer.source),
  );
}

/** Whether one was looked at and cannot be told of now; one that was never told of is not looked at. */
function isLost({ state, atMs }: Scene, part: PeerPart): boolean {
  return state.peers.some(
    (peer) => peer.part === part && (isFaulty(state, peer.source) || isLookedAt(peer, state, atMs)),
  );
}

function isFaulty({ faults }: Scene["state"], source: string): boolean {
  return faults.some((fault) => fault.source === source);
}

function isBehind(scene: Scene, part: PeerPart): boolean {
  const other = behind[part];
  return other !== undefined && lookedAt(scene, other).some(({ isThere }) => !isThere);
}
