import { createHash, randomBytes } from "node:crypto";
import { existsSync, readFileSync } from "node:fs";
import { networkInterfaces } from "node:os";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import { createInterface } from "node:readline";
import { pino } from "pino";
import { v7 as makeId } from "uuid";
import { readConfig, type DashboardConfig, type TestAlertConfig } from "./config.ts";
import { CertificateUnusable } from "./http/openServer.ts";
import { ordinaryCost } from "./http/passwordHash.ts";
import { openDashboard, type Dashboard } from "./openDashboard.ts";
import { StoreOfLaterVersion } from "./store/migrate.ts";
import { FolderInUse } from "./store/sqlite.ts";
import { testAlert } from "./testAlert.ts";

/** Ten mistakes are a bad evening; more are somebody guessing. */
const mostFailedTries = 10;

/** Push services and mail servers answer within a second or two; a phone's network may make it more. */
const mostCallMs = 10_000;

const log = pino({ name: "dashboard" }, pino.destination({ dest: 2, sync: true }));
const say = (line: string): void => void process.stdout.write(`${line}\n`);

function giveUp(sentence: string, code: number): never {
  process.stderr.write(`${sentence}\n`);
  process.exit(code);
}

/** Beside the bundle, or where the build puts them when run from source. */
function findPages(): string {
  const beside = join(import.meta.dirname, "web/index.html");
  return join(
    import.meta.dirname,
    existsSync(beside) && !import.meta.url.endsWith(".ts") ? "web" : "dist/web",
  );
}

/** A bundle is what its bytes are; source may be changed under its name. */
function buildOf(file: string): string | null {
  return file.endsWith(".ts") ? null : createHash("sha256").update(readFileSync(file)).digest("hex");
}

function ownAddresses(): string[] {
  return Object.values(networkInterfaces()).flatMap((all) => all?.map(({ address }) => address) ?? []);
}

function open(config: DashboardConfig): Promise<Dashboard> {
  return openDashboard({
    dataDir: config.data,
    port: config.port,
    host: config.host,
    origin: config.origin,
    tls: config.tls,
    build: buildOf(import.meta.filename),
    pagesDir: findPages(),
    clock: () => ({ wallMs: Date.now(), monoMs: performance.now() }),
    log,
    randomBytes,
    makeId: () => makeId(),
    passwordCost: ordinaryCost,
    mostFailedTries,
    dice: Math.random,
    outside: {
      mayCallOwnNetwork: config["call-own-network"],
      ownAddresses,
      trustedCa: null,
      mostMs: mostCallMs,
    },
    ticksByItself: true,
  });
}

/** Why it could not be opened, as a sentence; null for what nobody foresaw. */
function sentenceFor(error: unknown, { data, host, port }: DashboardConfig): string | null {
  if (error instanceof FolderInUse || error instanceof StoreOfLaterVersion) return error.message;
  if (error instanceof CertificateUnusable) return error.message;
  if (!(error instanceof Error)) return null;
  const code: unknown = Reflect.get(error, "code");
  if (Reflect.get(error, "syscall") === "mkdir" || String(code).startsWith("SQLITE_"))
    return `The data folder ${data} cannot be used (--data): ${error.message}.`;
  if (code === "EADDRINUSE")
    return `Port ${port} on ${host} is taken by another program. Stop it, or choose another with --port.`;
  if (code === "EACCES" && Reflect.get(error, "syscall") === "listen")
    return `Port ${port} may not be used by this account. Choose one above 1023 with --port.`;
  if (code === "EADDRNOTAVAIL" || code === "ENOTFOUND")
    return `This computer has no address ${host} (--host).`;
  return null;
}

function stopOnSignals(dashboard: Dashboard): void {
  let isStopping = false;
  const stop = (signal: NodeJS.Signals) => {
    if (isStopping) return;
    isStopping = true;
    log.info({ signal }, "stopping");
    dashboard.close().then(
      () => process.exit(0),
      (error: unknown) => {
        log.error({ err: error }, "could not stop cleanly");
        process.exit(1);
      },
    );
  };
  process.on("SIGINT", stop);
  process.on("SIGTERM", stop);
}

async function main(): Promise<void> {
  const read = readConfig(process.argv.slice(2));
  if ("sentence" in read) giveUp(read.sentence, 2);
  if ("test" in read) process.exit(await runTestAlert(read.test));
  else await runDashboard(read.config);
}

async function runTestAlert(test: TestAlertConfig): Promise<number> {
  const password = process.env["BOOTHWARD_PASSWORD"] ?? (await readLine(process.stdin));
  const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));
  return testAlert({ ...test, password, say, pause });
}

async function readLine(input: NodeJS.ReadableStream): Promise<string> {
  for await (const line of createInterface({ input })) return line;
  return "";
}

async function runDashboard(config: DashboardConfig): Promise<void> {
  try {
    const dashboard = await open(config);
    stopOnSignals(dashboard);
    const firstRun = dashboard.firstRunUrl && `Make the owner's account, once: ${dashboard.firstRunUrl}`;
    say([`Boothward is at ${config.origin ?? dashboard.url}`, ...(firstRun ? [firstRun] : [])].join("\n"));
  } catch (error) {
    const sentence = sentenceFor(error, config);
    if (sentence === null) throw error;
    giveUp(sentence, 1);
  }
}

await main();
