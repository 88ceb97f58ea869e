import { once } from "node:events";
import type { Server } from "node:http";
import type { Emit, Source, SourceAnswer } from "../../readings/source.ts";
import { stateFile } from "../stateFile.ts";
import type { Surroundings } from "../surroundings.ts";
import { hookBook } from "./hookBook.ts";
import { hookMemory } from "./hookMemory.ts";
import { hookServer } from "./hookServer.ts";
import type { HookSourceConfig } from "./hookSourceConfig.ts";

/** Whoever holds the port may let go of it: an agent that is just ending, a program that is closed. */
const retryMs = 2_000;
const hourMs = 3_600_000;

/**
 * Calls by the booth program itself, on 127.0.0.1: guests began, guests finished, something was printed. The
 * best there is to count sessions by, as nothing has to be guessed. A call is answered with 200 only when
 * its fact is durable in the outbox.
 */
export function hookSource(config: HookSourceConfig, { clock, stateFolder }: Surroundings): Source {
  let server: Server | null = null;
  let retry: NodeJS.Timeout | null = null;
  let isClosed = false;
  const underWay = new Set<Promise<unknown>>();

  function open(emit: Emit): void {
    const book = hookBook({
      file: stateFile(stateFolder, "hook", config.name, hookMemory),
      clock,
      sameIdMs: config.sameIdHours * hourMs,
      pitchesPerCopy: config.pitchesPerCopy,
      keep: (item) => emit({ items: [{ item }] }),
    });
    const opened = hookServer(config.token, (call) => {
      if (isClosed) return Promise.resolve({ isKept: false, why: "the agent is ending" });
      const entering = book.enter(call);
      underWay.add(entering);
      void entering.finally(() => underWay.delete(entering));
      return entering;
    });
    server = opened;
    opened.once("listening", () => {
      if (isClosed) opened.close();
      else void emit({ items: [] });
    });
    opened.on("error", (error: NodeJS.ErrnoException) => {
      if (isClosed) return;
      void emit(portFault(error, config.port));
      if (!opened.listening) retry = setTimeout(() => open(emit), retryMs);
    });
    opened.listen({ host: "127.0.0.1", port: config.port, exclusive: true });
  }

  return {
    name: config.name,
    start: open,
    async close() {
      isClosed = true;
      if (retry) clearTimeout(retry);
      await Promise.all(underWay);
      if (!server?.listening) return;
      const closed = once(server, "close");
      server.close();
      server.closeAllConnections();
      await closed;
    },
  };
}

function portFault({ code, message }: NodeJS.ErrnoException, port: number): SourceAnswer {
  if (code === "EADDRINUSE") {
    const detail = `port ${port} of this computer is taken by another program: give hook another port, and the booth program the same`;
    return { fault: "refused", detail };
  }
  if (code === "EACCES")
    return {
      fault: "refused",
      detail: `port ${port} may not be used by this user: give hook one above 1024`,
    };
  return { fault: "unreachable", detail: `port ${port}: ${message}` };
}
