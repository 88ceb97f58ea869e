import { parseArgs } from "node:util";
import * as z from "zod";

/** What `dashboard run` is told on its command line. */
export type DashboardConfig = z.infer<typeof schema>;

export const usage = `Usage: dashboard run --data DIR [--port N] [--host H] [--origin URL]

  --data    folder for everything the dashboard keeps; it is made when it is not there
  --port    port to listen on, 0 for any free one (8460)
  --host    address to listen on; 0.0.0.0 lets booths and phones reach it (127.0.0.1)
  --origin  what people type to reach it, where that differs: https://booths.example
`;

const schema = z.object({
  data: z.string().min(1),
  port: z.coerce.number().int().min(0).max(65_535).default(8460),
  // This computer only, until somebody means to be reached.
  host: z.string().min(1).default("127.0.0.1"),
  origin: z
    .url({ protocol: /^https?$/ })
    .transform((url) => new URL(url).origin)
    .nullable()
    .default(null),
});

/** Reads the command line, or says in a sentence which part of it is wrong. */
export function readConfig(args: readonly string[]): { config: DashboardConfig } | { sentence: string } {
  const parsed = parseCommand(args);
  if ("sentence" in parsed) return parsed;
  const { command, values } = parsed;
  if (command !== "run") return { sentence: `There is no command "${command ?? ""}".\n${usage}` };
  if (values["data"] === undefined) return { sentence: `--data is missing: name a folder.\n${usage}` };
  const read = schema.safeParse(values);
  if (read.success) return { config: read.data };
  const issue = read.error.issues[0];
  const field = String(issue?.path[0] ?? "");
  return { sentence: `--${field} ${JSON.stringify(values[field])}: ${issue?.message ?? "wrong"}\n${usage}` };
}

type Command = { command: string | undefined; values: Record<string, string | undefined> };

function parseCommand(args: readonly string[]): Command | { sentence: string } {
  const option = { type: "string" } as const;
  try {
    const { positionals, values } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { data: option, port: option, host: option, origin: option },
    });
    return { command: positionals[0], values };
  } catch (error) {
    return { sentence: `${error instanceof Error ? error.message : String(error)}\n${usage}` };
  }
}
