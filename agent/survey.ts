import { once } from "node:events";
import { createServer } from "node:net";
import { homedir } from "node:os";
import { join } from "node:path";
import { defaultHookPort } from "./sources/hook/hookSourceConfig.ts";
import { hostSensors } from "./sources/hostSensors.ts";
import { ippClient } from "./sources/ipp/ippClient.ts";
import { readQueues } from "./sources/ipp/operations.ts";
import { findPictureFolders } from "./sources/pictureFolders.ts";
import type { PowerSeen } from "./sources/powerSupplies.ts";
import { defaultGateway } from "./sources/peers/defaultGateway.ts";
import { listPrinters } from "./sources/spooler/listPrinters.ts";
import { printerCondition } from "./sources/spooler/printerCondition.ts";
import type { WindowsPrinter } from "./sources/spooler/spoolerLine.ts";
import { findThermometers } from "./sources/thermometers.ts";

/** One thing that can be seen on this computer, or that is missing and what to do about it. */
export type Finding = {
  readonly matter: "queue" | "folder" | "hook" | "thermometer" | "power" | "peers" | "machine";
  /** What was found, as a setting names it; null: it is missing. */
  readonly found: string | null;
  readonly sentence: string;
  /** Lines for the agent's settings, without indentation; empty where there is nothing to set. */
  readonly setting: readonly string[];
};

/** Where to look. */
export type Places = {
  /** Address of the print server. */
  readonly printServer: string;
  /** The printers of Windows' spooler; null where this is no Windows, and the print server is asked. */
  readonly windowsPrinters: (() => Promise<readonly WindowsPrinter[]>) | null;
  /** Where a booth program would call. */
  readonly hookPort: number;
  /** Folders under which booth programs keep pictures. */
  readonly pictureRoots: readonly string[];
  /** Where the kernel's files begin. */
  readonly sysRoot: string;
  /** What feeds this computer. */
  readonly power: () => Promise<PowerSeen | null>;
  /** Address of the router, as this computer sends through it; null: it has none. */
  readonly gateway: () => Promise<string | null>;
};

/** A person wants an answer in a few seconds. */
const timeoutMs = 3_000;
/** More than these are not candidates but an archive. */
const mostFoldersShown = 5;

const thisComputer: Places = {
  printServer: "ipp://localhost:631/",
  windowsPrinters: process.platform === "win32" ? () => listPrinters() : null,
  hookPort: defaultHookPort,
  pictureRoots: ["Pictures", "Documents", "Desktop"].map((name) => join(homedir(), name)),
  sysRoot: "/sys",
  power: () => hostSensors(process.platform, homedir()).power(),
  gateway: () => (process.platform === "linux" ? defaultGateway("/proc") : Promise.resolve(null)),
};

/** What can be seen on this computer, as text for a person: a sentence each, then the settings that fit. */
export async function survey(places: Places = thisComputer): Promise<string> {
  const findings = await lookAround(places);
  const sentences = findings.map(({ found, sentence }) => `${found === null ? "-" : "+"} ${sentence}`);
  const settings = findings.filter(({ setting }) => setting.length > 0).map(({ setting }) => asYaml(setting));
  const fitting =
    settings.length === 0
      ? []
      : ["", "Settings that fit (keep what is yours):", "sources:", ...settings.flat()];
  return [...sentences, ...fitting].join("\n");
}

/** The same as data; each matter is there at least once. */
export async function lookAround(places: Places): Promise<readonly Finding[]> {
  const found = await Promise.all([
    places.windowsPrinters ? lookForPrinters(places.windowsPrinters) : lookForQueues(places.printServer),
    lookForFolders(places.pictureRoots),
    lookForHook(places.hookPort),
    lookForThermometers(places.sysRoot),
    lookForPower(places.power),
    lookForPeers(places.gateway),
  ]);
  return [...found.flat(), machineFinding];
}

async function lookForQueues(printServer: string): Promise<readonly Finding[]> {
  const client = ippClient({ uri: printServer, trustAnyCertificate: true, timeoutMs });
  const answer = await readQueues(client);
  client.close();
  const queues = "queues" in answer ? answer.queues : [];
  if (queues.length > 0) {
    return queues.map(({ name, uri, state }) => ({
      matter: "queue",
      found: uri,
      sentence: `The print queue "${name}" is ${state ?? "there, but does not say how it is"}.`,
      setting: ["kind: ipp", `name: ${JSON.stringify(name)}`, `uri: ${JSON.stringify(uri)}`],
    }));
  }
  const isServerThere = "queues" in answer || answer.fault === "notFound";
  const sentence = isServerThere
    ? `The print server at ${printServer} has no queue: add the booth's printer to it.`
    : `No print server answers at ${printServer}: install CUPS and add the booth's printer, or give the printer's own address (ipp://...) as uri.`;
  return [{ matter: "queue", found: null, sentence, setting: [] }];
}

async function lookForPrinters(list: () => Promise<readonly WindowsPrinter[]>): Promise<readonly Finding[]> {
  const missing = (sentence: string): readonly Finding[] => [
    { matter: "queue", found: null, sentence, setting: [] },
  ];
  try {
    const printers = await list();
    if (printers.length === 0)
      return missing(
        "Windows has no printer: add the booth's printer with its driver, and start its print spooler.",
      );
    return printers.map((printer) => {
      const { state, reasons } = printerCondition(printer, []);
      const how = [state ?? "there, but Windows does not say how it is", ...reasons].join(", ");
      const name = JSON.stringify(printer.Name);
      return {
        matter: "queue",
        found: printer.Name,
        sentence: `The printer ${name} is ${how}.`,
        setting: ["kind: spooler", `name: ${name}`, `queue: ${name}`],
      };
    });
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return missing(`Windows does not show its printers: ${why}`);
  }
}

