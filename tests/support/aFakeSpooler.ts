import { once } from "node:events";
import { createServer } from "node:net";
import type { AddressInfo, Socket } from "node:net";
import { onTestFinished } from "vitest";
import type { ChildCommand } from "../../agent/sources/spooler/keepChild.ts";
import { until } from "./until.ts";

/** Stands for the PowerShell of the spooler source: a real child process that does what the test tells it. */
export type FakeSpooler = {
  readonly command: ChildCommand;
  /** How often a child was started. */
  starts(): number;
  /** Whether the child started last is still there. */
  isAlive(): boolean;
  /** Resolves when a child is there that was started after so many others. */
  started(times: number): Promise<void>;
  /** The child writes these bytes to its standard output, as they are. */
  write(bytes: Buffer | string): void;
  /** The child writes to its standard error and ends. */
  end(code: number, lastWords?: string): void;
};

/** The child does what comes by socket, and takes no notice of a polite signal. */
const childText = `
  import net from "node:net";
  process.on("SIGTERM", () => {});
  const socket = net.connect(Number(process.env.FAKE_SPOOLER_PORT), "127.0.0.1");
  let rest = "";
  socket.setEncoding("utf8");
  socket.on("data", (text) => {
    const lines = (rest + text).split("\\n");
    rest = lines.pop();
    for (const { write, words, code } of lines.map((line) => JSON.parse(line))) {
      if (write !== undefined) process.stdout.write(Buffer.from(write, "base64"));
      if (code !== undefined) process.stderr.write(words, () => process.exit(code));
    }
  });
  socket.on("close", () => process.exit(0));
  socket.on("error", () => process.exit(0));
`;

export async function aFakeSpooler(): Promise<FakeSpooler> {
  const children: Socket[] = [];
  const server = createServer((socket) => {
    socket.on("error", () => undefined);
    // Its end is what is watched; nothing comes from it.
    socket.resume();
    children.push(socket);
  });
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
  const { port } = server.address() as AddressInfo;
  onTestFinished(() => {
    for (const child of children) child.destroy();
    server.close();
  });
  const isAlive = (): boolean => children.at(-1)?.closed === false && children.at(-1)?.readyState === "open";
  const tell = (order: object): void => void children.at(-1)?.write(`${JSON.stringify(order)}\n`);
  return {
    command: {
      file: process.execPath,
      args: ["--input-type=module", "-e", childText],
      env: { FAKE_SPOOLER_PORT: String(port) },
    },
    starts: () => children.length,
    isAlive,
    started: (times) => until(() => children.length >= times, `child ${times} was started`),
    write: (bytes) => tell({ write: Buffer.from(bytes).toString("base64") }),
    end: (code, words = "") => tell({ code, words }),
  };
}
