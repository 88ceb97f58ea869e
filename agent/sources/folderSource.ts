import { watch } from "node:fs";
import type { FSWatcher } from "node:fs";
import { readdir, stat } from "node:fs/promises";
import { join } from "node:path";
import { pollingSource } from "../readings/pollingSource.ts";
import type { Source, SourceAnswer } from "../readings/source.ts";
import type { FileSeen, FolderMemory } from "./folderFiles.ts";
import { folderMemory, isKnownFile, isSettledName, noteGone, remember, whyNot } from "./folderFiles.ts";
import type { FinishedSession, Pending } from "./folderSessions.ts";
import { finishedSessions, follow } from "./folderSessions.ts";
import type { FolderSourceConfig } from "./folderSourceConfig.ts";
import { stateFile } from "./stateFile.ts";
import type { Surroundings } from "./surroundings.ts";

/**
 * A folder of the booth program: each finished print layout is a session, or, where it holds shots, each
 * group of shots. Only names, sizes and times are read, never a picture.
 *
 * Listing the folder is the truth; what the operating system says about changes only makes the next look
 * come sooner. Files that are there at the agent's first start are not its own.
 */
export function folderSource(config: FolderSourceConfig, { clock, stateFolder }: Surroundings): Source {
  const file = stateFile(stateFolder, "folder", `${config.holds} ${config.path}`, folderMemory);
  let memory: FolderMemory | null = null;
  let savedText = "";
  let pending = new Map<string, Pending>();
  let findings: readonly FinishedSession[] = [];
  /** The next look is the first one at this folder: what lies there came before. */
  let isFirstLook = true;
  let watcher: FSWatcher | null = null;
  let wake: () => void = () => undefined;

  async function look(): Promise<SourceAnswer> {
    const listed = await list(config).catch(folderFault);
    if ("fault" in listed) {
      isFirstLook = true;
      pending = new Map();
      stopWatching();
      memory ??= await begin(null);
      noteGone(memory, memory.folderId, new Set());
      return listed;
    }
    memory ??= await begin(listed);
    if (memory.folderId !== listed.folderId) stopWatching();
    watcher ??= startWatching();
    noteGone(memory, listed.folderId, new Set(listed.names));
    await notePending(memory, listed.names);
    isFirstLook = false;
    findings = finishedSessions([...pending.values()], config, clock().monoMs);
    return { items: findings.map(({ item }) => item) };
  }

  /** Memory of former runs; at the first start ever, what is in the folder by now is known already. */
  async function begin(listed: Listing | null): Promise<FolderMemory> {
    const loaded = await file.load();
    if (loaded) return loaded;
    const begun = { firstStartAtMs: clock().wallMs, folderId: listed?.folderId ?? null, known: {} };
    for (const name of listed?.names ?? []) {
      const seen = await see(config.path, name);
      if (seen) remember(begun, seen);
    }
    await save(begun);
    return begun;
  }

  async function notePending(known: FolderMemory, names: readonly string[]): Promise<void> {
    const { wallMs, monoMs } = clock();
    // A folder that was not there at the first start ever, a drive put in later: what is older is not ours.
    const isNewFolder = isFirstLook && Object.keys(known.known).length === 0;
    const still = new Map<string, Pending>();
    for (const name of names) {
      if (isSettledName(known, name)) continue;
      const seen = await see(config.path, name);
      if (!seen) continue;
      const isOld = isNewFolder && seen.modifiedAtMs < known.firstStartAtMs;
      if (isOld || isKnownFile(known, seen)) remember(known, seen);
      else
        still.set(
          name,
          follow(pending.get(name), seen, monoMs, isFirstLook ? wallMs - seen.modifiedAtMs : 0),
        );
    }
    pending = still;
  }

  async function kept(): Promise<void> {
    if (!memory) return;
    for (const each of findings.flatMap(({ files }) => files)) {
      remember(memory, each);
      pending.delete(each.name);
    }
    findings = [];
    await save(memory);
  }

  async function save(present: FolderMemory): Promise<void> {
    const text = JSON.stringify(present);
    if (text === savedText) return;
    await file.save(present);
    savedText = text;
  }

  function startWatching(): FSWatcher | null {
    try {
      const started = watch(config.path, { persistent: false }, () => wake());
      started.on("error", stopWatching);
      return started;
    } catch {
      // No watching on this file system; the listing goes on.
      return null;
    }
  }

  function stopWatching(): void {
    watcher?.close();
    watcher = null;
  }

  return pollingSource({
    name: config.name,
    everyMs: config.scanEveryMs,
    read: look,
    kept,
    nextMs: () => (pending.size > 0 ? Math.min(config.settleMs, config.scanEveryMs) : config.scanEveryMs),
    watch: (callBack) => (wake = callBack),
    close() {
      stopWatching();
      return Promise.resolve();
    },
  });
}

type Listing = { readonly folderId: string; readonly names: readonly string[] };

async function list(config: FolderSourceConfig): Promise<Listing> {
  const folder = await stat(config.path, { bigint: true });
  const names = (await readdir(config.path)).filter((name) => whyNot(name, config) === null);
  return { folderId: `${folder.dev}:${folder.ino}`, names };
}

/** The file under this name, or null if it is none, or has just gone. */
async function see(folder: string, name: string): Promise<FileSeen | null> {
  const found = await stat(join(folder, name), { bigint: true }).catch(() => null);
  if (!found?.isFile()) return null;
  const modifiedAtMs = Number(found.mtimeMs);
  const bytes = Number(found.size);
  return { name, bytes, modifiedAtMs, fileId: `${found.dev}:${found.ino}:${bytes}:${modifiedAtMs}` };
}

function folderFault(error: unknown): SourceAnswer & { fault: string } {
  const { code = "", message } = error as NodeJS.ErrnoException;
  const fault =
    code === "ENOENT" || code === "ENOTDIR"
      ? "notFound"
      : code === "EACCES" || code === "EPERM"
        ? "refused"
        : "unreadable";
  return { fault, detail: message };
}
