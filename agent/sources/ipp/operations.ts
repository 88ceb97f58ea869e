import type { PrinterStateWord } from "@boothward/shared-types";
import { boolean, groupsOf, integer, intOf, intsOf, keywords, textOf, textsOf } from "./attributes.ts";
import type { IppClient } from "./ippClient.ts";
import type { IppFault } from "./ippFault.ts";
import type { IppAttribute, IppGroup } from "./ippMessage.ts";
import { groupTags } from "./ippMessage.ts";
import type { MeterSeen } from "./meters.ts";
import { meterAttributes, readMeters } from "./meters.ts";

/** Operation ids. **Source:** RFC 8011 section 5.4.15, RFC 3995 section 11, RFC 3996 section 5. */
const operations = {
  getJobs: 0x000a,
  getPrinterAttributes: 0x000b,
  createPrinterSubscriptions: 0x0016,
  cancelSubscription: 0x001b,
  getNotifications: 0x001c,
  cupsGetPrinters: 0x4002,
} as const;

/** A printer as it says it is. Times are of its own clock, in seconds. */
export type PrinterSeen = {
  readonly queue: string | null;
  readonly state: PrinterStateWord | null;
  readonly reasons: readonly string[];
  readonly message: string | null;
  readonly queuedJobs: number | null;
  /** Unix time, or seconds since it was switched on. */
  readonly upTimeS: number | null;
  readonly meters: readonly MeterSeen[];
};

/** A queue of a print server. */
export type QueueSeen = {
  readonly name: string;
  readonly uri: string;
  readonly state: PrinterStateWord | null;
};

/** CUPS-Get-Printers: all queues of a CUPS server. **Source:** CUPS' implementation of IPP. */
export async function readQueues(client: IppClient): Promise<{ queues: readonly QueueSeen[] } | IppFault> {
  const wanted = keywords("requested-attributes", "printer-name", "printer-uri-supported", "printer-state");
  const answer = await client.call(operations.cupsGetPrinters, { operation: [wanted] });
  if ("fault" in answer) return answer;
  const queues = groupsOf(answer.message, groupTags.printer).flatMap((group) => {
    const name = textOf(group, "printer-name");
    const uri = textOf(group, "printer-uri-supported");
    const state = stateWords[intOf(group, "printer-state") ?? 0] ?? null;
    return name !== null && uri !== null ? [{ name, uri, state }] : [];
  });
  return { queues };
}

/** **Source:** RFC 8011 section 5.4.11. */
const stateWords: Readonly<Record<number, PrinterStateWord>> = { 3: "idle", 4: "processing", 5: "stopped" };

const printerAttributes = keywords(
  "requested-attributes",
  ...["printer-name", "printer-state", "printer-state-reasons", "printer-state-message"],
  ...["queued-job-count", "printer-up-time"],
  ...meterAttributes,
);

/** Get-Printer-Attributes, RFC 8011 section 4.2.5. */
export async function readPrinter(client: IppClient): Promise<PrinterSeen | IppFault> {
  const answer = await client.call(operations.getPrinterAttributes, { operation: [printerAttributes] });
  if ("fault" in answer) return answer;
  const printer = groupsOf(answer.message, groupTags.printer)[0];
  if (!printer) return { fault: "unreadable", detail: "the reply names no printer", status: null };
  const upTimeS = intOf(printer, "printer-up-time");
  return {
    queue: textOf(printer, "printer-name"),
    state: stateWords[intOf(printer, "printer-state") ?? 0] ?? null,
    reasons: textsOf(printer, "printer-state-reasons").filter((reason) => reason !== "none"),
    message: textOf(printer, "printer-state-message") || null,
    queuedJobs: intOf(printer, "queued-job-count"),
    upTimeS,
    meters: readMeters(printer, upTimeS),
  };
}

/** A job as the queue lists it. */
export type JobSeen = {
  readonly jobId: number;
  readonly uuid: string | null;
  /** IPP's job-state: 3 pending, 4 held, 5 processing, 6 stopped, 7 cancelled, 8 aborted, 9 completed. */
  readonly state: number | null;
  readonly copies: number | null;
  readonly impressions: number | null;
  readonly createdAtS: number | null;
  readonly completedAtS: number | null;
  /** The printer's clock when it answered. */
  readonly upTimeS: number | null;
  /** Names of the job's media, empty where it does not say. */
  readonly media: readonly string[];
};

export const jobCompleted = 9;