/** A program that can call says what happens better than anything can be seen from outside. */
async function lookForHook(port: number): Promise<readonly Finding[]> {
  const address = `http://127.0.0.1:${port}/session/finished`;
  const isFree = await isPortFree(port);
  const sentence = isFree
    ? `If the booth program can open an address when guests finish, add "kind: hook" to the sources and let it open ${address}: the surest count there is.`
    : `Port ${port}, where a booth program would call, is in use: by this agent if it runs and has "kind: hook", else give hook another port.`;
  return [{ matter: "hook", found: isFree ? address : null, sentence, setting: [] }];
}

async function isPortFree(port: number): Promise<boolean> {
  const server = createServer().listen(port, "127.0.0.1");
  try {
    await once(server, "listening");
  } catch {
    return false;
  }
  server.close();
  await once(server, "close");
  return true;
}

async function lookForFolders(roots: readonly string[]): Promise<readonly Finding[]> {
  const folders = await findPictureFolders(roots);
  if (folders.length === 0) {
    const sentence = `No folder with pictures was found under ${roots.join(", ")}: give the folder where the booth program leaves finished print layouts as path.`;
    return [{ matter: "folder", found: null, sentence, setting: [] }];
  }
  return folders.slice(0, mostFoldersShown).map(({ path, pictures, newestAtMs }, i) => ({
    matter: "folder",
    found: path,
    sentence: `The folder ${path} holds ${pictures} ${pictures === 1 ? "picture" : "pictures"}, the newest of ${new Date(newestAtMs).toISOString().slice(0, 16).replace("T", " ")} UTC: is it the one for finished print layouts?`,
    setting: i === 0 ? ["kind: folder", `path: ${JSON.stringify(path)}`] : [],
  }));
}

async function lookForThermometers(root: string): Promise<readonly Finding[]> {
  const thermometers = await findThermometers(root);
  if (thermometers.length === 0) {
    const sentence =
      "No thermometer was found: plug a 1-Wire or USB one in near the printer, or the booth's heat stays unknown.";
    return [{ matter: "thermometer", found: null, sentence, setting: [] }];
  }
  const ofTheRoom = thermometers.find(({ key }) => isOfTheRoom(key));
  return await Promise.all(
    thermometers.map(async (thermometer): Promise<Finding> => {
      const { key } = thermometer;
      const reading = await thermometer.read();
      const says =
        "celsius" in reading ? `says ${reading.celsius.toFixed(1)} °C` : `has no value: ${reading.detail}`;
      const setting = ["kind: thermometers", "sensors:", `  ${JSON.stringify(key)}: inside`];
      return {
        matter: "thermometer",
        found: key,
        sentence: `The thermometer ${key} ${says}.`,
        setting: thermometer === ofTheRoom ? setting : [],
      };
    }),
  );
}

/** A computer's own chips say how warm they are, not how warm the booth is. */
function isOfTheRoom(key: string): boolean {
  return key.startsWith("w1:") || key.startsWith("iio:");
}

async function lookForPower(ask: Places["power"]): Promise<readonly Finding[]> {
  const power = await ask().catch(() => null);
  const setting = ["kind: host"];
  if (!power) {
    const sentence =
      "This computer does not say what feeds it (no battery): a pulled plug shows only as a silent booth.";
    return [{ matter: "power", found: null, sentence, setting }];
  }
  const battery = power.batteryPct === null ? "no battery" : `its battery at ${power.batteryPct} %`;
  const sentence = `This computer runs ${power.isOnMains ? "on mains" : "on its battery"}, ${battery}.`;
  return [{ matter: "power", found: power.isOnMains ? "mains" : "battery", sentence, setting }];
}

/** Camera, tablet and uplink are the booth's own: only the router can be found. */
async function lookForPeers(ask: Places["gateway"]): Promise<readonly Finding[]> {
  const gateway = await ask().catch(() => null);
  const rest = "camera (usb: a part of its name) and tablet (tcp: its address) can be added to it.";
  if (gateway === null) {
    const sentence = `No router was found: with "kind: peers" a router (tcp: 192.168.8.1:80), ${rest}`;
    return [{ matter: "peers", found: null, sentence, setting: [] }];
  }
  const address = gateway.includes(":") ? `[${gateway}]:80` : `${gateway}:80`;
  const setting = ["kind: peers", "peers:", `  - {part: router, tcp: ${JSON.stringify(address)}}`];
  return [{ matter: "peers", found: gateway, sentence: `The router is ${gateway}; ${rest}`, setting }];
}

const machineFinding: Finding = {
  matter: "machine",
  found: "machine",
  sentence:
    "Whether an update waits, or sleep is on, is told before the opening, as far as this computer says.",
  setting: ["kind: machine"],
};

/** A list entry of YAML. */
function asYaml(setting: readonly string[]): readonly string[] {
  return setting.map((line, i) => `${i === 0 ? "  - " : "    "}${line}`);
}
