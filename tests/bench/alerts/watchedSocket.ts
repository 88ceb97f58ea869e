import { dashboardFrame } from "@boothward/shared-types";
import type { OpenLinkSocket } from "../../../agent/link/linkSocket.ts";
import { webSocketLink } from "../../../agent/link/webSocketLink.ts";

/** What has gone over an agent's link, as far as one has to wait for it. */
export type Flow = {
  /** The dashboard has all items up to this one. */
  ackedSeq: number;
  unansweredBeats: number;
  isLinked: boolean;
};

/** The agent's real WebSocket, with its frames noted in `flow` as they pass. */
export function watchedSocket(flow: Flow): OpenLinkSocket {
  return (signIn, listener) => {
    const socket = webSocketLink(signIn, {
      ...{ opened: () => listener.opened() },
      text(text) {
        const frame = dashboardFrame.safeParse(JSON.parse(text)).data;
        if (frame?.kind === "ack") flow.ackedSeq = Math.max(flow.ackedSeq, frame.throughSeq);
        if (frame?.kind === "beat") flow.unansweredBeats -= 1;
        if (frame?.kind === "welcome") Object.assign(flow, { isLinked: true, unansweredBeats: 0 });
        listener.text(text);
      },
      ended(ending) {
        flow.isLinked = false;
        listener.ended(ending);
      },
    });
    return {
      send(text) {
        if (text.startsWith('{"kind":"beat"')) flow.unansweredBeats += 1;
        socket.send(text);
      },
      close: (code, reason) => socket.close(code, reason),
      cut: () => socket.cut(),
    };
  };
}
