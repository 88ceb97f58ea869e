import Database from "better-sqlite3";
import { join } from "node:path";
import { WebSocketServer } from "ws";

/**
 * The least that any durable line must do, to measure ours against: a socket, JSON, one insert a row in one
 * synchronous transaction (WAL, FULL) for all batches of a turn, an ack after it. No schema, no sign-in, no
 * order, no booth. Prints its port and runs until it is killed.
 */
export function serveBareLine(folder: string): void {
  const db = new Database(join(folder, "bare.sqlite"));
  db.pragma("journal_mode = WAL");
  db.pragma("synchronous = FULL");
  db.exec("create table item (boot text, seq integer, body text, primary key (boot, seq))");
  const insert = db.prepare("insert or ignore into item values (?, ?, ?)");
  type Waiting = { bootId: string; items: { seq: number }[]; ack: (throughSeq: number) => void };
  let waiting: Waiting[] = [];
  const commit = db.transaction((batches: Waiting[]) => {
    for (const { bootId, items } of batches)
      for (const item of items) insert.run(bootId, item.seq, JSON.stringify(item));
  });
  const flush = () => {
    const batches = waiting;
    waiting = [];
    commit(batches);
    for (const { items, ack } of batches) ack(items.at(-1)?.seq ?? 0);
  };
  const server = new WebSocketServer({ port: 0, host: "127.0.0.1" }, () => {
    const address = server.address();
    if (typeof address === "object" && address !== null) console.log(`bare line at ${address.port}`);
  });
  server.on("connection", (socket) => {
    socket.on("message", (text: Buffer) => {
      const { bootId, items } = JSON.parse(text.toString("utf8")) as Waiting;
      if (waiting.length === 0) setImmediate(flush);
      waiting.push({
        bootId,
        items,
        ack: (throughSeq) => socket.send(JSON.stringify({ kind: "ack", bootId, throughSeq })),
      });
    });
  });
}
