import type { IncomingMessage } from "node:http";
import type { AddressInfo } from "node:net";
import type { Duplex } from "node:stream";
import type { Clock } from "@boothward/shared-types";
import type { Logger } from "pino";
import { openAlertOrders } from "./alertOrders.ts";
import { alertStories } from "./alertStories.ts";
import { boothEvening } from "./boothEvening.ts";
import { openBooths } from "./boothsAtWork.ts";
import { openServer, type OpenServer, type TlsFiles } from "./http/openServer.ts";
import { liveUpgrade } from "./http/liveUpgrade.ts";
import { makeApp } from "./http/makeApp.ts";
import { servePages } from "./http/pages.ts";
import { passwords } from "./http/passwordHash.ts";
import { openGate } from "./ingest/gate.ts";
import { refuseUpgrade } from "./ingest/refuseUpgrade.ts";
import { openKnownEvenings } from "./knownEvenings.ts";
import { openLive } from "./live/openLive.ts";
import type { CallOutOptions } from "./notify/callOut.ts";
import { openNotifier } from "./notify/openNotifier.ts";
import type { HttpSurroundings } from "./http/surroundings.ts";
import { checksOfBooking, planOfBooking } from "./planOfBooking.ts";
import { replayBooking } from "./replayBooking.ts";
import { openReports } from "./openReports.ts";
import { openPlannedUse } from "./plannedUse.ts";
import { readAhead } from "./readAhead.ts";
import { openRollMoves } from "./rollMoves.ts";
import { openOwnWatch } from "./ownWatch.ts";
import { openStore, type Store } from "./store/openStore.ts";
import { secretHash } from "./store/secretHash.ts";
import { openSqlite } from "./store/sqlite.ts";
import { swapBooth } from "./swapBooth.ts";
import { whyNotBox } from "./whyNotBox.ts";

/** Silence and forecasts move without a word from anybody: so often they are looked at. */
const tickEveryMs = 1_000;
/** A renewed certificate is taken into use within an hour: it is renewed weeks before the old one ends. */
const renewEveryMs = 3_600_000;
/** The owner's first link; a later start prints a new one. */
const firstRunMs = 24 * 3_600_000;

export type DashboardOptions = {
  readonly dataDir: string;
  readonly port: number;
  readonly host: string;
  readonly origin: string | null;
  /** The dashboard's own certificate; null: it speaks plain HTTP. */
  readonly tls: TlsFiles | null;
  /** Names the program's build; null: it runs from source. */
  readonly build: string | null;
  readonly pagesDir: string;
  readonly clock: Clock;
  readonly log: Logger;
  readonly randomBytes: (size: number) => Buffer;
  /** A new UUIDv7. */
  readonly makeId: () => string;
  /** scrypt's N. */
  readonly passwordCost: number;
  readonly mostFailedTries: number;
  /** From 0 up to but not including 1. */
  readonly dice: () => number;
  /** How addresses elsewhere are called. */
  readonly outside: CallOutOptions;
  /** False: time moves by `tick()` only. */
  readonly ticksByItself: boolean;
};

export type Dashboard = {
  /** Where it can be reached from here. */
  readonly url: string;
  /** The link that makes the owner's account; null: there is an owner. */
  readonly firstRunUrl: string | null;
  tick(): Promise<void>;
  /** Resolves when no notice is being sent. */
  settled(): Promise<void>;
  close(): Promise<void>;
};

/**
 * Opens a whole dashboard: store, booths, gate for agents, pages. Throws `FolderInUse` when another one has
 * the folder, `CertificateUnusable`, and what `listen` throws when the port is taken.
 */
export async function openDashboard(options: DashboardOptions): Promise<Dashboard> {
  const store = await openStore(openSqlite(options.dataDir));
  try {
    return await openOn(store, options);
  } catch (error) {
    await store.close();
    throw error;
  }
}

