import type { Booking, BoothView, Clock, StoredItem } from "@boothward/shared-types";
import type { Logger } from "pino";
import { advanceBooth, type BoothRun } from "./advanceBooth.ts";
import type { Alert } from "./alerts/alert.ts";
import type { AlertOrders } from "./alertOrders.ts";
import { alertViewOf } from "./alerts/alertViews.ts";
import { answerAlert, type AfterSaying, type SaidToAlert } from "./alerts/answerAlert.ts";
import type { Scene } from "./alerts/scene.ts";
import type { AlertsStepped } from "./alerts/stepBooth.ts";
import type { Trust } from "./alerts/trust.ts";
import type { BookedTime } from "./booth/bookingWindows.ts";
import type { BoothState } from "./booth/boothState.ts";
import { readingMemoryMs } from "./booth/readings.ts";
import { rebuildTimeline, type LoadSince } from "./booth/timeline.ts";
import type { OutlookMemo } from "./forecast/index.ts";
import type { Presence } from "./ingest/presences.ts";
import type { KnownEvenings } from "./knownEvenings.ts";
import { keptCheckpoint, type KeptCheckpoint } from "./keptCheckpoint.ts";
import { newNotices } from "./newNotices.ts";
import { nextPublished, type Published } from "./publishedView.ts";
import type { Booth } from "./store/booths.ts";
import type { Store } from "./store/openStore.ts";
import { alertOf, alertsToSave, rowOf, stepRowOf } from "./storedAlert.ts";

/** Changes of one booth within this time go out as one view; a page sees a reading well within 100 ms. */
const gatherMs = 25;

/** Facts this old may be of an evening that is over, and that others learn from. */
const lateMs = 3_600_000;

export type BoothsOptions = {
  readonly store: Store;
  /** Names the program's build; null: it runs from source. */
  readonly build: string | null;
  readonly clock: Clock;
  readonly log: Logger;
  readonly makeId: () => string;
  readonly evenings: Pick<KnownEvenings, "of" | "onChange">;
  readonly presenceOf: (boothId: string) => Presence;
  /** Items of a booth are on disk, from an agent or a person; called before they are folded. */
  readonly onItems: (boothId: string, items: readonly StoredItem[]) => void;
  readonly publish: (view: BoothView) => void;
  readonly orderOf: AlertOrders["of"];
  readonly noticeUnits: AlertOrders["units"];
  readonly trust: () => Trust;
  /** Notices were queued; called after the commit. */
  readonly onNotices: () => void;
};

/** A booth as it stands, with the memo of its last look ahead. */
export type KnownBooth = {
  readonly state: BoothState;
  readonly settings: Booth;
  readonly bookings: readonly Booking[];
  readonly forecast: OutlookMemo | null;
  /** As its page shows it; null before the first step. */
  readonly view: BoothView | null;
};

/** All booths of this dashboard, each kept up to this moment. */
export type BoothsAtWork = {
  /** Items that are on disk now. */
  onStored(boothId: string, newItems: readonly StoredItem[], keptAside: number): void;
  onPresence(boothId: string): void;
  /** Reads the booth and its plan anew; resolves when the pages have its new view. */
  readonly onPlanChanged: (boothId: string) => Promise<void>;
  /** What is known of a booth now; null: no such booth. */
  readonly knownOf: (boothId: string) => KnownBooth | null;
  /** Takes a person's answer to an alert of a booth; said twice, it counts once. */
  readonly say: (boothId: string, alertId: string, said: SaidToAlert) => Promise<AfterSaying>;
  /** Takes every booth to this moment, so that silence moves too. */
  tick(): Promise<void>;
  close(): Promise<void>;
};

