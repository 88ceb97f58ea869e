import { chmodSync, mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import * as z from "zod";

const agentFile = z.object({ agentId: z.string().min(1).max(80) });

/** What pairing gave: who the agent is to which dashboard, and the token that proves it. */
const credentialsFile = z.object({
  agentId: z.string(),
  token: z.string().min(20),
  boothId: z.string(),
  boothName: z.string(),
  dashboard: z.string(),
});
export type Credentials = z.infer<typeof credentialsFile>;

/** The agent's id: made at the first call for a data folder, the same from then on. */
export function readAgentId(dataFolder: string, newId: () => string): string {
  mkdirSync(dataFolder, { recursive: true });
  const path = join(dataFolder, "agent.json");
  const found = readJson(path, agentFile);
  if (found) return found.agentId;
  const agentId = newId();
  writeWhole(path, { agentId });
  return agentId;
}

/** What the last pairing gave, or null if the agent was never paired. */
export function readCredentials(dataFolder: string): Credentials | null {
  return readJson(credentialsPath(dataFolder), credentialsFile);
}

/** Keeps what a pairing gave, readable for the agent's own user only. */
export function writeCredentials(dataFolder: string, credentials: Credentials): void {
  writeWhole(credentialsPath(dataFolder), credentials);
}

function credentialsPath(dataFolder: string): string {
  return join(dataFolder, "credentials.json");
}

/** Throws an Error that names the file when it is there and cannot be read as what it should be. */
function readJson<Schema extends z.ZodType>(path: string, schema: Schema): z.infer<Schema> | null {
  let text: string;
  try {
    text = readFileSync(path, "utf8");
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return null;
    throw error;
  }
  try {
    return schema.parse(JSON.parse(text));
  } catch {
    throw new Error(`${path} is damaged: remove it and pair this agent again`);
  }
}

function writeWhole(path: string, content: unknown): void {
  const half = `${path}.tmp`;
  writeFileSync(half, JSON.stringify(content), { mode: 0o600, flush: true });
  chmodSync(half, 0o600);
  renameSync(half, path);
}
