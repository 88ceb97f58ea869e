import { homedir } from "node:os";
import { join } from "node:path";
import { hostSensors } from "./sources/hostSensors.ts";
import { ippClient } from "./sources/ipp/ippClient.ts";
import { readQueues } from "./sources/ipp/operations.ts";
import { findPictureFolders } from "./sources/pictureFolders.ts";
import type { PowerSeen } from "./sources/powerSupplies.ts";
import { findThermometers } from "./sources/thermometers.ts";

/** One thing that can be seen on this computer, or that is missing and what to do about it. */
export type Finding = {
  readonly matter: "queue" | "folder" | "thermometer" | "power";
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
  /** Folders under which booth programs keep pictures. */
  readonly pictureRoots: readonly string[];
  /** Where the kernel's files begin. */
  readonly sysRoot: string;
  /** What feeds this computer. */
  readonly power: () => Promise<PowerSeen | null>;
};

/** A person wants an answer in a few seconds. */
const timeoutMs = 3_000;
/** More than these are not candidates but an archive. */
const mostFoldersShown = 5;

const thisComputer: Places = {
  printServer: "ipp://localhost:631/",
  pictureRoots: ["Pictures", "Documents", "Desktop"].map((name) => join(homedir(), name)),
  sysRoot: "/sys",
  power: () => hostSensors(process.platform, homedir()).power(),
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
    lookForQueues(places.printServer),
    lookForFolders(places.pictureRoots),
    lookForThermometers(places.sysRoot),
    lookForPower(places.power),
  ]);
  return found.flat();
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

/** A list entry of YAML. */
function asYaml(setting: readonly string[]): readonly string[] {
  return setting.map((line, i) => `${i === 0 ? "  - " : "    "}${line}`);
}
