import { execFile, spawn } from "node:child_process";
import type { ChildProcess } from "node:child_process";
import { once } from "node:events";
import { chmod, mkdir, mkdtemp, rename, rm, symlink, writeFile } from "node:fs/promises";
import { tmpdir, userInfo } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { backendScript, cupsFilesConf, cupsdConf } from "./cupsBenchFiles.ts";
import { freePort } from "./freePort.ts";
import { findTool } from "./findTool.ts";
import { until } from "./until.ts";

const run = promisify(execFile);

/**
 * A print server of the test's own (CUPS) with one raw queue `booth` and a made-up printer behind it, all
 * in a temporary folder. What the printer says is steered through files that its backend reads.
 */
export type CupsBench = {
  readonly port: number;
  readonly uri: string;
  readonly folder: string;
  /** Sends a job as a booth program would; the number of the job. */
  lp(options?: { copies?: number; media?: string; isHeld?: boolean }): Promise<number>;
  /** A line for the backend to say, now if a job is on, else with the next: `STATE: +media-jam-error`. */
  say(line: string): Promise<void>;
  /** Sheets on the roll; falls by one with each print. */
  setLeft(sheets: number): Promise<void>;
  /** Jobs that are on stay on until `release`. */
  hold(): Promise<void>;
  release(): Promise<void>;
  /** The next jobs fail. */
  setFailing(isFailing: boolean): Promise<void>;
  /** Any of the CUPS command line programs, towards this server. */
  cups(program: string, ...args: string[]): Promise<string>;
  start(): Promise<void>;
  stop(): Promise<void>;
  restart(): Promise<void>;
  /** Stops the server and removes its folder. */
  close(): Promise<void>;
};

export async function cupsBench(): Promise<CupsBench> {
  const folder = await mkdtemp(join(tmpdir(), "boothward-cups-"));
  const port = await freePort();
  await layOut(folder, port);
  const env = { ...process.env, CUPS_SERVER: `127.0.0.1:${port}` };
  let daemon: ChildProcess | null = null;
  let said = 0;

  async function cups(program: string, ...args: string[]): Promise<string> {
    return (await run(findTool(program) ?? program, args, { env })).stdout;
  }
  async function start(): Promise<void> {
    const conf = ["-f", "-c", join(folder, "cupsd.conf"), "-s", join(folder, "cups-files.conf")];
    daemon = spawn(findTool("cupsd") ?? "cupsd", conf, { stdio: "ignore" });
    await until(async () => (await cups("lpstat", "-r")).includes("is running"), "cupsd answers");
  }
  async function stop(): Promise<void> {
    if (!daemon || daemon.exitCode !== null || daemon.signalCode !== null) return;
    const ended = once(daemon, "exit");
    daemon.kill("SIGTERM");
    await ended;
  }
  async function steer(name: string, text: string): Promise<void> {
    await writeFile(join(folder, "new"), text);
    await chmod(join(folder, "new"), 0o666);
    await rename(join(folder, "new"), join(folder, "control", name));
  }

  await start();
  await cups("lpadmin", "-p", "booth", "-E", "-v", "boothsim://sim", "-m", "raw");
  const picture = join(folder, "layout.jpg");
  await writeFile(picture, Buffer.alloc(30_000, 7));

  return {
    port,
    uri: `ipp://127.0.0.1:${port}/printers/booth`,
    folder,
    async lp({ copies = 1, media, isHeld = false } = {}) {
      const options = [...(media ? ["-o", `media=${media}`] : []), ...(isHeld ? ["-H", "hold"] : [])];
      const answer = await cups("lp", "-d", "booth", "-n", `${copies}`, "-o", "raw", ...options, picture);
      return Number(/booth-(\d+)/.exec(answer)?.[1]);
    },
    say: (line) => steer(join("say", String(++said).padStart(6, "0")), `${line}\n`),
    setLeft: (sheets) => steer("left", `${sheets}`),
    hold: () => steer("hold", ""),
    release: () => rm(join(folder, "control", "hold"), { force: true }),
    setFailing: (isFailing) =>
      isFailing ? steer("fail", "") : rm(join(folder, "control", "fail"), { force: true }),
    cups,
    start,
    stop,
    async restart() {
      await stop();
      await start();
    },
    async close() {
      await stop();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

async function layOut(folder: string, port: number): Promise<void> {
  await chmod(folder, 0o755);
  for (const name of ["root", "spool", "cache", "state", "log", "bin"]) await mkdir(join(folder, name));
  await mkdir(join(folder, "spool", "tmp"));
  for (const name of ["cgi-bin", "daemon", "driver", "filter", "monitor", "notifier"]) {
    await symlink(join("/usr/lib/cups", name), join(folder, "bin", name));
  }
  await mkdir(join(folder, "bin", "backend"));
  // The backend runs as another user than the test where the test runs as root.
  for (const name of ["control", join("control", "say")]) {
    await mkdir(join(folder, name));
    await chmod(join(folder, name), 0o777);
  }
  await writeFile(join(folder, "control", "left"), "400");
  await chmod(join(folder, "control", "left"), 0o666);
  const backend = join(folder, "bin", "backend", "boothsim");
  await writeFile(backend, backendScript(join(folder, "control")));
  await chmod(backend, 0o755);
  await writeFile(join(folder, "cups-files.conf"), cupsFilesConf(folder, userInfo().uid === 0));
  await writeFile(join(folder, "cupsd.conf"), cupsdConf(port));
}