/** Rebuilds every booth from the store and publishes its first view. */
export async function openBooths(options: BoothsOptions): Promise<BoothsAtWork> {
  const startedAtMs = options.clock().wallMs;
  const booths = new Map<string, BoothAtWork>();

  async function open(boothId: string): Promise<void> {
    const booth = booths.get(boothId) ?? new BoothAtWork(boothId, startedAtMs, options);
    booths.set(boothId, booth);
    await booth.readPlan();
    await booth.advance();
  }

  for (const { boothId } of await options.store.booths.all()) await open(boothId);
  return {
    onStored(boothId, newItems, keptAside) {
      options.onItems(boothId, newItems);
      booths.get(boothId)?.add(newItems, keptAside);
    },
    onPresence: (boothId) => booths.get(boothId)?.add([], 0),
    async onPlanChanged(boothId) {
      options.evenings.onChange();
      await open(boothId);
    },
    say: async (boothId, alertId, said) => (await booths.get(boothId)?.say(alertId, said)) ?? "noSuchAlert",
    knownOf: (boothId) => booths.get(boothId)?.known() ?? null,
    async tick() {
      for (const booth of booths.values()) await booth.advance();
    },
    async close() {
      for (const booth of booths.values()) await booth.close();
    },
  };
}

/** One booth: gathers what is new and advances, one step at a time. */
class BoothAtWork {
  readonly #boothId: string;
  readonly #startedAtMs: number;
  readonly #with: BoothsOptions;
  readonly #kept: KeptCheckpoint;
  #plan: { booth: Booth; bookings: readonly Booking[] } | null = null;
  #run: BoothRun | null = null;
  #keptAside = 0;
  #mustCountAside = true;
  #newItems: StoredItem[] = [];
  #published: Published | null = null;
  #view: BoothView | null = null;
  #gathering: NodeJS.Timeout | null = null;
  #step: Promise<void> = Promise.resolve();

  constructor(boothId: string, startedAtMs: number, options: BoothsOptions) {
    this.#boothId = boothId;
    this.#startedAtMs = startedAtMs;
    this.#with = options;
    this.#kept = keptCheckpoint({ ...options, boothId });
  }

