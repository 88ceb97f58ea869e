import { parseArgs, type ParseArgsConfig } from "node:util";
import * as z from "zod";
import type { TlsFiles } from "./http/openServer.ts";

/** What `dashboard run` is told on its command line. */
export type DashboardConfig = Omit<z.infer<typeof runSchema>, "cert" | "key"> & {
  readonly tls: TlsFiles | null;
};

/** What `dashboard test-alert` is told: which dashboard, as whom, and how long to wait for an arrival. */
export type TestAlertConfig = z.infer<typeof testSchema>;

export const usage = `Usage: dashboard run --data DIR [--port N] [--host H] [--origin URL] [--cert FILE --key FILE]
                     [--call-own-network]
       dashboard test-alert --url URL --name OWNER [--wait SECONDS]

  --data    folder for everything the dashboard keeps; it is made when it is not there
  --port    port to listen on, 0 for any free one (8460)
  --host    address to listen on; 0.0.0.0 lets booths and phones reach it (127.0.0.1)
  --origin  what people type to reach it, where that differs: https://booths.example
  --cert    certificate for https, PEM, with what stands between it and its root; --key is its key
  --call-own-network  webhooks and the like may lead to this machine and its network
  --url     where the running dashboard is: http://127.0.0.1:8460
  --name    whose ways are tried; the password is read from BOOTHWARD_PASSWORD or standard input
  --wait    how long to wait until it arrives (30)
`;

const webOrigin = z.url({ protocol: /^https?$/ }).transform((url) => new URL(url).origin);

const runSchema = z.object({
  data: z.string().min(1),
  port: z.coerce.number().int().min(0).max(65_535).default(8460),
  // This computer only, until somebody means to be reached.
  host: z.string().min(1).default("127.0.0.1"),
  origin: webOrigin.nullable().default(null),
  cert: z.string().min(1).optional(),
  key: z.string().min(1).optional(),
  // Whoever may name an address must not look around in this network by it.
  "call-own-network": z.boolean().default(false),
});

const testSchema = z.object({
  url: webOrigin,
  name: z.string().min(1),
  wait: z.coerce.number().min(1).max(600).default(30),
});

export type ReadConfig = { config: DashboardConfig } | { test: TestAlertConfig } | { sentence: string };

/** Reads the command line, or says in a sentence which part of it is wrong. */
export function readConfig(args: readonly string[]): ReadConfig {
  const parsed = parseCommand(args);
  if ("sentence" in parsed) return parsed;
  const { command, values } = parsed;
  if (command === "test-alert") {
    const read = readValues(testSchema, values, { url: "name a dashboard", name: "name an owner" });
    return "sentence" in read ? read : { test: read.values };
  }
  if (command !== "run") return { sentence: `There is no command "${command ?? ""}".\n${usage}` };
  const read = readValues(runSchema, values, { data: "name a folder" });
  return "sentence" in read ? read : withTls(read.values);
}

/** A certificate without its key is of no use, nor the other way round. */
function withTls(values: z.infer<typeof runSchema>): ReadConfig {
  const { cert, key, ...rest } = values;
  if (cert === undefined && key === undefined) return { config: { ...rest, tls: null } };
  if (cert === undefined) return { sentence: `--cert is missing: it belongs with --key.\n${usage}` };
  if (key === undefined) return { sentence: `--key is missing: it belongs with --cert.\n${usage}` };
  return { config: { ...rest, tls: { certFile: cert, keyFile: key } } };
}

/** `needed`: what is said of an option that is not there. */
function readValues<T>(
  schema: z.ZodType<T>,
  values: Command["values"],
  needed: Readonly<Record<string, string>>,
): { values: T } | { sentence: string } {
  for (const [option, remedy] of Object.entries(needed))
    if (values[option] === undefined) return { sentence: `--${option} is missing: ${remedy}.\n${usage}` };
  const read = schema.safeParse(values);
  if (read.success) return { values: read.data };
  const issue = read.error.issues[0];
  const field = String(issue?.path[0] ?? "");
  return { sentence: `--${field} ${JSON.stringify(values[field])}: ${issue?.message ?? "wrong"}\n${usage}` };
}

type Command = { command: string | undefined; values: Record<string, string | boolean | undefined> };

const text = { type: "string" } as const;
const commandOptions: Readonly<Record<"run" | "test-alert", NonNullable<ParseArgsConfig["options"]>>> = {
  run: {
    ...{ data: text, port: text, host: text, origin: text, cert: text, key: text },
    "call-own-network": { type: "boolean" },
  },
  "test-alert": { url: text, name: text, wait: text },
};
const optionValues = z.record(z.string(), z.union([z.string(), z.boolean()]).optional());

/** Each command knows its own options only. */
function parseCommand(args: readonly string[]): Command | { sentence: string } {
  const options = commandOptions[args.includes("test-alert") ? "test-alert" : "run"];
  try {
    const { positionals, values } = parseArgs({ args: [...args], allowPositionals: true, options });
    return { command: positionals[0], values: optionValues.parse(values) };
  } catch (error) {
    return { sentence: `${error instanceof Error ? error.message : String(error)}\n${usage}` };
  }
}
