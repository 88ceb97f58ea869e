import * as z from "zod";

/** Settings of a print queue that speaks IPP (a CUPS queue on this computer, or a printer on the network). */
export const ippSourceConfig = z.strictObject({
  kind: z.literal("ipp"),
  name: z.string().min(1).max(80).default("printer"),
  /** As the queue names itself, for example ipp://localhost:631/printers/booth. */
  uri: z
    .string()
    .refine(isPrinterUri, "must begin with ipp://, ipps://, http:// or https:// and name a host"),
  /** A small printer's own certificate is nearly always self-signed; true accepts it on ipps and https. */
  trustAnyCertificate: z.boolean().default(false),
  /** While jobs come in: half a second keeps the way from print to page well under 1.5 s. */
  eventsEveryMs: z.int().min(100).max(60_000).default(500),
  /**
   * After 20 quiet seconds. A call that comes alone costs 2.5 ms with all it wakes, so that one each half second
   * would be most of what an idle agent takes; a second still brings the first print in time.
   */
  quietEveryMs: z.int().min(100).max(60_000).default(1_000),
  /** The supplies come with no event, so state and jobs are read besides; ten attributes cost 0.5 ms. */
  stateEveryMs: z.int().min(200).max(600_000).default(5_000),
  /** For a printer that offers no subscriptions: everything is read this often instead. */
  withoutEventsEveryMs: z.int().min(200).max(600_000).default(1_000),
  /** A print server on this computer answers in 1 ms; a printer that wakes from sleep may take seconds. */
  timeoutMs: z.int().min(100).max(60_000).default(4_000),
  /**
   * 4x6 lengths one printed page uses, where the queue does not say its media: null takes it from the
   * job's media name or size, and 1 where there is none.
   */
  pitchesPerPage: z.number().min(0.5).max(10).nullable().default(null),
});
export type IppSourceConfig = z.infer<typeof ippSourceConfig>;

function isPrinterUri(text: string): boolean {
  if (!URL.canParse(text)) return false;
  const { protocol, host } = new URL(text);
  return ["ipp:", "ipps:", "http:", "https:"].includes(protocol) && host !== "";
}