/** CUPS leaves job-impressions-completed out of `all`: every attribute is named. */
const jobAttributes = keywords(
  "requested-attributes",
  ...["job-id", "job-uuid", "job-state", "job-impressions-completed", "copies", "media"],
  ...["time-at-creation", "time-at-completed", "job-printer-up-time"],
);
const jobIdOnly = keywords("requested-attributes", "job-id");

export type JobList = "completed" | "not-completed";

/** Get-Jobs, RFC 8011 section 4.2.6, from this job number on. */
export async function readJobs(
  client: IppClient,
  which: JobList,
  fromJobId: number,
): Promise<{ jobs: readonly JobSeen[] } | IppFault> {
  const groups = await listJobs(client, which, [integer("first-job-id", fromJobId), jobAttributes]);
  if ("fault" in groups) return groups;
  const jobs = groups.jobs.flatMap(readJob);
  // A printer may pass over first-job-id, which is not in RFC 8011.
  return { jobs: jobs.filter((job) => job.jobId >= fromJobId) };
}

/** The numbers of all jobs of a list, cheap also for a long history. */
export async function readJobIds(
  client: IppClient,
  which: JobList,
): Promise<{ jobIds: readonly number[] } | IppFault> {
  const groups = await listJobs(client, which, [jobIdOnly]);
  if ("fault" in groups) return groups;
  return { jobIds: groups.jobs.flatMap((group) => intOf(group, "job-id") ?? []) };
}

async function listJobs(
  client: IppClient,
  which: JobList,
  more: readonly IppAttribute[],
): Promise<{ jobs: readonly IppGroup[] } | IppFault> {
  const operation = [keywords("which-jobs", which), ...more];
  const answer = await client.call(operations.getJobs, { operation });
  return "fault" in answer ? answer : { jobs: groupsOf(answer.message, groupTags.job) };
}

function readJob(group: IppGroup): JobSeen[] {
  const jobId = intOf(group, "job-id");
  if (jobId === null) return [];
  const uuid = textOf(group, "job-uuid");
  const job = {
    jobId,
    uuid: uuid === null ? null : uuid.replace(/^urn:uuid:/, ""),
    state: intOf(group, "job-state"),
    copies: intOf(group, "copies"),
    impressions: intOf(group, "job-impressions-completed"),
    createdAtS: intOf(group, "time-at-creation"),
    completedAtS: intOf(group, "time-at-completed"),
    upTimeS: intOf(group, "job-printer-up-time"),
    media: textsOf(group, "media"),
  };
  return [job];
}

/**
 * An hour: an agent that was killed leaves its subscription behind, and CUPS holds a hundred at most. When
 * it has run out, the printer says "unknown" and the feed makes the next one.
 */
const leaseS = 3_600;

/** Create-Printer-Subscriptions, RFC 3995 section 11.1.2, for events that are fetched (RFC 3996). */
export async function subscribe(client: IppClient): Promise<{ subscriptionId: number } | IppFault> {
  const attributes = [
    keywords("notify-pull-method", "ippget"),
    keywords("notify-events", "printer-state-changed", "job-created", "job-state-changed", "job-completed"),
    integer("notify-lease-duration", leaseS),
  ];
  const groups = [{ tag: groupTags.subscription, attributes }];
  const answer = await client.call(operations.createPrinterSubscriptions, { groups });
  if ("fault" in answer) return answer;
  const made = groupsOf(answer.message, groupTags.subscription)[0];
  const subscriptionId = intOf(made, "notify-subscription-id");
  if (subscriptionId !== null) return { subscriptionId };
  return { fault: "unsupported", detail: "the printer made no subscription", status: null };
}

/** Get-Notifications, RFC 3996 section 5: the numbers of the events from `fromSequence` on. */
export async function takeEvents(
  client: IppClient,
  subscriptionId: number,
  fromSequence: number,
): Promise<{ sequences: readonly number[] } | IppFault> {
  const operation = [
    integer("notify-subscription-ids", subscriptionId),
    integer("notify-sequence-numbers", fromSequence),
    boolean("notify-wait", false),
  ];
  const answer = await client.call(operations.getNotifications, { operation });
  if ("fault" in answer) return answer;
  const events = groupsOf(answer.message, groupTags.eventNotification);
  return { sequences: events.flatMap((event) => intsOf(event, "notify-sequence-number")[0] ?? []) };
}

/** Cancel-Subscription, RFC 3995 section 11.2.5. */
export async function cancelSubscription(client: IppClient, subscriptionId: number): Promise<void> {
  const operation = [integer("notify-subscription-id", subscriptionId)];
  await client.call(operations.cancelSubscription, { operation });
}