  async readPlan(): Promise<void> {
    const { booths, bookings } = this.#with.store;
    const booth = await booths.byId(this.#boothId);
    this.#plan = booth && { booth, bookings: await bookings.ofBooth(this.#boothId) };
  }

  known(): KnownBooth | null {
    if (this.#run === null || this.#plan === null) return null;
    const { booth: settings, bookings } = this.#plan;
    const forecast = this.#run.lookedAhead?.memo ?? null;
    return { state: this.#run.timeline.state, settings, bookings, forecast, view: this.#view };
  }

  add(newItems: readonly StoredItem[], keptAside: number): void {
    this.#newItems.push(...newItems);
    this.#kept.onStored(newItems);
    if (isLate(newItems, this.#with.clock().wallMs)) this.#with.evenings.onChange();
    if (keptAside > 0) this.#mustCountAside = true;
    this.#gathering ??= setTimeout(() => void this.advance(), gatherMs);
  }

  /** Advances once the step before is done; resolves when the view is out. Never rejects. */
  advance(): Promise<void> {
    if (this.#gathering !== null) clearTimeout(this.#gathering);
    this.#gathering = null;
    this.#step = this.#step.then(() => this.#advance()).catch((error: unknown) => this.#failed(error));
    return this.#step;
  }

  async close(): Promise<void> {
    if (this.#gathering !== null) await this.advance();
    await this.#step;
  }

  async #advance(): Promise<void> {
    if (this.#plan === null) return;
    const { booth: settings, bookings } = this.#plan;
    const atMs = this.#with.clock().wallMs;
    this.#run ??= await this.#rebuild();
    const newItems = this.#newItems;
    this.#newItems = [];
    const inputs = {
      ...{ newItems, settings, bookings, atMs, listeningFromAtMs: this.#startedAtMs },
      presence: this.#with.presenceOf(this.#boothId),
      pastOf: (eventKind: string, isInvented: boolean) => this.#with.evenings.of(eventKind, isInvented),
      keptAside: await this.#countKeptAside(),
      orderOf: (booking: BookedTime | null) => this.#with.orderOf(this.#boothId, booking),
      trust: this.#with.trust(),
    };
    const world = {
      loadSince: this.#loadSince,
      newId: this.#with.makeId,
      saveAlerts: (before: readonly Alert[], stepped: AlertsStepped, scene: Scene) =>
        this.#saveAlerts(before, stepped, scene),
    };
    const { run, view } = await advanceBooth(this.#run, inputs, world);
    this.#run = run;
    this.#view = view;
    this.#publish(view, atMs);
    if (this.#newItems.length === 0) await this.#kept.keepFrom(run.timeline);
  }

  /** Everything there is, from the store; what still waits may be in it, and folding it again changes nothing. */
  async #rebuild(): Promise<BoothRun> {
    const timeline = await rebuildTimeline(this.#boothId, this.#loadSince, await this.#kept.read());
    const alerts = await this.#with.store.alerts.ofBooth(this.#boothId);
    return { timeline, alerts: alerts.map(alertOf), lookedAhead: null };
  }

  async #countKeptAside(): Promise<number> {
    if (!this.#mustCountAside) return this.#keptAside;
    this.#mustCountAside = false;
    this.#keptAside = await this.#with.store.boothItems.countKeptAside(this.#boothId);
    return this.#keptAside;
  }

  readonly #loadSince: LoadSince = async (fromAtMs) => {
    const { boothItems } = this.#with.store;
    const lastAtMs = await boothItems.lastAtMs(this.#boothId);
    if (lastAtMs === null) return [];
    const readingsAtMs = Math.max(fromAtMs, lastAtMs - readingMemoryMs);
    return boothItems.since(this.#boothId, { factsAtMs: fromAtMs, readingsAtMs });
  };

  async #saveAlerts(before: readonly Alert[], stepped: AlertsStepped, scene: Scene): Promise<void> {
    const { living, closed, steps, notices } = stepped;
    const { atMs, settings, booking } = scene;
    const newId = this.#with.makeId;
    const changes = {
      ...alertsToSave(before, [...living, ...closed]),
      steps: steps.map((step) => stepRowOf(step, { stepId: newId(), atMs }, null)),
      notices: newNotices(notices, { settings, booking, units: this.#with.noticeUnits(), atMs, newId }),
    };
    if (changes.save.length + changes.remove.length === 0) return;
    await this.#with.store.alerts.save(changes);
    if (notices.length > 0) this.#with.onNotices();
  }

  /** One answer, between two steps; what the booth is then is published. */
  say(alertId: string, said: SaidToAlert): Promise<AfterSaying> {
    const answered = this.#step.then(() => this.#say(alertId, said));
    this.#step = answered.then(
      () => undefined,
      (error: unknown) => this.#failed(error),
    );
    return answered.then((after) => this.advance().then(() => after));
  }

  async #say(alertId: string, said: SaidToAlert): Promise<AfterSaying> {
    const { alerts } = this.#with.store;
    this.#run ??= await this.#rebuild();
    const living = this.#run.alerts.find((each) => each.alertId === alertId);
    const alert = living ?? (await this.#closedAlert(alertId));
    if (alert?.boothId !== this.#boothId) return "noSuchAlert";
    if (await alerts.wasSaid(said.sayId)) return { alert: alertViewOf(alert, said.atMs) };
    const after = answerAlert(alert, said, this.#lullAtMs());
    if (after.step === null) return { alert: alertViewOf(alert, said.atMs) };
    const step = { alert: after.alert, step: after.step, by: said.by };
    await alerts.save({
      ...{ save: after.alert === alert ? [] : [rowOf(after.alert)], remove: [], notices: [] },
      steps: [stepRowOf(step, { stepId: this.#with.makeId(), atMs: said.atMs }, said)],
    });
    const others = this.#run.alerts.map((each) => (each.alertId === alertId ? after.alert : each));
    this.#run = { ...this.#run, alerts: others };
    return { alert: alertViewOf(after.alert, said.atMs) };
  }

  async #closedAlert(alertId: string): Promise<Alert | null> {
    const row = await this.#with.store.alerts.byId(alertId);
    return row && alertOf(row);
  }

  /** When the next lull begins, as far as the paper's forecast looks for one. */
  #lullAtMs(): number | null {
    return this.#run?.lookedAhead?.outlook.media?.change?.lull?.fromAtMs ?? null;
  }

  #publish(view: BoothView, atMs: number): void {
    const published = nextPublished(this.#published, view, atMs);
    if (published === null) return;
    this.#published = published;
    this.#with.publish(view);
  }

  /** A step that failed may have lost what it was given: the next one begins from the store. */
  #failed(error: unknown): void {
    this.#run = null;
    this.#with.log.error({ err: error, boothId: this.#boothId }, "a booth could not be advanced");
  }
}

function isLate(items: readonly StoredItem[], nowMs: number): boolean {
  return items.some((item) => item.class === "fact" && nowMs - item.atMs > lateMs);
}
