import { mkdirSync, readFileSync, unlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import * as z from "zod";

const lockFile = z.object({
  pid: z.int(),
  /** When that process began, in the kernel's own count; null where the system does not tell. */
  startedTicks: z.string().nullable(),
});

/** Another agent is using the data folder. */
export class FolderInUse extends Error {
  override readonly name = "FolderInUse";
}

/**
 * Makes the data folder and takes it for this process; a lock whose process is gone is taken over.
 *
 * Returns what gives it free again. Throws `FolderInUse` while another process has it.
 */
export function lockFolder(folder: string): () => void {
  mkdirSync(folder, { recursive: true });
  const path = join(folder, "agent.lock");
  const own = JSON.stringify({ pid: process.pid, startedTicks: startedTicks(process.pid) });
  if (!tryWrite(path, own)) {
    const holder = readLock(path);
    if (holder && isSameProcess(holder))
      throw new FolderInUse(
        `Another agent (process ${holder.pid}) is using the data folder ${folder}: ` +
          "stop it first, or give this one a dataFolder of its own.",
      );
    unlinkSync(path);
    if (!tryWrite(path, own))
      throw new FolderInUse(`Another agent has just taken the data folder ${folder}.`);
  }
  return () => unlinkSync(path);
}

function tryWrite(path: string, text: string): boolean {
  try {
    writeFileSync(path, text, { flag: "wx" });
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "EEXIST") return false;
    throw error;
  }
}

function readLock(path: string): z.infer<typeof lockFile> | null {
  try {
    return lockFile.safeParse(JSON.parse(readFileSync(path, "utf8"))).data ?? null;
  } catch {
    return null;
  }
}

/** A process number is used again after a restart of the computer: the time it began tells them apart. */
function isSameProcess({ pid, startedTicks: began }: z.infer<typeof lockFile>): boolean {
  if (pid === process.pid) return false;
  try {
    process.kill(pid, 0);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "EPERM") return false;
  }
  const now = startedTicks(pid);
  return began === null || now === null || began === now;
}

/** Linux: field 22 of /proc/PID/stat (proc(5)), the time the process began after the computer did. */
function startedTicks(pid: number): string | null {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, "utf8");
    // The second field is the program's name in brackets and may hold spaces; field 3 follows the last bracket.
    return stat.slice(stat.lastIndexOf(")") + 2).split(" ")[19] ?? null;
  } catch {
    return null;
  }
}
