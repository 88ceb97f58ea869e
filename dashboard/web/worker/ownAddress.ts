import * as z from "zod/mini";

const opened = z.object({ path: z.string() });

/** The address within our own origin; what leads elsewhere leads to the first page. */
export function ownAddress(data: unknown, origin: string): string {
  const read = opened.safeParse(data);
  if (!read.success) return `${origin}/`;
  const url = new URL(read.data.path, origin);
  return url.origin === origin ? url.href : `${origin}/`;
}
