import { once } from "node:events";
import { connect, createServer, type AddressInfo } from "node:net";
import { onTestFinished } from "vitest";

/** A port that is forwarded to another as a home's router does it: byte by byte. Gives its number. */
export async function aForwardedPort(toPort: () => number): Promise<number> {
  const router = createServer((socket) => {
    const inner = connect(toPort(), "127.0.0.1");
    inner.on("error", () => socket.destroy());
    socket.on("error", () => inner.destroy());
    socket.pipe(inner).pipe(socket);
  });
  router.listen(0, "127.0.0.1");
  await once(router, "listening");
  onTestFinished(() => void router.close());
  return (router.address() as AddressInfo).port;
}
