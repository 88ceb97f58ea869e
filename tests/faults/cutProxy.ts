import { type AddressInfo, connect, createServer, type Server, type Socket } from "node:net";

/** A stretch of network between agents and dashboard that can be cut. */
export type CutProxy = {
  readonly port: number;
  /** How many connections have brought something back from the other end by now. */
  carrying(): number;
  /** Cuts every connection now, both ends at once; returns how many there were. */
  cut(): number;
  close(): Promise<void>;
};

/**
 * Passes TCP connections on to a local port, and cuts them on demand: bytes on their way are lost, as
 * when a cable is pulled. A port on which nobody listens cuts the connection that asked for it.
 */
export async function startCutProxy(toPort: number): Promise<CutProxy> {
  const pairs = new Set<readonly [Socket, Socket]>();
  const server = createServer((inside) => {
    const outside = connect({ port: toPort, host: "127.0.0.1" });
    const pair = [inside, outside] as const;
    pairs.add(pair);
    const cutBoth = (): void => {
      pairs.delete(pair);
      inside.destroy();
      outside.destroy();
    };
    for (const socket of pair) {
      socket.setNoDelay(true);
      socket.on("error", cutBoth);
      socket.on("close", cutBoth);
    }
    inside.pipe(outside);
    outside.pipe(inside);
  });
  const cut = (): number => {
    const cutNow = pairs.size;
    for (const pair of pairs) for (const socket of pair) socket.resetAndDestroy();
    return cutNow;
  };
  const carrying = (): number => [...pairs].filter(([, outside]) => outside.bytesRead > 0).length;
  const port = await listen(server);
  const close = (): Promise<void> =>
    new Promise((resolve) => {
      server.close(() => {
        resolve();
      });
      cut();
    });
  return { port, carrying, cut, close };
}

function listen(server: Server): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen(0, "127.0.0.1", () => {
      resolve((server.address() as AddressInfo).port);
    });
  });
}
