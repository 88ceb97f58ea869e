import { execFile, spawn } from "node:child_process";
import type { ChildProcess } from "node:child_process";
import { once } from "node:events";
import { existsSync } from "node:fs";
import { chmod, mkdir, mkdtemp, rename, rm, writeFile } from "node:fs/promises";
import { tmpdir, userInfo } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { avahiConf, commandScript, dbusConf, printJobTest } from "./ippeveprinterFiles.ts";
import { freePort } from "./freePort.ts";
import { findTool } from "./findTool.ts";
import { until } from "./until.ts";

const run = promisify(execFile);

/** A printer by other hands: the IPP Everywhere sample printer of CUPS. It has no queue and no events. */
export type SamplePrinter = {
  readonly uri: string;
  /** Sends a picture; resolves when the printer has taken it. */
  print(copies?: number): Promise<void>;
  /** A line for the printer's command to say with the next job, for example `STATE: +media-low-warning`. */
  say(line: string): Promise<void>;
  /** Switches it off; it forgets its jobs, and numbers them anew when it is on again. */
  stop(): Promise<void>;
  start(): Promise<void>;
  close(): Promise<void>;
};

/** It announces itself over DNS-SD and cannot be started without a daemon for that. */
export function canRunSamplePrinter(): boolean {
  const hasTools = ["ippeveprinter", "ipptool"].every((tool) => findTool(tool) !== null);
  return hasTools && (isAnnouncerRunning() || canStartAnnouncer());
}

export async function samplePrinter(): Promise<SamplePrinter> {
  const folder = await mkdtemp(join(tmpdir(), "boothward-eve-"));
  const port = await freePort();
  const uri = `ipp://localhost:${port}/ipp/print`;
  for (const name of ["say", "spool"]) await mkdir(join(folder, name));
  await writeFile(join(folder, "print.test"), printJobTest);
  await writeFile(join(folder, "layout.jpg"), Buffer.alloc(30_000, 7));
  await writeFile(join(folder, "command.sh"), commandScript(folder));
  await chmod(join(folder, "command.sh"), 0o755);
  const announcer = isAnnouncerRunning() ? null : await startAnnouncer(folder);
  const env = { ...process.env, ...announcer?.env };
  let said = 0;
  let printer: ChildProcess | null = null;

  async function start(): Promise<void> {
    const spool = ["-d", join(folder, "spool"), "-c", join(folder, "command.sh")];
    const formats = ["-f", "image/jpeg,application/octet-stream"];
    const args = ["-r", "off", "-p", `${port}`, "-n", "localhost", ...spool, ...formats, "Booth Sim"];
    printer = spawn(findTool("ippeveprinter") ?? "ippeveprinter", args, { env, stdio: "ignore" });
    await until(async () => (await fetch(`http://localhost:${port}/`)).ok, "the sample printer answers");
  }

  await start();
  return {
    uri,
    async print(copies = 1) {
      const picture = ["-f", join(folder, "layout.jpg"), "-d", `copies=${copies}`];
      const request = [...picture, uri, join(folder, "print.test")];
      // It takes one job at a time and calls itself busy meanwhile.
      await until(async () => {
        await run(findTool("ipptool") ?? "ipptool", request, { env });
        return true;
      }, "the sample printer takes the picture");
    },
    async say(line) {
      await writeFile(join(folder, "new"), `${line}\n`);
      await rename(join(folder, "new"), join(folder, "say", String(++said).padStart(6, "0")));
    },
    start,
    stop: () => end(printer),
    async close() {
      await end(printer);
      for (const daemon of announcer?.daemons ?? []) await end(daemon);
      await rm(folder, { recursive: true, force: true });
    },
  };
}

const systemBus = "/run/dbus/system_bus_socket";
const announcerPid = "/run/avahi-daemon/pid";

function isAnnouncerRunning(): boolean {
  return existsSync(systemBus) && existsSync(announcerPid);
}

function canStartAnnouncer(): boolean {
  const isFree = !existsSync(announcerPid);
  return (
    isFree && userInfo().uid === 0 && ["dbus-daemon", "avahi-daemon"].every((tool) => findTool(tool) !== null)
  );
}

/** A message bus and a DNS-SD daemon of the test's own, the latter on the loopback interface only. */
async function startAnnouncer(
  folder: string,
): Promise<{ env: Record<string, string>; daemons: readonly ChildProcess[] }> {
  const socket = join(folder, "bus");
  await writeFile(join(folder, "dbus.conf"), dbusConf(socket));
  await writeFile(join(folder, "avahi.conf"), avahiConf);
  const env = { DBUS_SYSTEM_BUS_ADDRESS: `unix:path=${socket}` };
  const options = { env: { ...process.env, ...env }, stdio: "ignore" } as const;
  const busArgs = [`--config-file=${join(folder, "dbus.conf")}`, "--nofork", "--nopidfile"];
  const bus = spawn(findTool("dbus-daemon") ?? "dbus-daemon", busArgs, options);
  await until(() => existsSync(socket), "the message bus is there");
  const asRoot = ["--no-drop-root", "--no-chroot", "--no-rlimits", "-f", join(folder, "avahi.conf")];
  const avahi = spawn(findTool("avahi-daemon") ?? "avahi-daemon", asRoot, options);
  await until(() => existsSync(announcerPid), "the announcing daemon is there");
  return { env, daemons: [avahi, bus] };
}

async function end(child: ChildProcess | null): Promise<void> {
  if (!child || child.exitCode !== null || child.signalCode !== null) return;
  const ended = once(child, "exit");
  child.kill("SIGTERM");
  await ended;
}