async function openOn(store: Store, options: DashboardOptions): Promise<Dashboard> {
  const { clock, log, makeId } = options;
  const live = openLive({ clock, log });
  const gate = await openGate({
    ...{ store, clock, log },
    onStored: (boothId, items, keptAside) => booths.onStored(boothId, items, keptAside),
    onPresence: (boothId) => booths.onPresence(boothId),
  });
  const evenings = openKnownEvenings({ store, clock, log });
  const notifier = await openNotifier({ ...options, store, origin: () => options.origin ?? url });
  const ownWatch = openOwnWatch({
    ...{ clock, makeId, lateCalls: notifier.lateCalls, publish: live.publishOwn },
    heardFromElsewhereAtMs: gate.heardFromElsewhereAtMs,
    queue: (notices) => store.notices.add(notices).then(notifier.wake),
  });
  const orders = await openAlertOrders({ store, clock }, ownWatch.now, live);
  const reports = openReports({ store, clock, log });
  const booths = await openBooths({
    ...{ store, build: options.build, clock, log, makeId, evenings },
    orderOf: orders.of,
    noticeUnits: orders.units,
    trust: orders.trust,
    presenceOf: gate.presenceOf,
    publish: live.publish,
    onItems: (boothId, items) => rollMoves.onStored(boothId, items),
    onNotices: notifier.wake,
  });
  const rollMoves = openRollMoves({ store, knownOf: booths.knownOf });
  const plannedUse = openPlannedUse({ store, evenings, knownOf: booths.knownOf });
  const surroundings: HttpSurroundings = {
    ...options,
    ...{ store, gate, live, notifier, reports },
    isTls: options.tls !== null,
    passwords: passwords(options.randomBytes, options.passwordCost),
    onPlanChanged: booths.onPlanChanged,
    whyNotBox,
    sayToAlert: booths.say,
    alertStories: (boothIds, fromAtMs, atMs) => alertStories(store, boothIds, fromAtMs, atMs),
    onFacts: (boothId, facts) => booths.onStored(boothId, facts, 0),
    rollMoves: rollMoves.of,
    plannedUse,
    replayOf: (bookingId, atMs) => replayBooking({ store, evenings }, bookingId, atMs),
    planOf: (bookingId, atMs) => planOfBooking({ store, evenings, booths }, bookingId, atMs),
    checksOf: (bookingId, atMs) => checksOfBooking({ store, booths }, bookingId, atMs),
    swapBooth: (swap) => swapBooth({ store, booths, makeId }, swap),
    async eveningOf(boothId, atMs) {
      const known = booths.knownOf(boothId);
      return known && boothEvening({ store, evenings }, known, atMs);
    },
  };
  const app = makeApp(surroundings, servePages(options.pagesDir));
  const { server, renew } = openServer(app, options.tls, { nowMs: clock().wallMs, log });
  server.on("upgrade", upgrades({ "/link": gate.handleUpgrade, "/live": liveUpgrade(surroundings) }));
  await listen(server, options.port, options.host);
  const url = urlOf(server, options);
  let lookedMonoMs = clock().monoMs;

  const ahead = readAhead({ store, rollMoves, plannedUse, evenings, reports, atMs: clock().wallMs, log });

  const tick = async () => {
    const { wallMs, monoMs } = clock();
    if (monoMs - lookedMonoMs >= renewEveryMs) {
      lookedMonoMs = monoMs;
      renew(wallMs);
    }
    live.tick();
    await gate.tick();
    await ownWatch.tick();
    await orders.tick();
    await booths.tick();
    await notifier.tick();
    await reports.tick();
  };
  const stopTicking = options.ticksByItself ? startTicking(tick, log) : () => undefined;
  return {
    url,
    firstRunUrl: await firstRunUrl(store, options, url),
    tick,
    settled: () => notifier.settled(),
    async close() {
      stopTicking();
      const isClosed = new Promise((resolve) => server.close(resolve));
      live.close();
      await gate.close();
      await booths.close();
      await notifier.close();
      // First, so that what the others break off is no error to it.
      const isAheadClosed = ahead.close();
      rollMoves.close();
      await evenings.close();
      await reports.close();
      await isAheadClosed;
      server.closeAllConnections();
      await isClosed;
      await store.close();
    },
  };
}

type Upgrade = (request: IncomingMessage, socket: Duplex, head: Buffer) => void;

function upgrades(byPath: Readonly<Record<string, Upgrade>>): Upgrade {
  return (request, socket, head) => {
    const [path = ""] = (request.url ?? "").split("?");
    const upgrade = byPath[path];
    if (upgrade !== undefined) return upgrade(request, socket, head);
    const sentence = "There is no socket at this address.";
    refuseUpgrade(socket, { status: 404, error: "noSuchAddress", sentence });
  };
}

function listen(server: OpenServer["server"], port: number, host: string): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, host, () => {
      server.off("error", reject);
      resolve();
    });
  });
}

/** Ticks each second, and never before the tick before is done. */
function startTicking(tick: () => Promise<void>, log: Logger): () => void {
  let isTicking = false;
  const timer = setInterval(() => {
    if (isTicking) return;
    isTicking = true;
    tick()
      .catch((error: unknown) => log.error({ err: error }, "a tick failed"))
      .finally(() => (isTicking = false));
  }, tickEveryMs);
  return () => clearInterval(timer);
}

/** An address that works on this computer: listening on all of them is no address. */
function urlOf(server: OpenServer["server"], { host, tls }: DashboardOptions): string {
  const { port } = server.address() as AddressInfo;
  const name = ["0.0.0.0", "::"].includes(host) ? "localhost" : host.includes(":") ? `[${host}]` : host;
  return `${tls === null ? "http" : "https"}://${name}:${port}`;
}

/** Makes the one-time link for the first owner; null when there is one. */
async function firstRunUrl(store: Store, options: DashboardOptions, url: string): Promise<string | null> {
  if (!(await store.accounts.isEmpty())) return null;
  const code = options.randomBytes(24).toString("base64url");
  const atMs = options.clock().wallMs;
  await store.oneTimeCodes.replaceFirstRun({
    ...{ codeHash: secretHash(code), purpose: "firstRun", accountId: null, boothId: null },
    ...{ createdAtMs: atMs, expiresAtMs: atMs + firstRunMs },
  });
  return `${options.origin ?? url}/first-run#code=${code}`;
}
