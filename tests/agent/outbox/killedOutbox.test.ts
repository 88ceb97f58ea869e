import { copyFileSync, mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { decodeRecords } from "../../../agent/outbox/record.ts";
import { keptLog } from "../../support/keptLog.ts";
import { aSession, aWarmth } from "../../support/outboxItems.ts";
import { scratchFolder } from "../../support/scratchFolder.ts";
import { testOutbox } from "../../support/testOutbox.ts";

const quiet = () => ({ log: keptLog().log });

/** A folder with three files: two of boot1 (the first is full), one of boot2. Returns the path of the last. */
async function writeThreeFiles(folder: string): Promise<string[]> {
  const outbox = await testOutbox({ folder, limits: { segmentBytes: 300 }, ...quiet() });
  outbox.startBoot("boot1");
  for (const id of ["a", "b", "c"]) await outbox.append([aSession(id)]);
  outbox.startBoot("boot2");
  await outbox.append([aSession("d"), aWarmth(30)]);
  await outbox.close();
  return readdirSync(folder).filter((name) => name.endsWith(".seg"));
}

/** All items in the folder as `boot1/1`, after what `change` does to one file. */
async function readCopy(folder: string, name: string, bytes: Buffer): Promise<string[]> {
  const copy = scratchCopy(folder);
  writeFileSync(join(copy, name), bytes);
  const outbox = await testOutbox({ folder: copy, ...quiet() });
  outbox.startBoot("boot3");
  await outbox.append([aSession("after")]);
  await outbox.close();
  const again = await testOutbox({ folder: copy, ...quiet() });
  const found: string[] = [];
  for (let sent: { bootId: string; seq: number } | null = null; ;) {
    const peeked = again.peek(500, sent);
    const last = peeked?.items.at(-1);
    if (!peeked || !last) break;
    found.push(...peeked.items.map((item) => `${peeked.bootId}/${item.seq}`));
    sent = { bootId: peeked.bootId, seq: last.seq };
  }
  await again.close();
  rmSync(copy, { recursive: true });
  return found;
}

function scratchCopy(folder: string): string {
  const copy = join(folder, "copy");
  mkdirSync(copy);
  for (const name of readdirSync(folder).filter((name) => name.endsWith(".seg")))
    copyFileSync(join(folder, name), join(copy, name));
  return copy;
}

const boot1 = ["boot1/1", "boot1/2", "boot1/3"];
const boot2 = [1, 2].map((seq) => `boot2/${seq}`);

describe("an outbox after a kill", () => {
  // Thousands of files are opened, synced and closed: minutes on a slow disk.
  it("has every whole record, whatever byte its last file ends at, and goes on from there", async () => {
    const folder = scratchFolder();
    const names = await writeThreeFiles(folder);
    const last = names.at(-1) ?? "";
    const bytes = readFileSync(join(folder, last));
    const whole = (length: number) => decodeRecords(bytes.subarray(0, length)).records.length;
    for (let length = 0; length <= bytes.length; length++) {
      const lost = boot2.slice(boot2.length - whole(bytes.length) + whole(length));
      const expected = [...boot1, ...boot2.filter((one) => !lost.includes(one)), "boot3/1"];
      expect(await readCopy(folder, last, bytes.subarray(0, length)), `cut at ${length}`).toEqual(expected);
    }
  }, 120_000);

  it("loses one item when one byte of a middle file is wrong, whichever it is, and says so", async () => {
    const folder = scratchFolder();
    const [first = ""] = await writeThreeFiles(folder);
    const bytes = readFileSync(join(folder, first));
    const { records } = decodeRecords(bytes);
    expect(records.length).toBe(2);
    for (let at = 0; at < bytes.length; at++) {
      const damaged = Buffer.from(bytes);
      damaged[at] = (damaged[at] ?? 0) ^ 0x55;
      const found = await readCopy(folder, first, damaged);
      const lost = at < bytes.length / 2 ? "boot1/1" : "boot1/2";
      const expected = [...boot1, ...boot2, "boot3/1"].filter((one) => one !== lost);
      expect(found, `wrong at ${at}`).toEqual(expected);
    }
  }, 120_000);

  it("says in the log how much it cut and how much is damaged", async () => {
    const folder = scratchFolder();
    const names = await writeThreeFiles(folder);
    const [first = "", last = ""] = [names[0], names.at(-1)];
    const firstBytes = readFileSync(join(folder, first));
    firstBytes[20] = 0;
    writeFileSync(join(folder, first), firstBytes);
    const lastBytes = readFileSync(join(folder, last));
    writeFileSync(join(folder, last), lastBytes.subarray(0, lastBytes.length - 3));
    const { log, lines } = keptLog();
    const outbox = await testOutbox({ folder, log });
    expect(lines.map(({ level }) => level)).toEqual(["info", "error"]);
    expect(outbox.stats().damagedBytes).toBe(firstBytes.length / 2);
  });

  it("passes over items that a repeated write left in two files", async () => {
    const folder = scratchFolder();
    const names = await writeThreeFiles(folder);
    const last = names.at(-1) ?? "";
    const again = last.replace(/^\d{10}/, "0000000009");
    copyFileSync(join(folder, last), join(folder, again));
    const found = await readCopy(folder, again, readFileSync(join(folder, last)));
    expect(found).toEqual([...boot1, ...boot2, "boot3/1"]);
  });

  it("removes half-made files of an interrupted thinning", async () => {
    const folder = scratchFolder();
    const [first = ""] = await writeThreeFiles(folder);
    writeFileSync(join(folder, `${first}.tmp`), "half");
    await testOutbox({ folder });
    expect(readdirSync(folder).filter((name) => name.endsWith(".tmp"))).toEqual([]);
  });
});
