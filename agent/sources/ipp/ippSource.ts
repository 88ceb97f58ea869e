import type { Emit, Source, SourceAnswer } from "../../readings/source.ts";
import { stateFile } from "../stateFile.ts";
import type { Surroundings } from "../surroundings.ts";
import { eventFeed } from "./eventFeed.ts";
import { ippClient } from "./ippClient.ts";
import type { IppFault } from "./ippFault.ts";
import type { IppSourceConfig } from "./ippSourceConfig.ts";
import { jobCounter } from "./jobCounter.ts";
import { jobLedger } from "./jobLedger.ts";
import { readPrinter } from "./operations.ts";
import type { Told } from "./printerItems.ts";
import { printerItems, printItem, toldNothing } from "./printerItems.ts";

/** So long after the last event the queue counts as quiet: a sheet takes 8 to 20 s. */
const quietAfterMs = 20_000;
/** After a fault the queue is tried again each second: a print server restarts in one or two. */
const retryMs = 1_000;
/** Saying goodbye to a printer must not hold up the end of the agent. */
const goodbyeMs = 1_000;

/**
 * A print queue over IPP: its state, meters and length as they change, and a `print` fact for each job that
 * was completed, exactly once.
 *
 * Events (RFC 3995, 3996) only say when to look; printer and jobs are read whenever there was one, and every
 * `stateEveryMs` besides.
 */
export function ippSource(config: IppSourceConfig, { clock, stateFolder }: Surroundings): Source {
  const client = ippClient(config);
  const feed = eventFeed(client);
  const counter = jobCounter(client, config.uri, stateFile(stateFolder, "jobs", config.uri, jobLedger));
  let told: Told = toldNothing;
  let isFresh = true;
  let upTimeS: number | null = null;
  let readAtMonoMs = -Infinity;
  let newsAtMonoMs = -Infinity;
  let timer: NodeJS.Timeout | null = null;
  let underWay: Promise<void> | null = null;
  let isClosed = false;

  /** One look; the time until the next. */
  async function look(emit: Emit): Promise<number> {
    const { monoMs } = clock();
    const events = await feed.poll(monoMs);
    if ("fault" in events) return await fail(events, emit);
    const { word } = events;
    if (word === "lost") isFresh = true;
    if (word !== "quiet") newsAtMonoMs = monoMs;
    const everyMs = word === "none" ? config.withoutEventsEveryMs : eventsEveryMs(monoMs);
    const isDue = word === "none" || monoMs - readAtMonoMs >= config.stateEveryMs;
    if (!isFresh && word !== "news" && !isDue) return everyMs;
    const fault = await read(monoMs, emit);
    return fault ? await fail(fault, emit) : everyMs;
  }

  function eventsEveryMs(monoMs: number): number {
    const isBusy = monoMs - newsAtMonoMs < quietAfterMs || (told.queuedJobs ?? 0) > 0;
    return isBusy ? config.eventsEveryMs : Math.max(config.quietEveryMs, config.eventsEveryMs);
  }

  /** Reads printer and jobs and tells what is new. */
  async function read(monoMs: number, emit: Emit): Promise<IppFault | null> {
    const printer = await readPrinter(client);
    if ("fault" in printer) return printer;
    // A clock that runs backwards: the printer was switched off and on, and may number its jobs anew.
    if (upTimeS !== null && printer.upTimeS !== null && printer.upTimeS < upTimeS) isFresh = true;
    ({ upTimeS } = printer);
    const counted = await counter.count(isFresh);
    if ("fault" in counted) return counted;
    const queue = (printer.queue ?? queueIn(config.uri)).slice(0, 200);
    const news = printerItems(told, queue, printer, monoMs);
    const prints = counted.prints.map(({ printId, job }) =>
      printItem(queue, job, printId, config.pitchesPerPage),
    );
    isFresh = false;
    // What could not be kept is read again at the next look.
    readAtMonoMs = -Infinity;
    if (!(await emit({ items: [...prints, ...news.items] }))) return null;
    ({ told } = news);
    readAtMonoMs = monoMs;
    await counted.keep();
    return null;
  }

  /** After an outage everything is looked at, and told, anew. */
  async function fail({ fault, detail }: IppFault, emit: Emit): Promise<number> {
    isFresh = true;
    told = toldNothing;
    if (!isClosed) await emit({ fault, detail: `${config.uri}: ${detail}` });
    return retryMs;
  }

  async function turn(emit: Emit): Promise<void> {
    const nextMs = await look(emit).catch(async (error: unknown) => {
      await emit(asFault(error));
      return retryMs;
    });
    underWay = null;
    if (!isClosed) timer = setTimeout(() => begin(emit), nextMs);
  }

  function begin(emit: Emit): void {
    underWay = turn(emit);
  }

  return {
    name: config.name,
    start: begin,
    async close() {
      isClosed = true;
      if (timer) clearTimeout(timer);
      if (underWay === null) await Promise.race([feed.close(), pause(goodbyeMs)]);
      client.close();
      await underWay;
    },
  };
}

function asFault(error: unknown): SourceAnswer {
  const detail = error instanceof Error ? error.message : String(error);
  return { fault: "unreadable", detail: `what was counted cannot be remembered: ${detail}` };
}

function queueIn(queueUri: string): string {
  return decodeURIComponent(new URL(queueUri).pathname.split("/").at(-1) ?? "") || queueUri;
}

function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms).unref());
}
